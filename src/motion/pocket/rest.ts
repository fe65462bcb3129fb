/**
 * A corner that an earlier, thicker cutter left: entered from what that one cleared, gone through from wall to wall, and its
 * walls finished, level by level.
 *
 * Nothing relies on the earlier cutter having run: the way down is a ramp, steep because it should meet no wood, and slow enough
 * for a plunge; each level takes no more than a step down even where all the wood still stands.
 */
import { figuresOf, footOn, lengthRound, type Polygon, stretchOf } from '../../geometry/area.ts';
import { fitWay } from '../../geometry/fit.ts';
import { areaOf, common, grown, less } from '../../geometry/kernel/area.ts';
import { centresOf, lapCentresOf } from '../../geometry/kernel/centres.ts';
import { type Spike, spikeWay } from '../../geometry/kernel/spikes.ts';
import type { Segment, Vec } from '../../geometry/types.ts';
import { between, distance } from '../../geometry/vec.ts';
import type { PocketOperation } from '../../machining/types.ts';
import { follow, hop, lineTo, runSides, START, type Trace } from './trace.ts';

/** Slope of the ramp through what should be cleared already, radians: 30 degrees. */
const SLOPE = Math.PI / 6;
/** The finishing pass begins and ends this far before the corner besides the allowance, mm. */
const OVERLAP = 0.05;
/** A finished wall is fitted with arcs within this, mm. */
const FIT = 0.001;
/** A mouth narrower than this share of the radius has no room for a ramp. */
const SMALLEST_MOUTH = 0.3;
/** Pieces no longer round than this share of the radius are crumbs. */
const CRUMB = 0.2;

/** The way through a corner and along its walls. */
export interface Rest {
  readonly spike: Spike;
  readonly walls: readonly Segment[];
}

/** How a corner is cut; null where what is left is no simple corner, so that it is cleared as any other shape. */
export function restOf(pocket: PocketOperation, radius: number, grain: number): Rest | null {
  if (pocket.around === null) return null;
  const cleared = less(areaOf(pocket.whole), areaOf(pocket.region));
  const inset = centresOf(pocket.whole, null, radius, radius + pocket.allowance);
  const base = common(grown(cleared, -radius, grain), inset);
  const centres = lapCentresOf(pocket.whole, pocket.region, radius, pocket.allowance);
  const [corner, ...more] = figuresOf(less(centres, base)).filter(
    ([outer = []]) => lengthRound(outer) > CRUMB * radius,
  );
  if (corner === undefined || corner.length !== 1 || more.length > 0) return null;
  const spike = spikeWay(corner[0] ?? [], base, { radius, grain, left: radius / 2, out: 'other wall' });
  if (spike === null || wayLength(spike.mouth) < SMALLEST_MOUTH * radius) return null;
  return { spike, walls: wallsOf(pocket, spike, radius) };
}

/** The wall round a corner, from a little before it to a little after. */
function wallsOf(pocket: PocketOperation, { leaves, joins }: Spike, radius: number): Segment[] {
  const lines = centresOf(pocket.whole, null, radius, radius);
  const off = (line: Polygon): number => footOn(line, leaves).distance + footOn(line, joins).distance;
  const [line] = [...lines].sort((a, b) => off(a) - off(b));
  if (line === undefined) throw new Error(`${pocket.id} has no wall`);
  const round = lengthRound(line);
  const from = footOn(line, leaves).along;
  const length = ahead(footOn(line, joins).along - from, round);
  // What is left thins out along the walls, beyond the mouth.
  const touched = pocket.region.outer.flatMap(({ x, y }) => {
    const foot = footOn(line, [x, y]);
    return foot.distance < radius + FIT
      ? [ahead(foot.along - from - length / 2 + round / 2, round) - round / 2]
      : [];
  });
  const half = length / 2;
  const [start, end] = [Math.min(-half, ...touched), Math.max(half, ...touched)];
  const middle = from + half + round;
  return fitWay(stretchOf(line, middle + start - OVERLAP, middle + end + OVERLAP), FIT);
}

/** A distance along a closed line, counted forward. */
function ahead(along: number, round: number): number {
  return along - Math.floor(along / round) * round;
}

/** Cuts a corner from one height down to another; ends on its wall. */
export function cutRest(trace: Trace, { spike, walls }: Rest, above: number, z: number): void {
  const from = above < 0 ? above : START;
  const near =
    Math.abs(trace.z - from) < 1e-9 && distance(trace.at, spike.joins) < trace.job.tool.diameter / 2;
  if (near) lineTo(trace, spike.joins);
  else hop(trace, spike.joins, from);
  rampDown(trace, spike, z);
  follow(trace, spike.way);
  runSides(trace, walls);
}

/** Along the mouth and back to where it began, as often as it takes. */
function rampDown(trace: Trace, { mouth }: Spike, z: number): void {
  const length = (trace.z - z) / Math.tan(SLOPE);
  const there = partOf([...mouth].reverse(), length / 2);
  const times = 2 * Math.ceil(length / (2 * wayLength(there)) - 1e-9);
  const fall = (trace.z - z) / times;
  for (let k = 1; k <= times; k += 1) {
    follow(trace, k % 2 === 1 ? there : [...there].reverse(), k === times ? z : trace.z - fall);
  }
}

function wayLength(way: readonly Vec[]): number {
  return way.slice(1).reduce((sum, p, i) => sum + distance(p, way[i] ?? p), 0);
}

/** The beginning of a way, or all of it where it is no longer. */
function partOf(way: readonly Vec[], length: number): Vec[] {
  const part: Vec[] = way.slice(0, 1);
  let left = length;
  for (let i = 1; i < way.length && left > 0; i += 1) {
    const [p, q] = [way[i - 1], way[i]];
    if (p === undefined || q === undefined) break;
    const side = distance(p, q);
    part.push(side <= left ? q : between(p, q, left / side));
    left -= side;
  }
  return part;
}
