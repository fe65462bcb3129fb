/** From what a string is made of to what it weighs and how it resists. */
import type { Construction, StringBody } from './types.ts';

const circle = (diameter: number): number => (Math.PI * diameter ** 2) / 4;

/** g/m of a section in mm2 at a density in kg/m3. */
const gramsPerMetre = (density: number, area: number): number => density * area * 1e-3;

/**
 * Share of the ring between core and gauge that a close single wrap of round wire fills: its turns of length pi (d + w)
 * stand w apart, so the volume per length is (pi/4) of the ring's area, exactly but for the helix's slant.
 */
export const WRAP_PACKING = Math.PI / 4;

/** Mass per length in g/m, weighed or from core and wrap. */
export function massPerMetre(c: Construction): number {
  if (c.massPerMetre !== null) return c.massPerMetre;
  const core = gramsPerMetre(c.coreDensity, circle(c.core));
  if (c.wrapDensity === null) return core;
  return core + WRAP_PACKING * gramsPerMetre(c.wrapDensity, circle(c.diameter) - circle(c.core));
}

/** What the model needs to know of a string of that construction. I = pi d^4 / 64 of the core alone. */
export function bodyOf(c: Construction): StringBody {
  return {
    massPerMetre: massPerMetre(c),
    axial: c.modulus * circle(c.core),
    bending: (c.modulus * Math.PI * c.core ** 4) / 64,
  };
}

/** Tensile stress in MPa of a core of that diameter under a tension in newtons. */
export const coreStress = (tension: number, core: number): number => tension / circle(core);
