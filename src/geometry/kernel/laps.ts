/**
 * Laps: the closed ways on which a cutter's centre clears an area from the inside out.
 *
 * Level 0 is the outermost. Each level is the next one shrunk by the step and rounded in its inner corners, so that no
 * corner makes the cutter bury itself. What rounding loses and no lap would reach is put back.
 */
import {
  type Area,
  distanceToArea,
  divided,
  figuresOf,
  isNear,
  isNearPolygon,
  lengthRound,
  type Polygon,
  pointOf,
  polygonSize,
} from '../area.ts';
import { engagementAt } from '../engagement.ts';
import { bounds, circle, flatten, ringFromPoints } from '../ring.ts';
import type { Vec } from '../types.ts';
import { distance, subtract, unit } from '../vec.ts';
import { ARC_TOLERANCE, common, grown, less, opened, united } from './area.ts';

export interface LapSettings {
  /** Of the cutter. */
  readonly radius: number;
  /** Between laps. */
  readonly step: number;
  /** Most of the cutter's front half that may meet wood, radians; a lap that goes beyond it is marked. */
  readonly engagement: number;
}

export interface Lap {
  /** 0 is the outermost. */
  readonly level: number;
  /** Closed way of the centre, what it clears on its left. */
  readonly way: Polygon;
  /** Nothing was cleared before it: the cutter enters here and is buried all round. */
  readonly first: boolean;
  /** Where the cutter meets more wood than is allowed: necks, corners too sharp. */
  readonly buried: readonly Stretch[];
  /** Numbers of the laps just inside it, which must have been run. */
  readonly inside: readonly number[];
}

/** From and to along a way; from is less than the way's length, to may run on past it. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

export interface Clearing {
  /** Outermost last. */
  readonly laps: readonly Lap[];
  /** Where the centre may go, corners and all. */
  readonly centres: Area;
  /** Where it has been, or may go, once all laps are run. */
  readonly reached: Area;
  /** Ways into the corners that the rounded outermost laps leave, in the order in which they are run. */
  readonly corners: readonly CornerWay[];
}

/** An open way from the outermost lap into a corner and back on to it. */
export interface CornerWay {
  readonly way: readonly Vec[];
  /** Where the outermost lap is left for the corner, and where it goes on. */
  readonly leaves: Vec;
  readonly joins: Vec;
  /** The cutter meets more wood on it than is allowed. */
  readonly buried: boolean;
}

/** Rounding of inner corners, of the cutter's radius. */
const ROUNDING = 0.8;

/** A lap clears this much of its cutter's radius for certain, whatever the rounding of chords. */
const SURE = 0.95;

/** A piece that rounding cuts off farther than this from the rest (radii) is no corner but a place of its own. */
const FAR = 2.5;

/** Lifting, coming back and going down again takes about as long as this much way at feed. Millimetres. */
const COMING_BACK = 15;

/** Radius of the smallest helix that is entered on, of the cutter's radius. */
const ENTRY = 0.4;

/** A corner way goes on from what was cleared by at most this share of the radius. */
const CORNER_STEP = 0.9;

/** Laps that clear all centres from the inside out. */
export function layLaps(centres: Area, settings: LapSettings): Clearing {
  const levels = levelsOf(centres, settings);
  const [reached = []] = levels;
  const laps: Lap[] = [];
  let inner: readonly number[] = [];
  for (let level = levels.length - 1; level >= 0; level -= 1) {
    const start = laps.length;
    const cleared = inner.flatMap((n) => (laps[n] === undefined ? [] : [laps[n].way]));
    for (const figure of figuresOf(levels[level] ?? [])) {
      laps.push(...figureLaps(figure, { level, laps, inner, cleared, settings }));
    }
    inner = laps.map((_, n) => n).slice(start);
  }
  return { laps, centres, reached, corners: cornerWays(centres, reached, settings) };
}

interface Within {
  readonly level: number;
  /** All laps laid so far, and the numbers of those one level further in. */
  readonly laps: readonly Lap[];
  readonly inner: readonly number[];
  /** Centres of the level further in. */
  readonly cleared: Area;
  readonly settings: LapSettings;
}

/** Laps of one figure, longest first; in a narrow one the first lap makes room for the others beside it. */
function figureLaps(figure: Area, within: Within): Lap[] {
  const { level, laps, inner, settings } = within;
  const ways = [...figure].sort((a, b) => lengthRound(b) - lengthRound(a));
  const made: Lap[] = [];
  for (const way of ways) {
    const beside = inner.filter((n) => isNext(way, laps[n]?.way ?? [], settings.step));
    const inside = beside.length > 0 || made.length === 0 ? beside : made.map((_, i) => laps.length + i);
    const first = inside.length === 0;
    const cleared = beside.length > 0 ? within.cleared : made.flatMap((lap) => bandOf(lap.way));
    made.push({
      level,
      way: first && level > 0 ? wideEnough(way, settings) : way,
      first,
      inside,
      buried: first ? [] : buriedStretches(way, cleared, settings),
    });
  }
  return made;
}

/** A first lap too small to ramp down on becomes a circle, still well within the next lap. */
function wideEnough(way: Polygon, { radius, step }: LapSettings): Polygon {
  const least = Math.min(ENTRY * radius, 0.9 * step);
  if (lengthRound(way) >= 2 * Math.PI * least) return way;
  const { x, y } = bounds(ringFromPoints(way));
  return flatten(circle([(x[0] + x[1]) / 2, (y[0] + y[1]) / 2], least), ARC_TOLERANCE);
}

/** A thin band along a way, for the places its centre has been. */
function bandOf(way: Polygon): Area {
  const outer = polygonSize(way) > 0 ? way : [...way].reverse();
  return less(grown([outer], OVERLAP), grown([outer], -OVERLAP));
}

/**
 * What laps cost, as a length: a first lap is run twice, a buried stretch too, with lifting and coming back besides.
 * Millimetres.
 */
export function lapCost({ laps, corners }: Clearing): number {
  const runs = laps.reduce((sum, lap) => {
    const again = lap.buried.reduce((more, s) => more + (s.to - s.from) + COMING_BACK, 0);
    return sum + lengthRound(lap.way) * (lap.first ? 2 : 1) + again;
  }, 0);
  return runs + corners.reduce((sum, { way }) => sum + wayLength(way), 0);
}

function wayLength(way: readonly Vec[]): number {
  return way.slice(1).reduce((sum, p, i) => sum + distance(p, way[i] ?? p), 0);
}

function levelsOf(centres: Area, { radius, step }: LapSettings): Area[] {
  const rounding = ROUNDING * radius;
  const levels: Area[] = [];
  let next = roundedOutermost(centres, rounding, radius);
  while (next.length > 0) {
    levels.push(next);
    next = levelInside(next, step, rounding, radius);
  }
  return levels;
}

/** Rounded, with all pieces put back that are more than the tip of a corner. */
function roundedOutermost(centres: Area, rounding: number, radius: number): Area {
  const rounded = opened(centres, rounding);
  if (rounded.length === 0) return centres;
  const more = lostPieces(centres, rounded).filter(
    (piece) => contactsOf(piece, rounded) !== 1 || reachFrom(piece, rounded) > FAR * radius,
  );
  return putBack(centres, rounded, more);
}

function levelInside(outer: Area, step: number, rounding: number, radius: number): Area {
  const shrunk = grown(outer, -step);
  if (shrunk.length === 0) return [];
  const rounded = opened(shrunk, rounding);
  const missed = less(grown(outer, -SURE * radius), grown(rounded, SURE * radius));
  if (missed.length === 0) return rounded;
  const more = lostPieces(shrunk, rounded).filter((piece) => common(piece, missed).length > 0);
  return putBack(shrunk, rounded, more);
}

/** Overlap by which a lost piece is joined on again. Millimetres. */
const OVERLAP = 0.02;

function lostPieces(whole: Area, kept: Area): Area[] {
  return figuresOf(less(whole, grown(kept, OVERLAP / 2)));
}

function putBack(whole: Area, kept: Area, pieces: readonly Area[]): Area {
  if (pieces.length === 0) return kept;
  return united(kept, common(whole, grown(pieces.flat(), OVERLAP)));
}

function contactsOf(piece: Area, kept: Area): number {
  return figuresOf(common(grown(piece, OVERLAP), kept)).length;
}

function reachFrom(piece: Area, kept: Area): number {
  return Math.max(...piece.flat().map((p) => distanceToArea(kept, p)));
}

/** Whether one lap lies just inside another: one step away from it somewhere. */
function isNext(outer: Polygon, inner: Polygon, step: number): boolean {
  const near = step * 1.05 + OVERLAP;
  return inner.some((p) => isNearPolygon(outer, p, near)) || outer.some((p) => isNearPolygon(inner, p, near));
}

/** Where the cutter meets too much wood on a way, with room before and after. */
function buriedStretches(way: Polygon, cleared: Area, settings: LapSettings): Stretch[] {
  const { radius } = settings;
  const points = divided(way, radius / 3);
  const round = lengthRound(way);
  const stretches: { from: number; to: number }[] = [];
  let along = 0;
  points.forEach((at, i) => {
    const before = pointOf(points, i - 1);
    if (i > 0) along += distance(before, at);
    if (!isBuriedAt(at, before, cleared, settings)) return;
    const last = stretches.at(-1);
    const [from, to] = [along - radius / 2, along + radius / 2];
    if (last !== undefined && from <= last.to) last.to = to;
    else stretches.push({ from, to });
  });
  return joinEnds(stretches, round);
}

/** Stretches that meet over the way's start become one; all begin within the first turn. */
function joinEnds(stretches: readonly Stretch[], round: number): Stretch[] {
  const [first, ...rest] = stretches;
  const last = rest.at(-1);
  if (first === undefined) return [];
  if (last === undefined || last.to < first.from + round) {
    return stretches.map((s) => (s.from < 0 ? { from: s.from + round, to: s.to + round } : s));
  }
  return [...rest.slice(0, -1), { from: last.from, to: first.to + round }];
}

function isBuriedAt(at: Vec, before: Vec, cleared: Area, settings: LapSettings): boolean {
  const { radius, step, engagement } = settings;
  // Straight stretches one step out are known to be good.
  if (distance(before, at) < 1e-9 || isNear(cleared, at, step * 1.02 + OVERLAP)) return false;
  return engagementAt(at, unit(subtract(at, before)), radius, cleared) > engagement;
}

/** Ways into the corners, each pass less rounded than the one before and the last as sharp as the area itself. */
function cornerWays(centres: Area, reached: Area, settings: LapSettings): CornerWay[] {
  const { radius } = settings;
  const left = Math.max(0, ...centres.flat().map((p) => distanceToArea(reached, p)));
  const passes = Math.ceil(left / (CORNER_STEP * radius) - 0.02);
  const ways: CornerWay[] = [];
  let cleared = reached;
  for (let k = 1; k <= passes; k += 1) {
    const rounding = ROUNDING * radius * (1 - k / passes);
    const target = k === passes ? centres : united(cleared, opened(centres, rounding));
    const earlier = [...ways];
    for (const closed of target) {
      for (const run of outside(divided(closed, radius / 8), reached, radius)) {
        ways.push(...cornerWay(run, earlier, cleared, settings));
      }
    }
    cleared = target;
  }
  return ways;
}

/** None where nothing is left. A further way into a corner leaves the lap and comes back to it where the one before did. */
function cornerWay(
  run: readonly Vec[],
  earlier: readonly CornerWay[],
  cleared: Area,
  settings: LapSettings,
): CornerWay[] {
  const way = trimmed(run, cleared, settings.radius);
  const [leaves, joins] = [run[0], run.at(-1)];
  if (way.length < 2 || leaves === undefined || joins === undefined) return [];
  const buried = way.some((at, i) => i > 0 && isBuriedAt(at, way[i - 1] ?? at, cleared, settings));
  const near = (other: CornerWay): number => distance(other.joins, joins) + distance(other.leaves, leaves);
  const before = earlier
    .filter((other) => near(other) < settings.radius)
    .sort((a, b) => near(a) - near(b))[0];
  return [{ way, leaves: before?.leaves ?? leaves, joins: before?.joins ?? joins, buried }];
}

/** A run without the ends along which nothing is left to clear. */
function trimmed(run: readonly Vec[], cleared: Area, radius: number): readonly Vec[] {
  const isOut = run.map((p) => !isNear(cleared, p, THIN * radius));
  return run.slice(Math.max(0, isOut.indexOf(true) - 1), isOut.lastIndexOf(true) + 2);
}

/** The runs of a closed way that leave an area by more than a hair, from the last point in it to the first one back in. */
function outside(way: Polygon, area: Area, radius: number): Vec[][] {
  const out = way.map((p) => !isNear(area, p, HAIR * radius));
  const isOut = (i: number): boolean => out[i % out.length] === true;
  const first = out.findIndex((_, i) => !isOut(i) && isOut(i + 1));
  if (first < 0) return isOut(0) ? [[...way, pointOf(way, 0)]] : [];
  const runs: Vec[][] = [];
  let run: Vec[] = [];
  for (let k = 0; k <= way.length; k += 1) {
    const i = (first + k) % way.length;
    run.push(pointOf(way, i));
    if (isOut(i)) continue;
    if (run.some((p) => !isNear(area, p, LEAST_CORNER * radius))) runs.push(run);
    run = [pointOf(way, i)];
  }
  return runs;
}

/** Nearer than this share of the radius to an area is in it. */
const HAIR = 0.01;
/** A strip thinner than this share of the radius is not worth a way of its own. */
const THIN = 0.03;
/** Corners that leave less than this share of the radius are left to the finishing pass. */
const LEAST_CORNER = 0.04;
