import type { RouterJob, ScribeOperation } from '../machining/types.ts';
import { RAPID_FLOOR } from './heights.ts';
import type { Move } from './types.ts';

/** Moves that cut one line with a vee cutter: straight down by the fraction of a millimetre that makes it wide enough, and along. */
export function scribeMoves(line: ScribeOperation, job: RouterJob, backward = false): Move[] {
  const { feed, plunge } = job.feeds;
  const [start, ...rest] = backward ? [...line.points].reverse() : line.points;
  if (start === undefined || rest.length === 0) throw new Error(`${line.id} has no points`);
  return [
    { kind: 'rapid', x: start[0], y: start[1] },
    { kind: 'rapid', z: RAPID_FLOOR },
    { kind: 'feed', z: -line.depth, feed: plunge },
    ...rest.map(([x, y]): Move => ({ kind: 'feed', x, y, feed })),
    { kind: 'rapid', z: job.machine.clearHeight },
  ];
}
