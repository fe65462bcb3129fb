import type { Nearness } from './nearness.ts';
import type { Vec } from './types.ts';

/** Points looked at along the front half of a cutter. */
const LOOKS = 24;

/**
 * How much of the front half of a flat cutter meets wood, radians (0 to pi): at a point of its path, going in the unit
 * direction `toward`, when all within a radius of the places that `isCleared` tells is already away. An angle of 0 cuts air, of pi a full slot.
 */
export function engagementAt(at: Vec, toward: Vec, radius: number, isCleared: Nearness): number {
  let met = 0;
  for (let k = 0; k < LOOKS; k += 1) {
    const angle = -Math.PI / 2 + ((k + 0.5) * Math.PI) / LOOKS;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const point: Vec = [
      at[0] + radius * (toward[0] * c - toward[1] * s),
      at[1] + radius * (toward[0] * s + toward[1] * c),
    ];
    if (!isCleared(point)) met += 1;
  }
  return (met / LOOKS) * Math.PI;
}
