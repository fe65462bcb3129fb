import { offsetOutline } from '../geometry/kernel/outline.ts';
import { reverse, segments } from '../geometry/ring.ts';
import { pointOn, segmentLength } from '../geometry/segment.ts';
import type { Segment, Vec } from '../geometry/types.ts';
import type { OutlineOperation, RouterJob, Tab } from '../machining/types.ts';
import { runSegment } from './run.ts';
import { splitSegment } from './split.ts';
import type { Move } from './types.ts';

/** The way of a cutter's centre round an outline. */
export interface Contour {
  readonly sides: readonly Segment[];
  /** Distance along the path at which each side starts. */
  readonly starts: readonly number[];
  readonly length: number;
}

/** Height of the tool along one turn: a ramp, then level, lifted over the humps. */
export interface Profile {
  readonly from: number;
  readonly to: number;
  readonly ramp: number;
  readonly humps: readonly Hump[];
}

/** A tab as the cutter's centre meets it: level on top from `from` to `to`, sloping down by `foot` on either side. */
export interface Hump {
  readonly from: number;
  readonly to: number;
  readonly top: number;
  /** Rise over run of its sides. */
  readonly slope: number;
}

/** The closed path beside an outline at the cutter's radius and `more`, in the sense in which it is run. */
export function sidesBeside(outline: OutlineOperation, job: RouterJob, more: number): Segment[] {
  const by = job.tool.diameter / 2 + more;
  const [ring, ...others] = offsetOutline(outline.ring, outline.keep === 'inside' ? by : -by);
  if (ring === undefined || others.length > 0) {
    throw new Error(`${outline.id}: a cutter of ${job.tool.diameter} mm makes ${others.length} extra paths`);
  }
  const isReversed = (outline.keep === 'inside') === (outline.direction === 'climb');
  return segments(isReversed ? reverse(ring) : ring);
}

/** A path with the distances at which its sides start. */
export function contourOf(sides: readonly Segment[]): Contour {
  const starts: number[] = [];
  let length = 0;
  for (const side of sides) {
    starts.push(length);
    length += segmentLength(side);
  }
  return { sides, starts, length };
}

/** Where a tab lies on a path, whose lowest level is `bottom`. */
export function humpOf(tab: Tab, path: Contour, bottom: number, job: RouterJob): Hump {
  const middle = nearestOn(path, tab.at);
  const half = (tab.length + job.tool.diameter) / 2;
  return { from: middle - half, to: middle + half, top: bottom + tab.height, slope: tab.slope };
}

/** Distance along the path of the point nearest to `at`, over its straight sides. */
function nearestOn(path: Contour, at: Vec): number {
  let best = { distance: Number.POSITIVE_INFINITY, along: 0 };
  path.sides.forEach((side, i) => {
    if (side.kind !== 'line') return;
    const length = segmentLength(side);
    const dot =
      (at[0] - side.from[0]) * (side.to[0] - side.from[0]) +
      (at[1] - side.from[1]) * (side.to[1] - side.from[1]);
    const t = Math.min(1, Math.max(0, dot / (length * length)));
    const [x, y] = pointOn(side, t);
    const distance = Math.hypot(at[0] - x, at[1] - y);
    if (distance < best.distance) best = { distance, along: (path.starts[i] ?? 0) + t * length };
  });
  return best.along;
}

function heightAt(profile: Profile, along: number): number {
  const share = Math.min(1, along / profile.ramp);
  const level = profile.from + (profile.to - profile.from) * share;
  return profile.humps.reduce((z, hump) => {
    const outside = Math.max(hump.from - along, along - hump.to, 0);
    return Math.max(z, hump.top - outside * hump.slope);
  }, level);
}

/** Distances along the path at which the height changes its slope. */
function knots(profile: Profile, length: number): number[] {
  const isLevel = profile.from === profile.to;
  const list = isLevel ? [] : [profile.ramp];
  for (const hump of profile.humps) {
    const foot = (hump.top - profile.to) / hump.slope;
    if (foot <= 0) continue;
    list.push(hump.from - foot, hump.from, hump.to, hump.to + foot);
    if (!isLevel) list.push(rampMeets(hump, profile));
  }
  return list.filter((u) => u > 1e-6 && u < length - 1e-6).sort((a, b) => a - b);
}

/** Where the ramp down meets a hump's near slope, should the two overlap. */
function rampMeets(hump: Hump, profile: Profile): number {
  const fall = (profile.from - profile.to) / profile.ramp;
  return (profile.from - hump.top + hump.from * hump.slope) / (hump.slope + fall);
}

/** Runs once along a path for `length`, at the heights of a profile; gives the height at its end. */
export function runTurn(
  path: Contour,
  profile: Profile,
  length: number,
  startHeight: number,
  job: RouterJob,
): { moves: Move[]; height: number } {
  const stops = knots(profile, length);
  const moves: Move[] = [];
  let height = startHeight;
  path.sides.forEach((side, i) => {
    const start = path.starts[i] ?? 0;
    const sideLength = segmentLength(side);
    const cuts = [...stops, length]
      .map((u) => (u - start) / sideLength)
      .filter((t) => t > 1e-6 && t < 1 - 1e-6);
    for (const piece of splitSegment(side, cuts)) {
      const end = start + piece.end * sideLength;
      if (end > length + 1e-6) return;
      const z = heightAt(profile, end);
      moves.push(...runSegment(piece.side, z, height - z, job));
      height = z;
    }
  });
  return { moves, height };
}
