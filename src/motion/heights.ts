import type { RouterJob } from '../machining/types.ts';
import type { Controller } from '../profile/types.ts';
import { MM_PER_INCH } from '../units/convert.ts';

export { RAPID_FLOOR } from '../units/rapidFloor.ts';

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
 * Sideways feed, slowed where the path is steep so that its upright part stays within the plunge feed going down (`fall` above
 * 0), and within the machine's feed up and down going up. Ends are written to the nearest step of the last digit, so a short
 * move may come out that much steeper.
 */
export function feedOnSlope(job: RouterJob, run: number, fall: number): number {
  const { feed } = job.feeds;
  if (Math.abs(fall) < 1e-9) return feed;
  const step = stepOf(job.machine.controller);
  const [shortest, steepest] = [Math.max(run - 1.5 * step, 0), Math.abs(fall) + step];
  return Math.min(feed, (uprightLimit(job, fall) * Math.hypot(shortest, steepest)) / steepest);
}

/** The same for an arc that stands upright: `steepest` is the share of its way that goes up or down where it is steepest. */
export function feedOnArc(job: RouterJob, steepest: number, fall: number): number {
  const { feed } = job.feeds;
  return steepest <= 0 ? feed : Math.min(feed, uprightLimit(job, fall) / Math.min(1, steepest));
}

function uprightLimit({ feeds, machine }: RouterJob, fall: number): number {
  return fall > 0 ? feeds.plunge : machine.maxFeed.z;
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

/** The same job at the feed of its last pass along walls. */
export function atWallFeed(job: RouterJob): RouterJob {
  const { wall } = job.feeds;
  if (wall === null) throw new Error(`${job.program} finishes walls without a feed for them`);
  return { ...job, feeds: { ...job.feeds, feed: wall.feed } };
}
