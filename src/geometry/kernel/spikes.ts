/**
 * Ways into long, sharp corners: from wall to wall and back, a step farther in each time, and out again along one wall.
 *
 * Laps into such a corner would each run several steps farther in than the one before, the cutter buried all the way; and out
 * again over what they cut going in.
 */
import {
  type Area,
  divided,
  footOn,
  isInArea,
  lengthRound,
  type Polygon,
  pointOf,
  stretchOf,
} from '../area.ts';
import { nearnessTo } from '../nearness.ts';
import type { Vec } from '../types.ts';
import { between, distance } from '../vec.ts';
import { common, grown } from './area.ts';

/** Places of the centre in a corner, and the way through it. */
export interface Spike {
  /** Begins on the wall at which the front at the mouth ends. */
  readonly way: readonly Vec[];
  /** The front at the mouth, in the sense in which a lap runs along it, and its ends. */
  readonly mouth: readonly Vec[];
  readonly leaves: Vec;
  readonly joins: Vec;
}

export interface SpikeSettings {
  readonly radius: number;
  readonly grain: number;
  /** At most this is left on the walls for the finishing pass besides the allowance, mm. */
  readonly left: number;
  /** Out along the wall where the way began, or the other one. */
  readonly out: 'same wall' | 'other wall';
}

/** The farthest step, of the radius: passes square to a wall leave scallops of 0.13 radii between them. */
const STEP = 0.5;
/** Where a corner is narrow, a step is at most this share of its width, so that the cutter goes sideways more than forward. */
const SIDEWAYS = 0.5;
/** A corner narrower than this share of the radius is gone into straight to its tip. */
const NARROW = 0.06;
/** The last front is narrower than this share of the radius. */
const POINTED = 0.35;
/** A wall that turns inward farther than this on its way to the tip has a corner of its own: 10 degrees. */
const MOST_TURN = Math.PI / 18;
/** Points of a pass from wall to wall. */
const POINTS = 12;
/** The way keeps to the corner within this, mm. */
const WITHIN = 0.004;
/** A corner has no more passes than this. */
const MOST = 400;

/**
 * The way through a corner whose mouth lies on `base`; null where it has branches or bulges, so that the front does not stay
 * one line from wall to wall.
 */
export function spikeWay(corner: Polygon, base: Area, settings: SpikeSettings): Spike | null {
  const fronts = frontsOf(corner, base, settings);
  const [mouth] = fronts ?? [];
  if (fronts === null || mouth === undefined) return null;
  // The wall that is not followed on the way out is only come to at places.
  if (settings.out === 'same wall' && turnOf(firstWall(corner, fronts)) > MOST_TURN) return null;
  const way = acrossAll(fronts, settings);
  const [leaves, joins] = [pointOf(mouth, 0), pointOf(mouth, -1)];
  const out = outOf(corner, fronts, settings.out === 'same wall' ? joins : null, leaves);
  const isWithin = nearnessTo([corner], WITHIN + MOUTH);
  return [...way, ...out].every(isWithin) ? { way: [...way, ...out], mouth, leaves, joins } : null;
}

/** A corner is looked for this far before its mouth, mm. */
const MOUTH = 0.02;

/** The front at the mouth of a corner, from wall to wall; null where there is none, or more than one. */
export function mouthOf(corner: Polygon, base: Area, radius: number, grain: number): Vec[] | null {
  const near = common(base, grown([corner], 2 * radius, grain));
  const wide = grown([corner], MOUTH, grain);
  const [mouth, ...more] = near.flatMap((ring) => runsInside(ring, wide, radius / 8));
  return mouth === undefined || more.length > 0 ? null : mouth;
}

/** Open lines from wall to wall, each a step farther from the base; null where there is more than one at some distance. */
function frontsOf(corner: Polygon, base: Area, { radius, grain, left }: SpikeSettings): Vec[][] | null {
  const near = common(base, grown([corner], 2 * radius, grain));
  const wide = grown([corner], MOUTH, grain);
  const fronts: Vec[][] = [];
  let [off, step] = [0, 0];
  for (let k = 0; k < MOST; k += 1) {
    const runs = (off === 0 ? near : grown(near, off, grain)).flatMap((ring) =>
      runsInside(ring, off === 0 ? wide : [corner], radius / 8),
    );
    const [front, ...more] = runs;
    if (more.length > 0) return null;
    // An end that is not pointed is no corner.
    if (front === undefined) return wayLength(fronts.at(-1) ?? []) < POINTED * radius ? fronts : null;
    const width = wayLength(front);
    if (width < NARROW * radius) return fronts;
    fronts.push(front);
    // Passes at a slant to a wall leave on it nearly a step times the slant's cosine.
    const slant = slantOf(fronts, step);
    step = Math.min(STEP * radius, SIDEWAYS * width, left / Math.max(slant, left / (STEP * radius)));
    off += step;
  }
  return null;
}

/** Cosine of the angle at which the last front meets a wall, as its ends tell; 1 at the mouth, where it only touches. */
function slantOf(fronts: readonly (readonly Vec[])[], step: number): number {
  const [before, last] = [fronts.at(-2), fronts.at(-1)];
  if (before === undefined || last === undefined) return 1;
  const moved = Math.max(
    distance(pointOf(before, 0), pointOf(last, 0)),
    distance(pointOf(before, -1), pointOf(last, -1)),
  );
  return Math.sqrt(Math.max(0, 1 - (step / Math.max(step, moved)) ** 2));
}

function wayLength(way: readonly Vec[]): number {
  return way.slice(1).reduce((sum, p, i) => sum + distance(p, way[i] ?? p), 0);
}

/** The runs of a closed line inside an area, cut off at its walls; points of the line are no farther apart than `most` mm. */
function runsInside(ring: Polygon, area: Area, most: number): Vec[][] {
  const points = divided(ring, most);
  const isIn = points.map((p) => isInArea(area, p));
  const first = isIn.findIndex((inside, i) => !inside && isIn[(i + 1) % isIn.length]);
  if (first < 0) return isIn[0] === true ? [[...points, pointOf(points, 0)]] : [];
  const runs: Vec[][] = [];
  let run: Vec[] = [];
  for (let k = 1; k <= points.length; k += 1) {
    const i = first + k;
    const [before, here] = [pointOf(points, i - 1), pointOf(points, i)];
    if (isIn[i % isIn.length] === true) {
      if (run.length === 0) run.push(crossing(area, before, here));
      run.push(here);
    } else if (run.length > 0) {
      runs.push([...run, crossing(area, here, before)]);
      run = [];
    }
  }
  return runs;
}

/** Where the way from a point outside to one inside crosses an area's boundary. */
function crossing(area: Area, outside: Vec, inside: Vec): Vec {
  let [low, high] = [0, 1];
  for (let k = 0; k < 12; k += 1) {
    const middle = (low + high) / 2;
    if (isInArea(area, between(outside, inside, middle))) high = middle;
    else low = middle;
  }
  return between(outside, inside, high);
}

/** Passes keep off the wall that is followed on the way out by this share of the radius, so that the way out cuts all along. */
const SHY = 0.06;

/** To and fro over the fronts, each pass from one front at its beginning to the next at its end. */
function acrossAll(fronts: readonly (readonly Vec[])[], { radius, out }: SpikeSettings): Vec[] {
  const way: Vec[] = [];
  const offOut = (front: readonly Vec[], share: number): number => {
    const shy = Math.min(0.25, (SHY * radius) / Math.max(wayLength(front), SHY * radius));
    return out === 'same wall' ? Math.min(share, 1 - shy) : Math.max(share, shy);
  };
  fronts.slice(1).forEach((front, k) => {
    const before = fronts[k] ?? front;
    for (let i = 0; i <= POINTS; i += 1) {
      const share = i / POINTS;
      const place = k % 2 === 0 ? 1 - share : share;
      const from = k === 0 ? place : offOut(before, place);
      way.push(between(pointAlong(before, from), pointAlong(front, offOut(front, place)), share));
    }
  });
  const [mouth] = fronts;
  return way.length > 0 || mouth === undefined ? way : [pointOf(mouth, -1)];
}

/** The point at a share of an open way's length. */
function pointAlong(way: readonly Vec[], share: number): Vec {
  let left = share * wayLength(way);
  for (let i = 0; i + 1 < way.length; i += 1) {
    const [p, q] = [pointOf(way, i), pointOf(way, i + 1)];
    const length = distance(p, q);
    if (left <= length) return length === 0 ? p : between(p, q, left / length);
    left -= length;
  }
  return pointOf(way, -1);
}

/**
 * From the end of the last pass round the tip and out along a wall: to `joins`, where the mouth's front ends, or else to
 * `leaves`, where it begins. The wall is followed counter-clockwise from the one to the other by way of the tip.
 */
function outOf(corner: Polygon, fronts: readonly (readonly Vec[])[], joins: Vec | null, leaves: Vec): Vec[] {
  const last = fronts.at(-1) ?? [];
  const [first, second] = [pointOf(last, 0), pointOf(last, -1)];
  // Passes end in turn where their fronts begin and where they end.
  const atFirst = fronts.length % 2 === 0;
  const tip = along(corner, first, second);
  if (joins !== null) return [...(atFirst ? [] : [...tip].reverse()), ...along(corner, first, joins)];
  return [...(atFirst ? tip : []), ...along(corner, leaves, second).reverse()];
}

/** The wall on which the fronts begin, as far as they go. */
function firstWall(corner: Polygon, fronts: readonly (readonly Vec[])[]): Vec[] {
  const [mouth = [], last = []] = [fronts[0], fronts.at(-1)];
  return along(corner, pointOf(mouth, 0), pointOf(last, 0));
}

/** By how much an open way turns to its left in all, radians. */
function turnOf(way: readonly Vec[]): number {
  let turn = 0;
  for (let i = 1; i + 1 < way.length; i += 1) {
    const [p, q, r] = [pointOf(way, i - 1), pointOf(way, i), pointOf(way, i + 1)];
    const [ux, uy, vx, vy] = [q[0] - p[0], q[1] - p[1], r[0] - q[0], r[1] - q[1]];
    if (Math.hypot(ux, uy) < SHORT || Math.hypot(vx, vy) < SHORT) continue;
    turn += Math.max(0, Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy));
  }
  return turn;
}

/** Shorter sides are rounding, mm. */
const SHORT = 0.02;

/** The corner's wall from the place nearest to one point to that nearest to another, counter-clockwise. */
export function along(corner: Polygon, from: Vec, to: Vec): Vec[] {
  const start = footOn(corner, from).along;
  const end = footOn(corner, to).along;
  return stretchOf(corner, start, end < start ? end + lengthRound(corner) : end);
}
