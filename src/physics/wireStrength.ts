/**
 * Least tensile strength of music wire.
 *
 * ASTM A228/A228M, Steel Wire, Music Spring Quality, by diameter. The table was read in a wire seller's reproduction, in
 * inches and thousands of pounds per square inch; the standard's own page was not seen.
 */
import { inchesFromMm, MM_PER_INCH, NEWTONS_PER_POUND_FORCE } from '../units/convert.ts';

/** MPa of a thousand pounds-force per square inch. */
const MPA_PER_KSI = (1000 * NEWTONS_PER_POUND_FORCE) / MM_PER_INCH ** 2;

/** Diameter in thousandths of an inch, minimum in ksi. */
const TABLE: readonly (readonly [thou: number, ksi: number])[] = [
  [4, 439],
  [5, 426],
  [6, 415],
  [7, 407],
  [8, 399],
  [9, 393],
  [10, 387],
  [11, 382],
  [12, 377],
  [13, 373],
  [14, 369],
  [15, 365],
  [16, 362],
  [18, 356],
  [20, 350],
  [22, 345],
  [24, 341],
  [26, 337],
  [28, 333],
  [30, 330],
  [32, 327],
  [34, 324],
  [36, 321],
  [38, 318],
  [40, 315],
  [42, 313],
  [45, 309],
  [48, 306],
  [51, 303],
  [55, 300],
  [59, 296],
  [63, 293],
];

/**
 * Least tensile strength in MPa of music wire of a diameter in mm; between two entries along a power law, beyond the
 * table's ends along its last two.
 * @example musicWireStrength(0.3048) // 2599.3
 */
export function musicWireStrength(diameter: number): number {
  const thou = 1000 * inchesFromMm(diameter);
  const above = TABLE.findIndex(([d]) => d >= thou);
  const upper = above < 0 ? TABLE.length - 1 : Math.max(1, above);
  const [low, high] = [TABLE[upper - 1], TABLE[upper]];
  if (low === undefined || high === undefined || !(thou > 0)) throw new Error(`wire of ${diameter} mm`);
  const exponent = Math.log(high[1] / low[1]) / Math.log(high[0] / low[0]);
  return MPA_PER_KSI * low[1] * (thou / low[0]) ** exponent;
}
