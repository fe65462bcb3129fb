import type { Tool } from '../profile/types.ts';

/** Young's modulus of cemented carbide, N/mm^2: about 600 GPa in handbooks (from memory; grades run from 550 to 650). */
const MODULUS = 600_000;

/**
 * Diameter of the round bar that bends as the fluted length does, as a share of the cutting diameter. Assumed for two flutes;
 * 0.8 is known for four (Kops and Vo, CIRP Annals 39(1), 1990, from memory).
 */
const CORE = 0.7;

/**
 * How far a cutter's tip bends aside under a force at the tip, mm for newtons. A cantilever held at the collet in two lengths,
 * shank and flutes. With x from the tip, the tip moves by F/E times the integral of x^2 / I(x), which for one length is the
 * textbook's F L^3 / (3 E I); I = pi d^4 / 64 for a round bar.
 */
export function tipDeflection(tool: Tool, force: number): number {
  const { diameter, shankDiameter, cuttingLength, stickOut } = tool;
  const fluted = cuttingLength ** 3 / inertia(diameter * CORE);
  const shank = (stickOut ** 3 - cuttingLength ** 3) / inertia(shankDiameter);
  return (force * (fluted + shank)) / (3 * MODULUS);
}

function inertia(diameter: number): number {
  return (Math.PI * diameter ** 4) / 64;
}
