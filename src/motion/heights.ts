import type { RouterJob } from '../machining/types.ts';
import type { Controller } from '../profile/types.ts';
import { MM_PER_INCH } from '../units/convert.ts';

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

/**
 * Sideways feed, slowed where the path is steep so that its downward part stays within the plunge feed. Ends are written
 * to the nearest `step`, so a short move may come out that much steeper.
 */
export function feedOnSlope(feed: number, plunge: number, run: number, fall: number, step: number): number {
  if (fall <= 0) return feed;
  const [shortest, steepest] = [Math.max(run - 1.5 * step, 0), fall + step];
  return Math.min(feed, (plunge * Math.hypot(shortest, steepest)) / steepest);
}

/** Millimetres that the last written digit of a length stands for. */
export function stepOf({ units, decimals }: Controller): number {
  return (units === 'mm' ? 1 : MM_PER_INCH) * 10 ** -decimals;
}

/** A bite that comes out deeper than planned by no more than this, from rounding its two heights, is let pass. */
const LET_PASS = 0.001;

/** Deepest pass that is planned, so that it stays within the step-down once both its heights are rounded. */
export function passDepth(job: RouterJob): number {
  return job.feeds.stepDown - Math.max(0, stepOf(job.machine.controller) - LET_PASS);
}
