import { surfaceHeight } from '../geometry/surface.ts';
import type { Vec } from '../geometry/types.ts';
import { add, distance, leftNormal, scale, subtract, unit } from '../geometry/vec.ts';
import type { RouterJob, SlotOperation } from '../machining/types.ts';
import type { Floor, Top } from '../parts/types.ts';
import {
  CHORD_SAGITTA,
  feedOnArc,
  feedOnSlope,
  passDepth,
  RAPID_FLOOR,
  rampLength,
  SLOT_AIM,
} from './heights.ts';
import type { Move, Point } from './types.ts';

/**
 * Moves that cut one fret slot: several passes there and back without lifting, each a curve of its own between the blank's top
 * and the slot's floor, entered by a there-and-back ramp.
 *
 * A flat cutter touches a falling floor with its inner edge, so every curve is shifted outward by the cutter's radius:
 * a point of the floor is then finished when the cutter's edge, not its centre, has passed it. Begun at the line's first
 * end, or at its second when `backward`; each further lane at the end where the lane before it was left.
 */
export function slotMoves(slot: SlotOperation, job: RouterJob, backward = false): Move[] {
  let turned = backward;
  return lanes(slot.width, job.tool.diameter).flatMap((offset) => {
    const lane = laneOf(slot, job, offset);
    const run = turned ? { ...lane, from: lane.to, to: lane.from } : lane;
    if (lane.passes % 2 === 1) turned = !turned;
    return laneMoves(run, job);
  });
}

/** Where the cutter's centre runs, and how high at each pass. */
interface Lane {
  readonly from: Vec;
  readonly to: Vec;
  readonly passes: number;
  readonly curves: readonly Curve[];
}

/** z = crest + height of a board of `radius` at distance max(|y| - lag, 0) from the middle; flat when radius is null. */
interface Curve {
  readonly crest: number;
  readonly radius: number | null;
  readonly lag: number;
}

/** Offsets of the cutter's centre from the slot's middle: one for a cutter as wide as the slot, else side by side. */
function lanes(width: number, diameter: number): number[] {
  const spare = width - diameter;
  if (spare < 1e-6) return [0];
  const count = Math.max(2, Math.ceil(spare / (0.8 * diameter)) + 1);
  return Array.from({ length: count }, (_, i) => -spare / 2 + (spare * i) / (count - 1));
}

function laneOf(slot: SlotOperation, job: RouterJob, offset: number): Lane {
  const along = unit(subtract(slot.line[1], slot.line[0]));
  const past = scale(along, slot.runOut - job.tool.diameter / 2);
  const sideways = scale(leftNormal(along), offset);
  const from = add(subtract(slot.line[0], past), sideways);
  const to = add(add(slot.line[1], past), sideways);
  const lag = job.tool.diameter / 2;
  const reach = Math.max(Math.abs(from[1]), Math.abs(to[1]), lag) - lag;
  const floor = curveOf(slot.floor, from[0], SLOT_AIM, lag);
  const top = curveOf(job.setup.stock.top, from[0], 0, lag);
  const deepest = heightOf(top, reach + lag) - heightOf(floor, reach + lag);
  const passes = Math.ceil(Math.max(deepest, top.crest - floor.crest) / passDepth(job) - 1e-9);
  const curves = Array.from({ length: passes + 1 }, (_, k) => blend(top, floor, k / passes, reach));
  return { from, to, passes, curves };
}

function curveOf(surface: Floor | Top, x: number, deeper: number, lag: number): Curve {
  if (surface.kind === 'worked') return curveOf(surface.cone, x, deeper, lag);
  if (surface.kind === 'plane') return { crest: surface.z - deeper, radius: null, lag };
  const [x0, x1] = surface.x;
  const [r0, r1] = surface.R;
  const radius = x1 === x0 ? r0 : r0 + ((r1 - r0) * (x - x0)) / (x1 - x0);
  return { crest: surface.crest - surface.below - deeper, radius, lag };
}

/** The curve a share of the way down from one to another: again an arc, through the blended crest and ends. */
function blend(top: Curve, floor: Curve, share: number, reach: number): Curve {
  const crest = top.crest + (floor.crest - top.crest) * share;
  if (share === 1) return floor;
  const fall = fallOf(top, reach) + (fallOf(floor, reach) - fallOf(top, reach)) * share;
  const radius = fall < 1e-9 ? null : (reach * reach + fall * fall) / (2 * fall);
  return { crest, radius, lag: floor.lag };
}

/** How far a curve lies below its crest at a distance from where it starts to fall. */
function fallOf(curve: Curve, reach: number): number {
  return curve.radius === null ? 0 : -surfaceHeight(curve.radius, reach);
}

function heightOf(curve: Curve, y: number): number {
  if (curve.radius === null) return curve.crest;
  return curve.crest + surfaceHeight(curve.radius, Math.max(Math.abs(y) - curve.lag, 0));
}

function laneMoves(lane: Lane, job: RouterJob): Move[] {
  const start = lane.from;
  const moves: Move[] = [
    { kind: 'rapid', x: start[0], y: start[1] },
    { kind: 'rapid', z: RAPID_FLOOR },
    { kind: 'feed', z: heightOf(at(lane.curves, 0), start[1]), feed: job.feeds.plunge },
  ];
  for (let k = 1; k <= lane.passes; k += 1) {
    const [from, to] = k % 2 === 1 ? [lane.from, lane.to] : [lane.to, lane.from];
    moves.push(...rampIn(from, to, at(lane.curves, k - 1), at(lane.curves, k), job));
    moves.push(...along(from, to, at(lane.curves, k), job));
  }
  return [...moves, { kind: 'rapid', z: job.machine.clearHeight }];
}

/** Half the descent going forward, the other half coming back, so that no place is cut deeper than one pass at once. */
function rampIn(from: Vec, to: Vec, above: Curve, below: Curve, job: RouterJob): Move[] {
  const descent = heightOf(above, from[1]) - heightOf(below, from[1]);
  const length = Math.min(rampLength(descent / 2), distance(from, to) / 2);
  const turn = add(from, scale(unit(subtract(to, from)), length));
  const middle = (heightOf(above, turn[1]) + heightOf(below, turn[1])) / 2;
  const [start, end] = [heightOf(above, from[1]), heightOf(below, from[1])];
  return [
    { kind: 'feed', x: turn[0], y: turn[1], z: middle, feed: feedOnSlope(job, length, start - middle) },
    { kind: 'feed', x: from[0], y: from[1], z: end, feed: feedOnSlope(job, length, middle - end) },
  ];
}

/** The whole lane on one curve: arcs in the YZ plane where the slot and the control allow it, else short chords. */
function along(from: Vec, to: Vec, curve: Curve, job: RouterJob): Move[] {
  const stops = [from, ...breaks(from, to, curve.lag), to];
  const square = Math.abs(from[0] - to[0]) < 1e-9 && job.machine.controller.arcPlanes.includes('yz');
  return stops.slice(1).flatMap((end, i): Move[] => {
    const start = at(stops, i);
    const onFlat = curve.radius === null || Math.abs((start[1] + end[1]) / 2) <= curve.lag;
    if (onFlat || curve.radius === null) return [lineTo(start, end, curve, job)];
    if (square) return [arcTo(start, end, curve, curve.radius, job)];
    return chords(start, end, curve, curve.radius, job);
  });
}

/** Points of the lane at which the curve turns flat over the middle of the board. */
function breaks(from: Vec, to: Vec, lag: number): Vec[] {
  const rise = to[1] - from[1];
  if (Math.abs(rise) < 1e-9) return [];
  return [-lag, lag]
    .map((y) => (y - from[1]) / rise)
    .filter((t) => t > 1e-9 && t < 1 - 1e-9)
    .sort((a, b) => a - b)
    .map((t) => [from[0] + (to[0] - from[0]) * t, from[1] + rise * t]);
}

function lineTo(start: Vec, end: Vec, curve: Curve, job: RouterJob): Move {
  const z = heightOf(curve, end[1]);
  const feed = feedOnSlope(job, distance(start, end), heightOf(curve, start[1]) - z);
  return { kind: 'feed', x: end[0], y: end[1], z, feed };
}

function arcTo(start: Vec, end: Vec, curve: Curve, radius: number, job: RouterJob): Move {
  const side = start[1] + end[1] > 0 ? 1 : -1;
  const to: Point = { x: end[0], y: end[1], z: heightOf(curve, end[1]) };
  const centre: Point = { x: end[0], y: side * curve.lag, z: curve.crest - radius };
  const farthest = Math.max(Math.abs(start[1]), Math.abs(end[1])) - curve.lag;
  const feed = feedOnArc(job, farthest / radius, heightOf(curve, start[1]) - to.z);
  // Over the hill toward +y is clockwise when looked at from +x.
  return { kind: 'arc', plane: 'yz', clockwise: end[1] > start[1], to, centre, feed };
}

function chords(start: Vec, end: Vec, curve: Curve, radius: number, job: RouterJob): Move[] {
  const longest = Math.sqrt(8 * radius * CHORD_SAGITTA);
  const count = Math.ceil(distance(start, end) / longest);
  const pointAt = (k: number): Vec => add(start, scale(subtract(end, start), k / count));
  return Array.from({ length: count }, (_, i) => lineTo(pointAt(i), pointAt(i + 1), curve, job));
}

function at<T>(list: readonly T[], index: number): T {
  const item = list[index];
  if (item === undefined) throw new Error(`item ${index} of a list of ${list.length}`);
  return item;
}
