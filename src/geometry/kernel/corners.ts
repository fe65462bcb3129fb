/**
 * Ways into the corners that the rounded outermost laps leave.
 *
 * A blunt corner is run round once or more, each time less rounded. A long, sharp one is cleared by going from wall to wall and
 * back, a step farther in each time, so that the cutter is never buried in it.
 */
import { type Area, distanceToArea, divided, type Polygon, pointOf } from '../area.ts';
import { type Nearness, nearnessTo } from '../nearness.ts';
import type { Vec } from '../types.ts';
import { distance } from '../vec.ts';
import { opened, united } from './area.ts';
import { type Bound, isBuriedAt, type Wood, woodAfter } from './wood.ts';

/** An open way from the outermost lap into a corner. */
export interface CornerWay {
  readonly way: readonly Vec[];
  /** Where the outermost lap is left for the corner, and where it goes on. */
  readonly leaves: Vec;
  readonly joins: Vec;
  /** The cutter meets more wood on it than is allowed. */
  readonly buried: boolean;
}

export interface CornerSettings extends Bound {
  /** Rounding of the outermost laps, mm. */
  readonly rounding: number;
  /** Corners that leave no more than this are left to the finishing pass, mm. */
  readonly cusp: number;
  readonly grain: number;
}

/** A corner way goes on from what was cleared by at most this share of the radius. */
const CORNER_STEP = 0.9;
/** Nearer than this share of the radius to an area is in it. */
const HAIR = 0.01;
/** A strip thinner than this share of the radius is not worth a way of its own. */
const THIN = 0.03;

/** Ways into all corners of `centres` that were not `reached`, each pass less rounded and the last as sharp as the area itself. */
export function cornerWays(centres: Area, reached: Area, settings: CornerSettings): CornerWay[] {
  const { radius, rounding, cusp } = settings;
  const left = Math.max(0, ...centres.flat().map((p) => distanceToArea(reached, p)));
  if (left <= cusp) return [];
  const passes = Math.ceil(left / (CORNER_STEP * radius) - 0.02);
  const isIn = nearnessTo(reached, HAIR * radius);
  const isLeft = nearnessTo(reached, cusp);
  const ways: CornerWay[] = [];
  let been = reached;
  for (let k = 1; k <= passes; k += 1) {
    const share = 1 - k / passes;
    const target = k === passes ? centres : united(been, opened(centres, rounding * share, settings.grain));
    const wood = woodAfter(been, settings);
    const isThin = nearnessTo(been, THIN * radius);
    const earlier = [...ways];
    for (const closed of target) {
      for (const run of outside(divided(closed, radius / 8), isIn, isLeft)) {
        ways.push(...cornerWay(run, earlier, wood, isThin, settings));
      }
    }
    been = target;
  }
  return ways;
}

/** None where nothing is left. A further way into a corner leaves the lap and comes back to it where the one before did. */
function cornerWay(
  run: readonly Vec[],
  earlier: readonly CornerWay[],
  wood: Wood,
  isThin: Nearness,
  settings: CornerSettings,
): CornerWay[] {
  const way = trimmed(run, isThin);
  const [leaves, joins] = [run[0], run.at(-1)];
  if (way.length < 2 || leaves === undefined || joins === undefined) return [];
  const buried = way.some((at, i) => i > 0 && isBuriedAt(at, way[i - 1] ?? at, wood, settings));
  const near = (other: CornerWay): number => distance(other.joins, joins) + distance(other.leaves, leaves);
  const before = earlier
    .filter((other) => near(other) < settings.radius)
    .sort((a, b) => near(a) - near(b))[0];
  return [{ way, leaves: before?.leaves ?? leaves, joins: before?.joins ?? joins, buried }];
}

/** A run without the ends along which nothing is left to clear. */
function trimmed(run: readonly Vec[], isThin: Nearness): readonly Vec[] {
  const isOut = run.map((p) => !isThin(p));
  return run.slice(Math.max(0, isOut.indexOf(true) - 1), isOut.lastIndexOf(true) + 2);
}

/** The runs of a closed way that leave an area by more than a hair, from the last point in it to the first one back in. */
function outside(way: Polygon, isIn: Nearness, isLeft: Nearness): Vec[][] {
  const out = way.map((p) => !isIn(p));
  const isOut = (i: number): boolean => out[i % out.length] === true;
  const first = out.findIndex((_, i) => !isOut(i) && isOut(i + 1));
  if (first < 0) return isOut(0) ? [[...way, pointOf(way, 0)]] : [];
  const runs: Vec[][] = [];
  let run: Vec[] = [];
  for (let k = 0; k <= way.length; k += 1) {
    const i = (first + k) % way.length;
    run.push(pointOf(way, i));
    if (isOut(i)) continue;
    if (run.some((p) => !isLeft(p))) runs.push(run);
    run = [pointOf(way, i)];
  }
  return runs;
}
