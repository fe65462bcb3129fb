import type { Vec } from '../geometry/types.ts';
import { add, distance, leftNormal, scale, subtract, unit } from '../geometry/vec.ts';
import type { RouterJob, SlotOperation } from '../machining/types.ts';
import { boardTop } from './boardTop.ts';
import { feedOnSlope, passDepth, RAPID_FLOOR, rampLength, SLOT_AIM } from './heights.ts';
import { bowOf, type Course, coursesOf, depthOf, type Ground } from './slotCourse.ts';
import type { Move } from './types.ts';

/**
 * Moves that cut one fret slot: several passes there and back without lifting, each a curve of its own between the blank's top
 * and the slot's floor, entered by a there-and-back ramp inside the slot. Begun at the line's first end, or at its second when
 * `backward`; each further lane at the end where the lane before it was left.
 */
export function slotMoves(slot: SlotOperation, job: RouterJob, backward = false): Move[] {
  let turned = backward;
  const offsets = lanes(slot.width, job.tool.diameter);
  return offsets.flatMap((offset, i) => {
    const lane = laneOf(slot, job, offset, offset - (offsets[i - 1] ?? offset));
    const run = turned ? { ...lane, from: lane.to, to: lane.from, besides: swapped(lane.besides) } : lane;
    if (lane.passes % 2 === 1) turned = !turned;
    return laneMoves(run, job);
  });
}

/** Where the cutter's centre runs, and how high at each pass. */
interface Lane {
  readonly from: Vec;
  readonly to: Vec;
  /** Where the lane before it ended, beside an end at which the slot stops in the wood; null elsewhere. */
  readonly besides: readonly [Vec | null, Vec | null];
  readonly passes: number;
  readonly courses: readonly Course[];
}

/** Offsets of the cutter's centre from the slot's middle: one for a cutter as wide as the slot, else side by side. */
function lanes(width: number, diameter: number): number[] {
  const spare = width - diameter;
  if (spare < 1e-6) return [0];
  const count = Math.max(2, Math.ceil(spare / (0.8 * diameter)) + 1);
  return Array.from({ length: count }, (_, i) => -spare / 2 + (spare * i) / (count - 1));
}

/** Past an end that runs out, the cutter's edge goes as far as the run-out; where the slot stops it just reaches the line's end. */
function laneOf(slot: SlotOperation, job: RouterJob, offset: number, fromLast: number): Lane {
  const radius = job.tool.diameter / 2;
  const along = unit(subtract(slot.line[1], slot.line[0]));
  const sideways = scale(leftNormal(along), offset);
  const back = scale(leftNormal(along), -fromLast);
  const beside = (end: Vec, runOut: number): Vec | null =>
    runOut > 0 || fromLast === 0 ? null : add(end, back);
  const from = add(subtract(slot.line[0], scale(along, slot.runOut[0] - radius)), sideways);
  const to = add(add(slot.line[1], scale(along, slot.runOut[1] - radius)), sideways);
  const ground: Ground = {
    top: boardTop(job.setup),
    floor: slot.floor,
    aim: SLOT_AIM,
    lag: radius,
    from,
    to,
  };
  const passes = Math.ceil(depthOf(ground) / (passDepth(job) - bowOf(ground, job)) - 1e-9);
  const besides = [beside(from, slot.runOut[0]), beside(to, slot.runOut[1])] as const;
  return { from, to, besides, passes, courses: coursesOf(ground, passes) };
}

function swapped<T>([a, b]: readonly [T, T]): readonly [T, T] {
  return [b, a];
}

function laneMoves(lane: Lane, job: RouterJob): Move[] {
  const start = lane.from;
  const moves: Move[] = [
    { kind: 'rapid', x: start[0], y: start[1] },
    { kind: 'rapid', z: RAPID_FLOOR },
    { kind: 'feed', z: at(lane.courses, 0).heightAt(start), feed: job.feeds.plunge },
  ];
  for (let k = 1; k <= lane.passes; k += 1) {
    const [from, to] = k % 2 === 1 ? [lane.from, lane.to] : [lane.to, lane.from];
    const [besideFrom, besideTo] = k % 2 === 1 ? lane.besides : swapped(lane.besides);
    const course = at(lane.courses, k);
    moves.push(...rampIn(from, to, at(lane.courses, k - 1), course, job));
    moves.push(...across(from, besideFrom, course, job));
    moves.push(...course.moves(from, to, job));
    moves.push(...across(to, besideTo, course, job));
  }
  return [...moves, { kind: 'rapid', z: job.machine.clearHeight }];
}

/** To the end of the lane before and back: between the round ends of two lanes a tongue would be left. */
function across(end: Vec, beside: Vec | null, course: Course, job: RouterJob): Move[] {
  if (beside === null) return [];
  const run = distance(beside, end);
  const rise = course.heightAt(beside) - course.heightAt(end);
  return [
    {
      kind: 'feed',
      x: beside[0],
      y: beside[1],
      z: course.heightAt(beside),
      feed: feedOnSlope(job, run, -rise),
    },
    { kind: 'feed', x: end[0], y: end[1], z: course.heightAt(end), feed: feedOnSlope(job, run, rise) },
  ];
}

/** Half the descent going forward, the other half coming back, so that no place is cut deeper than one pass at once. */
function rampIn(from: Vec, to: Vec, above: Course, below: Course, job: RouterJob): Move[] {
  const descent = above.heightAt(from) - below.heightAt(from);
  const length = Math.min(rampLength(descent / 2), distance(from, to) / 2);
  const turn = add(from, scale(unit(subtract(to, from)), length));
  const middle = (above.heightAt(turn) + below.heightAt(turn)) / 2;
  const [start, end] = [above.heightAt(from), below.heightAt(from)];
  return [
    { kind: 'feed', x: turn[0], y: turn[1], z: middle, feed: feedOnSlope(job, length, start - middle) },
    { kind: 'feed', x: from[0], y: from[1], z: end, feed: feedOnSlope(job, length, middle - end) },
  ];
}

function at<T>(list: readonly T[], index: number): T {
  const item = list[index];
  if (item === undefined) throw new Error(`item ${index} of a list of ${list.length}`);
  return item;
}
