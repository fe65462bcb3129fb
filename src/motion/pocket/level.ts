import {
  distanceToPolygon,
  type Foot,
  footOn,
  lengthRound,
  type Polygon,
  pointAt,
  pointOf,
  stretchOf,
} from '../../geometry/area.ts';
import type { CornerWay } from '../../geometry/kernel/corners.ts';
import type { Clearing, Lap, Stretch } from '../../geometry/kernel/laps.ts';
import type { Vec } from '../../geometry/types.ts';
import { between, distance } from '../../geometry/vec.ts';
import { type Chain, chainsOf } from './chains.ts';
import { comeDown, fallOver, mayFallBefore } from './entry.ts';
import { isFree } from './free.ts';
import { follow, goTo, hop, isQuicker, lift, lineTo, START, setHeight, type Trace } from './trace.ts';

/** A glide from lap to lap is this many steps long: the cutter moves outward at 14 degrees. */
const GLIDE = 4;

/** Points of a glide. */
const GLIDE_POINTS = 24;

/** One flat level of a pocket: from `above`, which is cut already (or the top), down to `z`. */
export interface Level {
  readonly clearing: Clearing;
  readonly step: number;
  readonly above: number;
  readonly z: number;
}

/** Clears one level, each lap after the laps inside it; ends at its floor. */
export function clearLevel(trace: Trace, level: Level): void {
  const { laps } = level.clearing;
  const waiting = [...chainsOf(laps)];
  const ends = new Map<number, number>();
  while (waiting.length > 0) {
    const ready = waiting.filter((chain) => headOf(laps, chain).inside.every((n) => ends.has(n)));
    const chain = ready.sort((a, b) => farOf(trace, laps, a) - farOf(trace, laps, b))[0];
    if (chain === undefined) throw new Error(`${waiting.length} chains of laps wait for each other`);
    waiting.splice(waiting.indexOf(chain), 1);
    runChain(trace, level, chain, ends);
  }
}

function headOf(laps: readonly Lap[], chain: Chain): Lap {
  return lapOf(laps, chain[0] ?? -1);
}

function lapOf(laps: readonly Lap[], n: number): Lap {
  const lap = laps[n];
  if (lap === undefined) throw new Error(`lap ${n} of ${laps.length}`);
  return lap;
}

function farOf(trace: Trace, laps: readonly Lap[], chain: Chain): number {
  return Number.isNaN(trace.at[0]) ? 0 : footOn(headOf(laps, chain).way, trace.at).distance;
}

/** `ends` takes in where each lap ends, along its way. */
function runChain(trace: Trace, level: Level, chain: Chain, ends: Map<number, number>): void {
  const { laps } = level.clearing;
  let along = start(trace, level, chain, ends);
  let came: readonly Vec[] | null = null;
  for (const [i, n] of chain.entries()) {
    const lap = lapOf(laps, n);
    const round = lengthRound(lap.way);
    const nextNumber = chain[i + 1];
    const glide = Math.min(GLIDE * level.step, round);
    const skips = nextNumber !== undefined && maySkip(lap, came, along - glide, along, trace);
    if (!(i === 0 && lap.first)) runLap(trace, level, lap, along, along + round - (skips ? glide : 0));
    else if (lap.level === 0) clearCorners(trace, level, lap, along);
    const end = skips ? along - glide : along;
    ends.set(n, end);
    if (nextNumber === undefined) return;
    came = glideTo(trace, lap, end, glide, lapOf(laps, nextNumber));
    along = footOn(lapOf(laps, nextNumber).way, trace.at).along;
  }
}

/** Follows a lap while moving evenly over to the next one; gives the points of the way. */
function glideTo(trace: Trace, lap: Lap, from: number, length: number, next: Lap): readonly Vec[] {
  const points = Array.from({ length: GLIDE_POINTS + 1 }, (_, i): Vec => {
    const on = pointAt(lap.way, from + (length * i) / GLIDE_POINTS);
    return between(on, footOn(next.way, on).at, i / GLIDE_POINTS);
  });
  follow(trace, points);
  return points;
}

/**
 * Glides lie side by side, so that a lap need not be run where the one that led to it passes close by, and may end where the
 * next one begins.
 */
function maySkip(lap: Lap, came: readonly Vec[] | null, from: number, to: number, trace: Trace): boolean {
  if (came === null) return false;
  const round = lengthRound(lap.way);
  const close = CLOSE * (trace.job.tool.diameter / 2);
  return stretchOf(lap.way, from + round, to + round).every((p) => distanceToPolygon(came, p) <= close);
}

/** How far a glide may be from the stretch of a lap that it stands for, in radii of the cutter. */
const CLOSE = 0.95;

/** Goes to where a chain starts and, for a first lap, down; gives the place along its first lap. */
function start(trace: Trace, level: Level, chain: Chain, ends: ReadonlyMap<number, number>): number {
  const { laps } = level.clearing;
  const head = headOf(laps, chain);
  if (head.first) {
    const { at, along } = entryOf(laps, chain, level.step, trace.at);
    const longest = Math.max(...laps.map((lap) => lengthRound(lap.way)));
    const entry = { way: head.way, from: level.above < 0 ? level.above : START, z: level.z, longest };
    comeAbove(trace, level, at, mayFallBefore(trace, entry));
    return comeDown(trace, entry, along);
  }
  const inside = [...head.inside].sort((a, b) => endGap(trace, laps, ends, a) - endGap(trace, laps, ends, b));
  const n = inside[0];
  if (n === undefined) throw new Error('a lap with nothing inside it that is not the first');
  const before = lapOf(laps, n);
  const end = ends.get(n) ?? 0;
  goTo(trace, pointAt(before.way, end), []);
  const foot = footOn(head.way, trace.at);
  biteHalf(trace, level, [trace.at, foot.at]);
  lineTo(trace, foot.at);
  return foot.along;
}

function endGap(trace: Trace, laps: readonly Lap[], ends: ReadonlyMap<number, number>, n: number): number {
  return distance(trace.at, pointAt(lapOf(laps, n).way, ends.get(n) ?? 0));
}

/**
 * On the first lap, inward from where the chain's last lap has the laps inside it most evenly beside it; of places that are alike,
 * as the sides of a square are, the one nearest to the tool.
 */
function entryOf(laps: readonly Lap[], chain: Chain, step: number, tool: Vec): Foot {
  const inward = chain.map((n) => lapOf(laps, n)).reverse();
  const [last] = inward;
  if (last === undefined) throw new Error('an empty chain');
  const glide = GLIDE * step;
  const unevenAt = (along: number): number =>
    walkInward(inward, along, step).uneven + walkInward(inward, along - glide, step).uneven;
  const places = [middleOfLongest(last.way), ...spreadOver(lengthRound(last.way))];
  const scores = places.map(unevenAt);
  const least = Math.min(...scores);
  // The middle of the longest side, the first of them, wins where it is as good as any, or another that is its like.
  const good = scores.find((score) => score <= least + EVEN * step) ?? least;
  const feet = places
    .filter((_, i) => Math.abs((scores[i] ?? 0) - good) <= 1e-3 * step)
    .map((place) => walkInward(inward, place, step).foot);
  const away = Number.isNaN(tool[0]) ? feet.map(() => 0) : feet.map(({ at }) => distance(at, tool));
  const [first] = feet;
  if (first === undefined) throw new Error('no place to come down on a lap');
  return feet[away.indexOf(Math.min(...away))] ?? first;
}

/** Unevenness that makes no difference, in steps. */
const EVEN = 0.05;
/** Places that are tried along a lap. */
const TRIES = 24;

function spreadOver(round: number): number[] {
  return Array.from({ length: TRIES }, (_, i) => (round * i) / TRIES);
}

function middleOfLongest(way: Polygon): number {
  let [along, best, longest] = [0, 0, 0];
  way.forEach((p, i) => {
    const length = distance(p, pointOf(way, i + 1));
    if (length > longest + 1e-9) [best, longest] = [along + length / 2, length];
    along += length;
  });
  return best;
}

/** From a place on the outermost of some laps to the inmost; sums by how much the ways differ from a step. */
function walkInward(inward: readonly Lap[], from: number, step: number): { foot: Foot; uneven: number } {
  const [last, ...rest] = inward;
  if (last === undefined) throw new Error('no laps');
  let foot: Foot = { at: pointAt(last.way, from), along: from, distance: 0 };
  let uneven = 0;
  for (const lap of rest) {
    foot = footOn(lap.way, foot.at);
    uneven += Math.abs(foot.distance - step);
  }
  return { foot, uneven };
}

/**
 * To a place on the level above, where the straight way is quicker going down by as much as is good on the way there, else a
 * little above its floor.
 */
function comeAbove(trace: Trace, level: Level, to: Vec, mayFall: number): void {
  const { centres } = level.clearing;
  const isLow = level.above < 0 && trace.z <= level.above + START;
  if (isLow && isQuicker(trace, to) && isFree(centres, trace.at, to)) {
    setHeight(trace, level.above);
    follow(trace, [trace.at, to], trace.z - Math.min(mayFall, fallOver(distance(trace.at, to))));
  } else hop(trace, to, level.above + START);
}

/** What interrupts a lap at a place along it. */
type Stop =
  | { readonly kind: 'buried'; readonly along: number; readonly to: number }
  | { readonly kind: 'corner'; readonly along: number; readonly corner: CornerWay };

/** Runs a lap from one place along it to another, with its buried stretches in two bites and its corners cleared. */
function runLap(trace: Trace, level: Level, lap: Lap, from: number, to: number): void {
  const stops = [...buriedStops(lap, from, to), ...cornerStops(level, lap, from, to)];
  let along = from;
  for (const stop of stops.sort((a, b) => a.along - b.along)) {
    if (stop.along > along) onLap(trace, level, lap, along, stop.along);
    along = Math.max(along, stop.along);
    if (stop.kind === 'buried') biteHalf(trace, level, stretchOf(lap.way, along, Math.max(along, stop.to)));
    else intoCorner(trace, level, stop.corner);
  }
  if (to > along) onLap(trace, level, lap, along, to);
}

/** Along a lap; back on to it first where a corner was left. */
function onLap(trace: Trace, level: Level, lap: Lap, from: number, to: number): void {
  const points = stretchOf(lap.way, from, to);
  goTo(trace, points[0] ?? trace.at, level.clearing.centres);
  follow(trace, points);
}

function buriedStops(lap: Lap, from: number, to: number): Stop[] {
  const round = lengthRound(lap.way);
  return lap.buried.flatMap((stretch) => turnsOf(stretch, round, from, to));
}

/** The parts of a stretch that lie between two places along the way, whatever turn they are counted in. */
function turnsOf(stretch: Stretch, round: number, from: number, to: number): Stop[] {
  const first = Math.floor((from - stretch.to) / round);
  return [0, 1, 2, 3].flatMap((k): Stop[] => {
    const shift = (first + k) * round;
    const [start, end] = [Math.max(from, stretch.from + shift), Math.min(to, stretch.to + shift)];
    return end - start > 1e-6 ? [{ kind: 'buried', along: start, to: end }] : [];
  });
}

/** Half the way down along a stretch first, then back to where the tool was, which is cut down to the level already. */
function biteHalf(trace: Trace, { above, z }: Level, points: readonly Vec[]): void {
  const back = trace.at;
  lift(trace, (Math.min(above, 0) + z) / 2);
  follow(trace, points);
  hop(trace, back, z + START);
  setHeight(trace, z);
}

/** Corners belong to the outermost lap on which they end. */
function cornerStops(level: Level, lap: Lap, from: number, to: number): Stop[] {
  if (lap.level > 0) return [];
  const outermost = level.clearing.laps.filter((l) => l.level === 0);
  const round = lengthRound(lap.way);
  return level.clearing.corners.flatMap((corner): Stop[] => {
    const feet = outermost.map((l) => footOn(l.way, corner.joins));
    const nearest = Math.min(...feet.map((f) => f.distance));
    const foot = feet[outermost.indexOf(lap)];
    if (foot === undefined || foot.distance > nearest) return [];
    const within = (place: number): number => place + Math.ceil((from - place) / round) * round;
    const along = within(foot.along);
    // A corner that the lap begins in is cleared at its end, when all round it is.
    const isSplit = within(footOn(lap.way, corner.leaves).along) > along;
    return [{ kind: 'corner', along: isSplit ? to : Math.min(along, to), corner }];
  });
}

/** The corners of a lap that has been run while coming down. */
function clearCorners(trace: Trace, level: Level, lap: Lap, along: number): void {
  const stops = cornerStops(level, lap, along, along + lengthRound(lap.way));
  for (const stop of stops.sort((a, b) => a.along - b.along)) {
    if (stop.kind === 'corner') intoCorner(trace, level, stop.corner);
  }
}

function intoCorner(trace: Trace, level: Level, { way, buried }: CornerWay): void {
  const [start] = way;
  if (start === undefined) return;
  goTo(trace, start, level.clearing.centres);
  if (buried) biteHalf(trace, level, way);
  follow(trace, way);
}
