/**
 * How bending stiffness raises a string's fundamental, as a factor on the ideal string's.
 *
 * B = sqrt(E I / T) / L. Both series as in Anderson & Beausoleil, J. Acoust. Soc. Am. 156(1), 683 (2024).
 */

/** B of a string: bending stiffness in N mm2, tension in N, length in mm. */
export const stiffnessNumber = (bending: number, tension: number, length: number): number =>
  Math.sqrt(bending / tension) / length;

/** Held rigidly at one end (fret or nut), free to turn at the other (saddle): 1 + B + (1 + pi^2/2) B^2. */
export const clampedPinned = (b: number): number => 1 + b + (1 + Math.PI ** 2 / 2) * b ** 2;

/** Held rigidly at both ends (P. M. Morse, Vibration and Sound): 1 + 2 B + 4 (1 + pi^2/8) B^2. */
export const clampedClamped = (b: number): number => 1 + 2 * b + 4 * (1 + Math.PI ** 2 / 8) * b ** 2;
