import { angleForCusp, ballOnRuling, coneHeight, coneRadius } from '../geometry/coneSurface.ts';
import type { FinishSurfaceOperation, RoughSurfaceOperation, RouterJob } from '../machining/types.ts';
import { feedOnSlope, RAPID_FLOOR } from './heights.ts';
import type { Move, Point } from './types.ts';

/** A tool comes in from the air this far beside the blank. */
const BESIDE = 1;

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
  return levelsOf(operation).flatMap((z) => {
    const inner = innerEdge(operation, z);
    const edge = Math.max(...operation.box.y.map(Math.abs));
    if (inner === null) return stripMoves(passesBetween(edge, -edge, job), z, operation, job);
    if (edge - inner < NARROWEST) return [];
    return [1, -1].flatMap((side) =>
      stripMoves(passesBetween(side * edge, side * inner, job), z, operation, job),
    );
  });
}

/** Heights of the levels, evenly spaced down to where no strip is left. */
function levelsOf({ box, floor, allowance, step }: RoughSurfaceOperation): number[] {
  const edge = Math.max(...box.y.map(Math.abs));
  const lowest = Math.min(...box.x.map((x) => coneHeight(floor, x, edge))) + allowance;
  const count = Math.ceil(-lowest / step - 1e-9);
  return Array.from({ length: Math.max(0, count) }, (_, k) => (lowest * (k + 1)) / count);
}

/** |y| at which the floor with its allowance meets a level, at the end where it is farthest out; null above the crest. */
function innerEdge({ box, floor, allowance }: RoughSurfaceOperation, z: number): number | null {
  const fall = floor.crest - floor.below + allowance - z;
  if (fall <= 0) return null;
  const radius = Math.max(...box.x.map((x) => coneRadius(floor, x)));
  return Math.sqrt(2 * radius * fall - fall * fall);
}

/**
 * y of the cutter's centre in each pass, from the blank's edge inward. The first is centred on the edge, so that the round ends
 * of its way leave no corner standing there; the last keeps within the strip.
 */
function passesBetween(outer: number, inner: number, job: RouterJob): number[] {
  const { diameter } = job.tool;
  const sense = Math.sign(outer - inner);
  const last = inner + (sense * diameter) / 2;
  const way = Math.max(0, (outer - last) * sense);
  const count = Math.ceil(way / (STEP_OVER * diameter) - 1e-9);
  return Array.from(
    { length: count + 1 },
    (_, k) => last + sense * (count === 0 ? 0 : way * (1 - k / count)),
  );
}

function stripMoves(
  passes: readonly number[],
  z: number,
  { box, runOut }: RoughSurfaceOperation,
  job: RouterJob,
): Move[] {
  const radius = job.tool.diameter / 2;
  const ends = [box.x[0] - runOut + radius, box.x[1] + runOut - radius] as const;
  const innerFirst = [...passes.slice(-1), ...passes.slice(0, -1)];
  const rows = innerFirst.map((y) => ends.map((x): Point => ({ x, y, z })) as [Point, Point]);
  return thereAndBack(rows, outside(box, passes[0] ?? 0, radius), job);
}

/**
 * Moves of the ball: one straight pass along each ruling, set apart so that the ridges between them have the same height
 * everywhere, there and back without lifting; it turns in the waste past the board's ends.
 */
export function finishSurfaceMoves(operation: FinishSurfaceOperation, job: RouterJob): Move[] {
  const { box, floor, past } = operation;
  const radius = job.tool.diameter / 2;
  const ends = [box.x[0] - past, box.x[1] + past] as const;
  const rows = anglesOf(operation, job).map(
    (angle) => ends.map((x): Point => ballOnRuling(floor, x, angle, radius)) as [Point, Point],
  );
  return thereAndBack(rows, outside(box, rows[0]?.[0].y ?? 0, radius), job);
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

/** y in the air beside the blank, on the side of a first pass. */
function outside(box: RoughSurfaceOperation['box'], first: number, radius: number): number {
  const edge = first >= 0 ? box.y[1] : box.y[0];
  const away = Math.max(Math.abs(first), Math.abs(edge) + radius) + BESIDE;
  return first >= 0 ? away : -away;
}

/** Comes down in the air, goes in sideways, then along every row in turn, each from the end where the last one stopped. */
function thereAndBack(rows: readonly (readonly [Point, Point])[], yAir: number, job: RouterJob): Move[] {
  const { plunge } = job.feeds;
  const start = rows[0]?.[0];
  if (start === undefined) throw new Error('a surface without passes');
  const moves: Move[] = [
    { kind: 'rapid', x: start.x, y: yAir },
    { kind: 'rapid', z: RAPID_FLOOR },
    { kind: 'feed', z: start.z, feed: plunge },
  ];
  let here: Point = { x: start.x, y: yAir, z: start.z };
  rows.forEach((row, i) => {
    const [from, to] = i % 2 === 0 ? row : [row[1], row[0]];
    for (const point of [from, to]) {
      const run = Math.hypot(point.x - here.x, point.y - here.y);
      moves.push({
        kind: 'feed',
        ...point,
        feed: feedOnSlope(job, run, here.z - point.z),
      });
      here = point;
    }
  });
  return [...moves, { kind: 'rapid', z: job.machine.clearHeight }];
}
