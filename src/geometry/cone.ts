/**
 * Length of a cone from its full diameter to its point: diameter / (2 tan(half the included angle)).
 * A flat end (null angle) has none. Millimetres, radians.
 */
export function coneLength(diameter: number, includedAngle: number | null): number {
  return includedAngle === null ? 0 : diameter / 2 / Math.tan(includedAngle / 2);
}
