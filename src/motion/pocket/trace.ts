import type { Area } from '../../geometry/area.ts';
import { fitWay } from '../../geometry/fit.ts';
import { segmentLength } from '../../geometry/segment.ts';
import type { Segment, Vec } from '../../geometry/types.ts';
import { distance } from '../../geometry/vec.ts';
import type { PocketOperation, RouterJob } from '../../machining/types.ts';
import { RAPID_FLOOR } from '../heights.ts';
import { runSegment } from '../run.ts';
import type { Move } from '../types.ts';
import { isFree } from './free.ts';
import { type LowWay, lowWays } from './lowWay.ts';

/** Laps, which leave an allowance, are fitted with arcs within this. Millimetres. */
const FIT = 0.004;

/** Rapids come down to this height above the floor they go to; a first pass starts from it above the top. */
export const START = 0.02;

/** Stopping and starting again for a lift, minutes: a third of a second (common practice, no source). */
const LIFT_TIME = 1 / 180;

/** Moves as they grow, and where the tool is. */
export interface Trace {
  readonly job: RouterJob;
  readonly moves: Move[];
  /** Whether a rapid may be lower than the travel height. */
  readonly mayBeLow: LowWay;
  at: Vec;
  z: number;
}

/** A tool high above a place, with no moves yet. */
export function newTrace(job: RouterJob, pocket: PocketOperation): Trace {
  return {
    job,
    moves: [],
    mayBeLow: lowWays(pocket, job),
    at: [Number.NaN, Number.NaN],
    z: Number.POSITIVE_INFINITY,
  };
}

/** Runs along a chain of points that starts at the tool, its height changing evenly to `z`. */
export function follow(trace: Trace, points: readonly Vec[], z = trace.z): void {
  runSides(trace, fitWay(points, FIT), z);
}

/** Runs along sides, the height changing evenly to `z`; a tool a hair off their start goes there first. */
export function runSides(trace: Trace, sides: readonly Segment[], z = trace.z, job = trace.job): void {
  const [first] = sides;
  if (first !== undefined) lineTo(trace, first.from);
  const lengths = sides.map(segmentLength);
  const total = lengths.reduce((a, b) => a + b, 0);
  const start = trace.z;
  let run = 0;
  sides.forEach((side, i) => {
    run += lengths[i] ?? 0;
    const height = run >= total ? z : start + ((z - start) * run) / total;
    trace.moves.push(...runSegment(side, height, trace.z - height, job));
    trace.z = height;
    trace.at = side.to;
  });
}

/** Straight up or down at plunge feed, in a place that is already cut at least so deep. */
export function setHeight(trace: Trace, z: number): void {
  if (Math.abs(z - trace.z) < 1e-9) return;
  trace.moves.push({ kind: 'feed', z, feed: trace.job.feeds.plunge });
  trace.z = z;
}

/** Straight up at rapid: what is above the tool is cut already. */
export function lift(trace: Trace, z: number): void {
  if (z <= trace.z + 1e-9) throw new Error(`a lift from ${trace.z} to ${z}`);
  trace.moves.push({ kind: 'rapid', z });
  trace.z = z;
}

/** Straight across at feed. */
export function lineTo(trace: Trace, to: Vec): void {
  if (distance(trace.at, to) < 1e-9) return;
  trace.moves.push({ kind: 'feed', x: to[0], y: to[1], z: trace.z, feed: trace.job.feeds.feed });
  trace.at = to;
}

/** Lifts, goes across and down to `z` above or in a place that is cut that deep. */
export function hop(trace: Trace, to: Vec, z: number): void {
  const { moves, job } = trace;
  const height = heightAcross(trace, to);
  if (trace.z < height) moves.push({ kind: 'rapid', z: height });
  moves.push({ kind: 'rapid', x: to[0], y: to[1] });
  if (Math.max(trace.z, height) > RAPID_FLOOR) moves.push({ kind: 'rapid', z: RAPID_FLOOR });
  if (z >= 0) moves.push({ kind: 'feed', z, feed: job.feeds.plunge });
  else moves.push({ kind: 'rapid', z });
  trace.at = to;
  trace.z = z;
}

/** Height of a rapid to another place: low over what the pocket clears, else as high as all travel. */
function heightAcross({ job, mayBeLow, at, z }: Trace, to: Vec): number {
  const isLow = Number.isFinite(z) && mayBeLow(at, to);
  return isLow ? RAPID_FLOOR : Math.max(RAPID_FLOOR, job.machine.travelHeight);
}

/** Straight across at feed where that stays in `free` and saves time, else by a lift. The height stays the same. */
export function goTo(trace: Trace, to: Vec, free: Area): void {
  if (distance(trace.at, to) < 1e-9) return;
  if (isQuicker(trace, to) && isFree(free, trace.at, to)) lineTo(trace, to);
  else hop(trace, to, trace.z);
}

/** Whether going straight across at feed saves time against a lift. */
export function isQuicker(trace: Trace, to: Vec): boolean {
  const { at, z } = trace;
  const { machine, feeds } = trace.job;
  const way = distance(at, to);
  const lift = (2 * (heightAcross(trace, to) - z)) / machine.rapid.z + way / machine.rapid.xy + LIFT_TIME;
  return way / feeds.feed <= lift;
}
