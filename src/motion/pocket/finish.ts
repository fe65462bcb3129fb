import {
  type Area,
  distanceToArea,
  distanceToPolygon,
  type Polygon,
  polygonSize,
} from '../../geometry/area.ts';
import { fitWay } from '../../geometry/fit.ts';
import { ARC_TOLERANCE } from '../../geometry/kernel/area.ts';
import { parallelRing } from '../../geometry/parallel.ts';
import { area, flatten, reverse, segments } from '../../geometry/ring.ts';
import { pointOn, segmentLength } from '../../geometry/segment.ts';
import type { Region, Ring, Segment, Vec } from '../../geometry/types.ts';
import { add, distance, leftNormal, scale, subtract, unit } from '../../geometry/vec.ts';
import { atWallFeed } from '../heights.ts';
import { splitSegment } from '../split.ts';
import { isFree } from './free.ts';
import { goTo, hop, lineTo, runSides, type Trace } from './trace.ts';

/** A finished wall is fitted with arcs within this where it has none of its own. Millimetres. */
const FIT = 0.001;

/** An outline with more vertices is artwork made of chords: its arcs are not looked for in the drawing. */
const FEW_VERTICES = 24;

/** Two ways this close are one way. Millimetres. */
const SAME_WAY = 0.003;

/** Radii of the lead-in arc that are tried, of the cutter's radius. */
const SMALLEST_LEAD = 0.2;
const LEADS = [0.6, 0.45, 0.3, SMALLEST_LEAD];

/** Their radius is no more than this share of the wall's length: both are run in the air. */
const LONGEST_LEAD = 1 / 60;

export interface Finish {
  /** The whole pocket; its drawn arcs are kept. */
  readonly whole: Region;
  /** Where the cutter's centre may be with no allowance left. */
  readonly centres: Area;
  /** Where it has been at the depth that is finished. */
  readonly reached: Area;
}

/** Runs round all walls once at the tool's height, each begun and left on an arc where there is room for one. */
export function finishWalls(trace: Trace, finish: Finish, z: number): void {
  const radius = trace.job.tool.diameter / 2;
  const drawn = drawnWays(finish.whole, radius);
  for (const way of finish.centres) finishWall(trace, finish, sidesOf(way, drawn), radius, z);
}

/** True arcs at the cutter's radius inside a drawn outline and outside its holes, where they simply meet. */
function drawnWays({ outer, holes }: Region, radius: number): Ring[] {
  if ([outer, ...holes].some((ring) => ring.length > FEW_VERTICES)) return [];
  const sides = [turned(outer, 1), ...holes.map((hole) => turned(hole, -1))];
  return sides.flatMap((ring) => {
    const way = parallelRing(ring, radius);
    return way === null ? [] : [way];
  });
}

/** What is cleared lies on the left: inside a counter-clockwise outline, outside a clockwise hole. */
function turned(ring: Ring, sense: 1 | -1): Ring {
  return area(ring) * sense > 0 ? ring : reverse(ring);
}

/** The drawn way that is the same as a polygon of chords, or else arcs fitted to the chords. */
function sidesOf(way: Polygon, drawn: readonly Ring[]): Segment[] {
  const [first] = way;
  if (first === undefined) return [];
  const same = drawn.find((ring) => isSame(way, flatten(ring, ARC_TOLERANCE)));
  return same === undefined ? fitWay([...way, first], FIT) : segments(same);
}

function isSame(a: Polygon, b: Polygon): boolean {
  return (
    polygonSize(a) * polygonSize(b) > 0 &&
    a.every((p) => distanceToPolygon(b, p) <= SAME_WAY) &&
    b.every((p) => distanceToPolygon(a, p) <= SAME_WAY)
  );
}

function finishWall(
  trace: Trace,
  finish: Finish,
  sides: readonly Segment[],
  radius: number,
  z: number,
): void {
  const way = fromNear(sides, trace.at);
  const [first] = way;
  if (first === undefined) return;
  const length = way.reduce((sum, side) => sum + segmentLength(side), 0);
  const lead = leadAt(first, length, finish, radius);
  if (lead === null) {
    comeTo(trace, finish, first.from, z);
    runSides(trace, way, z, atWallFeed(trace.job));
    return;
  }
  comeTo(trace, finish, lead.in.from, z);
  runSides(trace, [lead.in, ...way, lead.out], z, atWallFeed(trace.job));
}

/** Down to `z` in a place already cut, and over to the start. */
function comeTo(trace: Trace, { reached, centres }: Finish, to: Vec, z: number): void {
  if (Math.abs(trace.z - z) < 1e-9 && isFree(centres, trace.at, to)) {
    goTo(trace, to, distanceToArea(reached, to) < 1e-6 ? reached : centres);
    return;
  }
  const near = distanceToArea(reached, to) < 1e-6 ? to : nearestIn(reached, to);
  hop(trace, near, z);
  lineTo(trace, to);
}

function nearestIn(area: Area, to: Vec): Vec {
  let best: Vec = to;
  let least = Number.POSITIVE_INFINITY;
  for (const p of area.flat()) {
    const d = Math.hypot(p[0] - to[0], p[1] - to[1]);
    if (d < least) [best, least] = [p, d];
  }
  return best;
}

/** Begins on one of the longer sides, away from its ends, as near the tool as can be. */
function fromNear(sides: readonly Segment[], at: Vec): Segment[] {
  const longest = Math.max(...sides.map(segmentLength));
  let best = { i: 0, t: 0.5, distance: Number.POSITIVE_INFINITY };
  sides.forEach((side, i) => {
    if (segmentLength(side) < longest / 2) return;
    for (const t of STARTS) {
      const away = distance(pointOn(side, t), at);
      if (away < best.distance - 1e-9) best = { i, t, distance: away };
    }
  });
  const side = sides[best.i];
  if (side === undefined) return [];
  const [first, second] = splitSegment(side, [best.t]);
  if (first === undefined || second === undefined) throw new Error('a side did not split');
  return [second.side, ...sides.slice(best.i + 1), ...sides.slice(0, best.i), first.side];
}

/** Shares of a side at which a wall may be begun. */
const STARTS = [0.5, 0.3, 0.7, 0.2, 0.4, 0.6, 0.8];

/** Quarter turns on to the wall and off it, on the side of the pocket; the widest for which there is room. */
function leadAt(
  first: Segment,
  length: number,
  finish: Finish,
  radius: number,
): { in: Segment; out: Segment } | null {
  const along = directionOf(first);
  const roomy = Math.max(LONGEST_LEAD * length, SMALLEST_LEAD * radius);
  for (const share of LEADS) {
    const size = Math.min(share * radius, roomy);
    const centre = add(first.from, scale(leftNormal(along), size));
    const from = subtract(centre, scale(along, size));
    const to = add(centre, scale(along, size));
    const quarter = { kind: 'arc', centre, radius: size, sweep: Math.PI / 2 } as const;
    const lead: { in: Segment; out: Segment } = {
      in: { ...quarter, from, to: first.from },
      out: { ...quarter, from: first.from, to },
    };
    if (
      hasRoom(lead.in, finish) &&
      hasRoom(lead.out, finish) &&
      distanceToArea(finish.reached, from) < 1e-6
    ) {
      return lead;
    }
  }
  return null;
}

function hasRoom(arc: Segment, { centres }: Finish): boolean {
  return [0, 0.25, 0.5, 0.75, 1].every((t) => distanceToArea(centres, pointOn(arc, t)) <= FIT);
}

function directionOf(side: Segment): Vec {
  if (side.kind === 'line') return unit(subtract(side.to, side.from));
  const out = unit(subtract(side.from, side.centre));
  return scale(leftNormal(out), Math.sign(side.sweep));
}
