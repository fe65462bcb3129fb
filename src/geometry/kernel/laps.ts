/**
 * Laps: the closed ways on which a cutter's centre clears an area from the inside out.
 *
 * Level 0 is the outermost. Each level is the next one shrunk by the step and rounded in its inner corners, so that no
 * corner makes the cutter bury itself. What rounding loses and no lap would reach is put back.
 */
import {
  type Area,
  divided,
  figuresOf,
  isNearPolygon,
  lengthRound,
  type Polygon,
  pointOf,
  polygonSize,
} from '../area.ts';
import { bounds, circle, flatten, ringFromPoints } from '../ring.ts';
import type { Vec } from '../types.ts';
import { distance } from '../vec.ts';
import { ARC_TOLERANCE, common, grown, less, opened, united } from './area.ts';
import { type CornerWay, cornerWays } from './corners.ts';
import { contactsOf, lostPieces, OVERLAP, type Parted, reachFrom } from './parts.ts';
import { type Bound, isBuriedAt, woodAfter } from './wood.ts';

export interface LapSettings extends Bound {
  /** Corners that leave no more than this are left to the finishing pass, mm. */
  readonly cusp: number;
  /** Rounding of inner corners, mm. */
  readonly rounding: number;
  /** Round corners of the laps are chords that leave their arcs by at most this. Millimetres. */
  readonly grain: number;
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

/** A lap clears this much of its cutter's radius for certain, whatever the rounding of chords. */
const SURE = 0.95;

/** A piece that rounding cuts off farther than this from the rest (radii) is no corner but a place of its own. */
const FAR = 2.5;

/** Lifting, coming back and going down again takes about as long as this much way at feed. Millimetres. */
const COMING_BACK = 15;

/** Radius of the smallest helix that is entered on, of the cutter's radius. */
const ENTRY = 0.4;

/** Laps that clear all centres from the inside out, and ways into the corners round them. */
export function layLaps({ centres, base, spikes }: Parted, settings: LapSettings): Clearing {
  const levels = levelsOf(base, settings);
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
  const corners = [...cornerWays(base, reached, settings), ...spikes.map((s) => ({ ...s, buried: false }))];
  return { laps, centres, reached, corners };
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
  return runs + corners.reduce((sum, corner) => sum + cornerCost(corner), 0);
}

/** Way in the air rubs the edge dull without cutting: it counts so many times. */
const RUBBING = 3;

/** A way into a corner and the links to it and from it; twice where it is cut in two bites. */
function cornerCost({ way, leaves, joins, buried }: CornerWay): number {
  const link = distance(joins, way[0] ?? joins) + distance(way.at(-1) ?? joins, joins);
  return (
    RUBBING * link + wayLength(way) + (buried ? wayLength(way) + distance(leaves, joins) + COMING_BACK : 0)
  );
}

function wayLength(way: readonly Vec[]): number {
  return way.slice(1).reduce((sum, p, i) => sum + distance(p, way[i] ?? p), 0);
}

function levelsOf(centres: Area, { radius, step, rounding, grain }: LapSettings): Area[] {
  const levels: Area[] = [];
  let next = roundedOutermost(centres, rounding, radius, grain);
  while (next.length > 0) {
    levels.push(next);
    next = levelInside(next, step, rounding, radius, grain);
  }
  return levels;
}

/** Rounded, with all pieces put back that are more than the tip of a corner. */
function roundedOutermost(centres: Area, rounding: number, radius: number, grain: number): Area {
  const rounded = opened(centres, rounding, grain);
  if (rounded.length === 0) return centres;
  const more = lostPieces(centres, rounded).filter(
    (piece) => contactsOf(piece, rounded) !== 1 || reachFrom(piece, rounded) > FAR * radius,
  );
  return putBack(centres, rounded, more);
}

function levelInside(outer: Area, step: number, rounding: number, radius: number, grain: number): Area {
  const shrunk = grown(outer, -step, grain);
  if (shrunk.length === 0) return [];
  const rounded = opened(shrunk, rounding, grain);
  const missed = less(grown(outer, -SURE * radius, grain), grown(rounded, SURE * radius, grain));
  if (missed.length === 0) return rounded;
  const more = lostPieces(shrunk, rounded).filter((piece) => common(piece, missed).length > 0);
  return putBack(shrunk, rounded, more);
}

function putBack(whole: Area, kept: Area, pieces: readonly Area[]): Area {
  if (pieces.length === 0) return kept;
  return united(kept, common(whole, grown(pieces.flat(), OVERLAP)));
}

/** Whether one lap lies just inside another: one step away from it somewhere. */
function isNext(outer: Polygon, inner: Polygon, step: number): boolean {
  const near = step * 1.05 + OVERLAP;
  return inner.some((p) => isNearPolygon(outer, p, near)) || outer.some((p) => isNearPolygon(inner, p, near));
}

/** Before and after a place of too much wood, of the radius: the places looked at are a third of it apart. */
const ROOM = 0.34;

/** Where the cutter meets too much wood on a way, with room before and after. */
function buriedStretches(way: Polygon, cleared: Area, settings: LapSettings): Stretch[] {
  const { radius } = settings;
  const wood = woodAfter(cleared, settings);
  const points = divided(way, radius / 3);
  const round = lengthRound(way);
  const stretches: { from: number; to: number }[] = [];
  let along = 0;
  points.forEach((at, i) => {
    const before = pointOf(points, i - 1);
    if (i > 0) along += distance(before, at);
    if (!isBuriedAt(at, before, wood, settings)) return;
    const last = stretches.at(-1);
    const [from, to] = [along - ROOM * radius, along + ROOM * radius];
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
