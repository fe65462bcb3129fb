/**
 * Length of a cone from its full diameter to its point: diameter / (2 tan(half the included angle)).
 * A flat end (null angle) has none. Millimetres, radians.
 */
export function coneLength(diameter: number, includedAngle: number | null): number {
  return includedAngle === null ? 0 : diameter / 2 / Math.tan(includedAngle / 2);
}

/**
 * How deep a cone gets from one diameter to another: (wide - narrow) / (2 tan(half the included angle)). A reamer advances by
 * that from touching a hole of `narrow` all round until it is `wide` at the face. Millimetres, radians.
 * @example coneDepth(5.6, 4.76, 3 * Math.PI / 180) // 16.04
 */
export function coneDepth(wide: number, narrow: number, includedAngle: number): number {
  return (wide - narrow) / (2 * Math.tan(includedAngle / 2));
}

/** Diameter of a cone that is `wide` at the face, `depth` below it. Millimetres, radians. */
export function coneDiameter(wide: number, depth: number, includedAngle: number): number {
  return wide - 2 * depth * Math.tan(includedAngle / 2);
}
