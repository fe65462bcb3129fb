import { angleForCusp, ballOnRuling, coneHeight, coneRadius } from '../geometry/coneSurface.ts';
import type { FinishSurfaceOperation, RoughSurfaceOperation, RouterJob } from '../machining/types.ts';
import { outside, thereAndBack } from './rows.ts';
import { finishByFlatMoves } from './surfaceByFlat.ts';
import type { Move, Point } from './types.ts';

/** Most of a flat cutter's diameter taken sideways by one level pass (common practice, no source). */
const STEP_OVER = 0.45;

/** A level strip narrower than this is left to the ball. */
const NARROWEST = 0.05;

/**
 * Moves of the level passes: from the top down, on each level one strip on either side of the crest, or one over the whole
 * width above it. The cutter comes in along one end, runs the innermost pass and goes out along the other end, so that neither
 * end keeps scallops for the next level to meet; then it clears what lies outside, along x, there and back without lifting.
 */
export function roughSurfaceMoves(operation: RoughSurfaceOperation, job: RouterJob): Move[] {
  const { box, runOut } = operation;
  const radius = job.tool.diameter / 2;
  const ends = [box.x[0] - runOut + radius, box.x[1] + runOut - radius] as const;
  const edge = Math.max(...box.y.map(Math.abs));
  return levelsOf(operation).flatMap((z) => {
    const inner = innerLine(operation, z, ends);
    if (inner === null) {
      const whole = passesBetween([edge, edge], [-edge, -edge], radius, job);
      return stripMoves(whole, z, ends, operation, job);
    }
    if (edge - Math.min(...inner) < NARROWEST) return [];
    const aside = radius * Math.hypot(1, (inner[1] - inner[0]) / (ends[1] - ends[0]));
    return [1, -1].flatMap((side) => {
      const outer = inner.map((y) => side * Math.max(edge, y + aside)) as [number, number];
      const rows = passesBetween(outer, [side * inner[0], side * inner[1]], aside, job);
      return stripMoves(rows, z, ends, operation, job);
    });
  });
}

/** Heights of the levels, evenly spaced down to where no strip is left. */
function levelsOf({ box, floor, allowance, step }: RoughSurfaceOperation): number[] {
  const edge = Math.max(...box.y.map(Math.abs));
  const lowest = Math.min(...box.x.map((x) => coneHeight(floor, x, edge))) + allowance;
  const count = Math.ceil(-lowest / step - 1e-9);
  return Array.from({ length: Math.max(0, count) }, (_, k) => (lowest * (k + 1)) / count);
}

/**
 * |y| at both ends of a straight line outside of which a level may be cleared: nowhere nearer to the crest than where the floor
 * with its allowance meets the level. Null above the crest. On a cone those places bow outward from the straight line between the
 * ends (y^2 = 2 R f - f^2 with R linear in x), so the line is moved out until it touches them.
 */
function innerLine(
  { floor, allowance }: RoughSurfaceOperation,
  z: number,
  ends: readonly [number, number],
): readonly [number, number] | null {
  const fall = floor.crest - floor.below + allowance - z;
  if (fall <= 0) return null;
  const meets = (share: number): number => {
    const radius = coneRadius(floor, ends[0] + (ends[1] - ends[0]) * share);
    return Math.sqrt(2 * radius * fall - fall * fall);
  };
  const [first, last] = [meets(0), meets(1)];
  const shares = Array.from({ length: 15 }, (_, k) => (k + 1) / 16);
  const out = Math.max(1, ...shares.map((share) => meets(share) / (first + (last - first) * share)));
  return [first * out, last * out];
}

/** y of a pass at both of its ends. */
type Row = readonly [number, number];

/**
 * Where the cutter's centre runs in each pass, from the blank's edge inward. The first is centred on the edge, so that the round
 * ends of its way leave no corner standing there; the last keeps `aside` from the strip's inner line.
 */
export function passesBetween(outer: Row, inner: Row, aside: number, job: RouterJob): Row[] {
  const { diameter } = job.tool;
  const sense = Math.sign(outer[0] - inner[0]);
  const last = inner.map((y) => y + sense * aside);
  const ways = last.map((y, i) => Math.max(0, ((outer[i] ?? y) - y) * sense));
  const count = Math.ceil(Math.max(...ways) / (STEP_OVER * diameter) - 1e-9);
  return Array.from({ length: count + 1 }, (_, k) => {
    const share = count === 0 ? 0 : 1 - k / count;
    const [from = Number.NaN, to = Number.NaN] = last.map((y, i) => y + sense * (ways[i] ?? 0) * share);
    return [from, to];
  });
}

export function stripMoves(
  passes: readonly Row[],
  z: number,
  ends: readonly [number, number],
  { box }: Pick<RoughSurfaceOperation, 'box'>,
  job: RouterJob,
): Move[] {
  const innerFirst = [...passes.slice(-1), ...passes.slice(0, -1)];
  const rows = innerFirst.map(([from, to]): [Point, Point] => [
    { x: ends[0], y: from, z },
    { x: ends[1], y: to, z },
  ]);
  const first = passes[0] ?? [0, 0];
  return thereAndBack(rows, outside(box, first[0], job.tool.diameter / 2), job);
}

/**
 * Moves of the last passes. Of the ball: one straight pass along each ruling, set apart so that the ridges between them have the same height
 * everywhere, there and back without lifting; it turns in the waste past the board's ends, or beside the blank where a ruling of a
 * cone leaves it.
 */
export function finishSurfaceMoves(operation: FinishSurfaceOperation, job: RouterJob): Move[] {
  if (job.tool.kind === 'flat') return finishByFlatMoves(operation, job);
  const { box, floor, past } = operation;
  const radius = job.tool.diameter / 2;
  const ends = [box.x[0] - past, box.x[1] + past] as const;
  const beside = Math.max(...box.y.map(Math.abs)) + radius;
  const rows = anglesOf(operation, job).map((angle) => {
    const [from, to] = ends.map((x): Point => ballOnRuling(floor, x, angle, radius)) as [Point, Point];
    return overBlank(from, to, beside);
  });
  return thereAndBack(rows, outside(box, rows[0]?.[0].y ?? 0, radius), job);
}

/** The part of a pass that lies within `beside` of the middle line: farther out the ball is clear of the blank. */
function overBlank(from: Point, to: Point, beside: number): [Point, Point] {
  const [near, far] = [Math.abs(from.y), Math.abs(to.y)];
  if (Math.max(near, far) <= beside) return [from, to];
  const share = (beside - near) / (far - near);
  const edge: Point = {
    x: from.x + (to.x - from.x) * share,
    y: from.y + (to.y - from.y) * share,
    z: from.z + (to.z - from.z) * share,
  };
  return far > near ? [from, edge] : [edge, to];
}

/** From one edge of the blank to the other, where the board is narrowest for its radius; spaced for where it is flattest. */
function anglesOf({ box, floor, aim }: FinishSurfaceOperation, job: RouterJob): number[] {
  const radii = box.x.map((x) => coneRadius(floor, x));
  const most = Math.asin(Math.max(...box.y.map(Math.abs)) / Math.min(...radii));
  const thinnest = (job.tool.diameter - job.tool.tolerance) / 2;
  const step = angleForCusp(Math.max(...radii), thinnest, aim);
  const count = Math.ceil((2 * most) / step - 1e-9);
  return Array.from({ length: count + 1 }, (_, k) => most - (2 * most * k) / count);
}
