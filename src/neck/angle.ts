/** The neck's angle over a domed top, and what the top does under the straightedge. Millimetres, radians. */

/** A top as it rises from the joint. `null` radius: flat. */
export interface Dome {
  readonly radius: number | null;
  /** From the joint to the highest place. */
  readonly apex: number;
}

/**
 * Height of a domed top over its height at the joint, `along` beyond it: (a^2 - (a - s)^2) / (2 R), a parabola that keeps to
 * the sphere within 0.001 mm over a top. Measured from the rim's plane, never from a chord on the top.
 * @example domeRise({ radius: 8534, apex: 240 }, 316.5) // 3.032
 */
export function domeRise({ radius, apex }: Dome, along: number): number {
  return radius === null ? 0 : (apex * apex - (apex - along) ** 2) / (2 * radius);
}

/** What decides the angle. All from the rim's plane at the joint. */
export interface AngleInputs {
  /** Joint to saddle line. */
  readonly length: number;
  readonly fretsAboveRim: number;
  /** Straightedge above the bare top at the saddle line: bridge and clearance. */
  readonly straightedge: number;
  readonly rise: number;
}

/** Tangent of the neck's angle, head back positive: (straightedge + rise - frets at the joint) / length. */
export function neckSlope({ length, fretsAboveRim, straightedge, rise }: AngleInputs): number {
  return (straightedge + rise - fretsAboveRim) / length;
}
