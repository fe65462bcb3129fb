import type { Vec } from '../geometry/types.ts';
import type { RouterJob } from '../machining/types.ts';
import { heightFromAnywhere, heightOver } from './travel.ts';
import type { Move } from './types.ts';

/** Seconds over each corner, to look. */
const PAUSE = 2;

/**
 * Moves that only look: round the corners of the stock with the spindle off, a pause over each, and on to the
 * work zero. At clear height; where a keep-out lies in the way, above it.
 */
export function walkMoves(job: RouterJob): Move[] {
  const corners = job.setup.stock.region.outer.map((v): Vec => [v.x, v.y]);
  const [first] = corners;
  if (first === undefined) throw new Error(`${job.program}: a stock without corners`);
  const stops = [...corners, first, [0, 0] as const];
  const { clearHeight } = job.machine;
  const moves: Move[] = [
    { kind: 'rapid', z: heightFromAnywhere(job) },
    { kind: 'spindle off' },
    { kind: 'comment', text: 'corner 1' },
    { kind: 'rapid', x: first[0], y: first[1] },
  ];
  let height = heightFromAnywhere(job);
  stops.forEach((to, i) => {
    const from = stops[i - 1] ?? first;
    const wanted = Math.max(clearHeight, heightOver(from, to, job, true));
    if (wanted !== height) moves.push({ kind: 'rapid', z: wanted });
    height = wanted;
    if (i > 0) moves.push({ kind: 'comment', text: nameOf(i, corners.length) });
    if (i > 0) moves.push({ kind: 'feed', x: to[0], y: to[1], feed: job.feeds.feed });
    moves.push({ kind: 'dwell', seconds: PAUSE });
  });
  return height === clearHeight ? moves : [...moves, { kind: 'rapid', z: clearHeight }];
}

function nameOf(stop: number, corners: number): string {
  if (stop < corners) return `corner ${stop + 1}`;
  return stop === corners ? 'back to corner 1' : 'above the work zero';
}
