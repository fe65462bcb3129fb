/**
 * Height of a board of radius `R` at distance `y` from its crest line, 0 at the crest.
 * z = sqrt(R^2 - y^2) - R. Millimetres.
 */
export function surfaceHeight(radius: number, y: number): number {
  if (!(Math.abs(y) <= radius)) throw new Error(`board of radius ${radius} has no surface at y ${y}`);
  // The same as sqrt(R^2 - y^2) - R, without losing digits to cancellation.
  return -(y * y) / (Math.sqrt(radius * radius - y * y) + radius);
}

/** How far the middle of a chord lies from its arc: the sagitta of a board `width` wide. */
export function sagitta(radius: number, width: number): number {
  return -surfaceHeight(radius, width / 2);
}
