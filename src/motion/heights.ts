/** Rapids come down to this height above the stock's top; from there the tool goes at feed. */
export const RAPID_FLOOR = 0.5;

/** Slots are aimed this much deeper than meant: their floor may be 0.03 too deep and never too shallow. */
export const SLOT_AIM = 0.01;

/** Angle of a ramp into wood, radians: 3 degrees (common practice, no source). */
export const RAMP_ANGLE = (3 * Math.PI) / 180;

/** Chords that stand for an arc where a control has no arcs leave it by at most this. */
export const CHORD_SAGITTA = 0.002;

/** Length along a ramp at the ramp angle for a descent. */
export function rampLength(descent: number): number {
  return descent / Math.tan(RAMP_ANGLE);
}

/** Sideways feed, slowed where the path is steep so that its downward part stays within the plunge feed. */
export function feedOnSlope(feed: number, plunge: number, run: number, fall: number): number {
  if (fall <= 0) return feed;
  return Math.min(feed, (plunge * Math.hypot(run, fall)) / fall);
}
