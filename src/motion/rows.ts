import type { Box } from '../geometry/types.ts';
import type { RouterJob } from '../machining/types.ts';
import { feedOnSlope, RAPID_FLOOR } from './heights.ts';
import type { Move, Point } from './types.ts';

/** A tool comes in from the air this far beside the blank. */
const BESIDE = 1;

/** y in the air beside the blank, on the side of a first pass. */
export function outside(box: Box, first: number, radius: number): number {
  const edge = first >= 0 ? box.y[1] : box.y[0];
  const away = Math.max(Math.abs(first), Math.abs(edge) + radius) + BESIDE;
  return first >= 0 ? away : -away;
}

/** Comes down in the air, goes in sideways, then along every row in turn, each from the end where the last one stopped. */
export function thereAndBack(rows: readonly (readonly Point[])[], yAir: number, job: RouterJob): Move[] {
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
    for (const point of i % 2 === 0 ? row : row.toReversed()) {
      const run = Math.hypot(point.x - here.x, point.y - here.y);
      moves.push({ kind: 'feed', ...point, feed: feedOnSlope(job, run, here.z - point.z) });
      here = point;
    }
  });
  return [...moves, { kind: 'rapid', z: job.machine.clearHeight }];
}
