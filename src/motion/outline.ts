import { offsetOutline } from '../geometry/kernel/outline.ts';
import { reverse, segments } from '../geometry/ring.ts';
import { pointOn, segmentLength } from '../geometry/segment.ts';
import type { Ring, Segment, Vec } from '../geometry/types.ts';
import type { OutlineOperation, RouterJob, Tab } from '../machining/types.ts';
import { passDepth, RAPID_FLOOR, rampLength } from './heights.ts';
import { runSegment } from './run.ts';
import { splitSegment } from './split.ts';
import type { Move } from './types.ts';

/** Slope at which the cutter climbs over a tab and comes down from it. */
const TAB_SLOPE = Math.tan((15 * Math.PI) / 180);

/**
 * Moves that cut a part free round its outline: a spiral that ramps down by one step at the start of each turn, so that
 * every place is cut one step deeper than the turn before, and a last stretch that cleans the last ramp. The cutter
 * climbs over the tabs; a skin is left level all round. Clockwise round a kept part, so that a right-hand spindle climbs.
 */
export function outlineMoves(outline: OutlineOperation, job: RouterJob): Move[] {
  const path = contour(outline, job);
  const bottom = outline.skin === null ? outline.z - job.below : outline.z + outline.skin;
  const turns = Math.ceil(-bottom / passDepth(job) - 1e-9);
  const step = -bottom / turns;
  const ramp = rampLength(step);
  const start = path.sides[0]?.from;
  if (start === undefined) throw new Error(`${outline.id} has no path`);
  const moves: Move[] = [
    { kind: 'rapid', x: start[0], y: start[1] },
    { kind: 'rapid', z: RAPID_FLOOR },
    { kind: 'feed', z: 0, feed: job.feeds.plunge },
  ];
  const humps = outline.tabs.map((tab) => humpOf(tab, path, outline.z, job));
  let height = 0;
  for (let turn = 0; turn <= turns; turn += 1) {
    const profile: Profile = { from: -turn * step, to: Math.max(-(turn + 1) * step, bottom), ramp, humps };
    const length = turn === turns ? ramp : path.length;
    const run = runTurn(path, profile, length, height, job);
    moves.push(...run.moves);
    height = run.height;
  }
  return [...moves, { kind: 'rapid', z: job.machine.clearHeight }];
}

interface Contour {
  readonly sides: readonly Segment[];
  /** Distance along the path at which each side starts. */
  readonly starts: readonly number[];
  readonly length: number;
}

/** Height of the tool along one turn: a ramp, then level, lifted over the humps. */
interface Profile {
  readonly from: number;
  readonly to: number;
  readonly ramp: number;
  readonly humps: readonly Hump[];
}

/** A tab as the cutter's centre meets it: level on top from `from` to `to`, sloping down by `foot` on either side. */
interface Hump {
  readonly from: number;
  readonly to: number;
  readonly top: number;
}

/** The cutter's path, started after a corner of the longest straight side so that ramp and tabs stay apart. */
function contour(outline: OutlineOperation, job: RouterJob): Contour {
  const radius = job.tool.diameter / 2;
  const [ring, ...more] = offsetOutline(outline.ring, outline.keep === 'inside' ? radius : -radius);
  if (ring === undefined || more.length > 0) {
    throw new Error(`${outline.id}: a cutter of ${job.tool.diameter} mm makes ${more.length} extra paths`);
  }
  const sides = rotateToLongest(outline.keep === 'inside' ? reverse(ring) : ring);
  const starts: number[] = [];
  let length = 0;
  for (const side of sides) {
    starts.push(length);
    length += segmentLength(side);
  }
  return { sides, starts, length };
}

function rotateToLongest(ring: Ring): Segment[] {
  const sides = segments(ring);
  const lengths = sides.map((s) => (s.kind === 'line' ? segmentLength(s) : 0));
  const longest = lengths.indexOf(Math.max(...lengths));
  return [...sides.slice(longest), ...sides.slice(0, longest)];
}

function humpOf(tab: Tab, path: Contour, bottom: number, job: RouterJob): Hump {
  const middle = nearestOn(path, tab.at);
  const half = (tab.length + job.tool.diameter) / 2;
  return { from: middle - half, to: middle + half, top: bottom + tab.height };
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
    return Math.max(z, hump.top - outside * TAB_SLOPE);
  }, level);
}

/** Distances along the path at which the height changes its slope. */
function knots(profile: Profile, length: number): number[] {
  const list = [profile.ramp];
  for (const hump of profile.humps) {
    const foot = (hump.top - profile.to) / TAB_SLOPE;
    if (foot > 0) list.push(hump.from - foot, hump.from, hump.to, hump.to + foot, rampMeets(hump, profile));
  }
  return list.filter((u) => u > 1e-6 && u < length - 1e-6).sort((a, b) => a - b);
}

/** Where the ramp down meets a hump's near slope, should the two overlap. */
function rampMeets(hump: Hump, profile: Profile): number {
  const fall = (profile.from - profile.to) / profile.ramp;
  return (profile.from - hump.top + hump.from * TAB_SLOPE) / (TAB_SLOPE + fall);
}

function runTurn(
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
