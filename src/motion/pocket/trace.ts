import { type Area, isNear } from '../../geometry/area.ts';
import { fitWay } from '../../geometry/fit.ts';
import { segmentLength } from '../../geometry/segment.ts';
import type { Segment, Vec } from '../../geometry/types.ts';
import { between, distance } from '../../geometry/vec.ts';
import type { RouterJob } from '../../machining/types.ts';
import { RAPID_FLOOR } from '../heights.ts';
import { runSegment } from '../run.ts';
import type { Move } from '../types.ts';

/** Laps, which leave an allowance, are fitted with arcs within this. Millimetres. */
const FIT = 0.004;

/** A straight way counts as within an area when it leaves it by no more than this. Millimetres. */
const WITHIN = 0.01;

/** Rapids come down to this height above the floor they go to; a first pass starts from it above the top. */
export const START = 0.05;

/** Stopping and starting again for a lift, minutes: a third of a second (common practice, no source). */
const LIFT_TIME = 1 / 180;

/** Moves as they grow, and where the tool is. */
export interface Trace {
  readonly job: RouterJob;
  readonly moves: Move[];
  at: Vec;
  z: number;
}

/** A tool high above a place, with no moves yet. */
export function newTrace(job: RouterJob): Trace {
  return { job, moves: [], at: [Number.NaN, Number.NaN], z: Number.POSITIVE_INFINITY };
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

/** Straight across at feed. */
export function lineTo(trace: Trace, to: Vec): void {
  if (distance(trace.at, to) < 1e-9) return;
  trace.moves.push({ kind: 'feed', x: to[0], y: to[1], z: trace.z, feed: trace.job.feeds.feed });
  trace.at = to;
}

/** Lifts, goes across and down to `z` above or in a place that is cut that deep. */
export function hop(trace: Trace, to: Vec, z: number): void {
  const { moves, job } = trace;
  if (trace.z < RAPID_FLOOR) moves.push({ kind: 'rapid', z: RAPID_FLOOR });
  moves.push({ kind: 'rapid', x: to[0], y: to[1] });
  if (trace.z > RAPID_FLOOR) moves.push({ kind: 'rapid', z: RAPID_FLOOR });
  if (z >= 0) moves.push({ kind: 'feed', z, feed: job.feeds.plunge });
  else moves.push({ kind: 'rapid', z });
  trace.at = to;
  trace.z = z;
}

/** Straight across at feed where that stays in `free` and saves time, else by a lift. The height stays the same. */
export function goTo(trace: Trace, to: Vec, free: Area): void {
  if (distance(trace.at, to) < 1e-9) return;
  if (isQuicker(trace, to) && isFree(free, trace.at, to)) lineTo(trace, to);
  else hop(trace, to, trace.z);
}

/** Whether going straight across at feed saves time against a lift. */
export function isQuicker({ job, at, z }: Trace, to: Vec): boolean {
  const { machine, feeds } = job;
  const way = distance(at, to);
  const lift = (2 * (RAPID_FLOOR - z)) / machine.rapid.z + way / machine.rapid.xy + LIFT_TIME;
  return way / feeds.feed <= lift;
}

/** Whether a straight way stays in an area. */
export function isFree(free: Area, from: Vec, to: Vec): boolean {
  const count = Math.max(1, Math.ceil(distance(from, to) / 0.1));
  return Array.from({ length: count + 1 }, (_, i) => between(from, to, i / count)).every((p) =>
    isNear(free, p, WITHIN),
  );
}
