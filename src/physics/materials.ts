/** What strings are made of, with the source of every figure. */
import { inchesFromMm, MM_PER_INCH, NEWTONS_PER_POUND_FORCE } from '../units/convert.ts';
import type { CoreMaterial, WrapMaterial } from './types.ts';
import { musicWireStrength } from './wireStrength.ts';

/** MPa of a million pounds-force per square inch. */
const MPA_PER_MPSI = (1e6 * NEWTONS_PER_POUND_FORCE) / MM_PER_INCH ** 2;

/** Young's modulus of music wire, Shigley's Mechanical Engineering Design, Table 10-5, by diameter. */
function musicWireModulus(diameter: number): number {
  const inches = inchesFromMm(diameter);
  if (inches <= 0.032) return 29.5 * MPA_PER_MPSI;
  if (inches <= 0.063) return 29 * MPA_PER_MPSI;
  return (inches <= 0.125 ? 28.5 : 28) * MPA_PER_MPSI;
}

export const STEEL: CoreMaterial = {
  density: 7850,
  modulus: musicWireModulus,
  strength: musicWireStrength,
  modulusTolerance: 0.02,
  sources:
    "music wire: E 200 to 203 GPa by diameter (Shigley's Mechanical Engineering Design, Table 10-5), strength ASTM A228 minimum, density 7850 kg/m3 (usual value, from memory)",
};

/**
 * The modulus is the mean of the three plain strings of one published set at pitch (8.33, 4.82 and 3.87 GPa): it rises
 * with tension, so the tolerance is wide.
 */
export const NYLON: CoreMaterial = {
  density: 1060,
  modulus: () => 5670,
  strength: () => 400,
  modulusTolerance: 0.4,
  sources:
    'nylon: E 5.67 GPa, mean of the plain strings of the normal-tension set of Anderson & Beausoleil, J. Acoust. Soc. Am. 156(1), 683 (2024); density 1060 kg/m3 and strength 400 MPa from memory',
};

/**
 * Worked back from the three wound strings of the same set: with pi/4 packing of silvered copper their masses leave a
 * core of 0.48 mm, and their measured stretch then gives 17.7, 18.1 and 19.7 GPa.
 */
export const NYLON_FLOSS: CoreMaterial = {
  density: 1060,
  modulus: () => 18500,
  strength: () => 900,
  modulusTolerance: 0.3,
  sources:
    'multifilament nylon: E 18.5 GPa, worked back from the wound strings of the normal-tension set of Anderson & Beausoleil (2024); density 1060 kg/m3 and strength 900 MPa from memory',
};

export const GUT: CoreMaterial = {
  density: 1300,
  modulus: () => 5500,
  strength: () => 350,
  modulusTolerance: 0.3,
  sources: 'gut: E 5.5 GPa, density 1300 kg/m3, strength 350 MPa, all from memory',
};

const fromMemory = (alloy: string, density: number): WrapMaterial => ({
  density,
  sources: `${alloy}: density ${density} kg/m3 (handbook figure, from memory)`,
});

export const PHOSPHOR_BRONZE = fromMemory('phosphor bronze', 8860);
export const BRONZE_80_20 = fromMemory('80/20 bronze', 8670);
export const NICKEL_PLATED_STEEL = fromMemory('nickel-plated steel', 7850);
export const NICKEL = fromMemory('nickel', 8900);
export const STAINLESS_STEEL = fromMemory('stainless steel', 7900);
export const SILVERED_COPPER = fromMemory('silvered copper', 8940);
