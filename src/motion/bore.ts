import { circle, reverse, segments } from '../geometry/ring.ts';
import { segmentLength } from '../geometry/segment.ts';
import type { Segment } from '../geometry/types.ts';
import type { BoreOperation, FinishRing, RouterJob } from '../machining/types.ts';
import { passDepth, RAPID_FLOOR } from './heights.ts';
import { runSegment } from './run.ts';
import { splitSegment } from './split.ts';
import type { Move } from './types.ts';

/** Most of the cutter's diameter taken sideways by one ring. */
const STEP_OVER = 0.45;

/** Steepest helix, radians: 20 degrees (common practice, no source). */
const STEEPEST = (20 * Math.PI) / 180;

/** A first ring of less than this share of the cutter's diameter would be a plunge in disguise; the wall's ring goes first then. */
const LEAST_RING = 0.15;

/** Rings are entered this far above the stock's top, where the first turn of the helix starts. */
const START = 0.02;

/**
 * Moves that bore a round pocket or hole: helices on ever larger circles, the last on the finished wall, each ended by
 * a full turn on the floor. Counter-clockwise, so that a right-hand spindle climbs; the conventional way is clockwise.
 */
export function boreMoves(bore: BoreOperation, job: RouterJob): Move[] {
  const bottom = bore.through ? bore.z - job.below : bore.z;
  const [cx, cy] = bore.at;
  const rings = ringRadii(bore.diameter, job.tool.diameter, finishOf(job).width);
  const moves: Move[] = [];
  for (const radius of rings) {
    const isLast = radius === rings.at(-1);
    const isFinish = rings.length > 1 && isLast;
    moves.push({ kind: 'rapid', x: cx + radius, y: cy });
    moves.push({ kind: 'rapid', z: RAPID_FLOOR });
    moves.push({ kind: 'feed', z: START, feed: job.feeds.plunge });
    // The finishing ring takes a shaving at a raised feed: the ring before it leaves nothing else.
    const isWhole = isLast || radius === rings.at(-2);
    const run = { radius, bottom, isWhole };
    const turns = helix(bore, run, isFinish ? atFeed(finishOf(job).feed, job) : job);
    moves.push(...turns);
    if (isLast)
      moves.push({ kind: 'feed', x: cx + radius - Math.min(0.2, radius), y: cy, feed: job.feeds.feed });
    moves.push({ kind: 'rapid', z: isLast ? job.machine.clearHeight : RAPID_FLOOR });
    // One axis at a time, so that a machine whose axes need not arrive together stays over the hole too.
    if (!isLast) moves.push({ kind: 'rapid', x: endOf(turns)[0], y: cy });
  }
  return moves;
}

function finishOf(job: RouterJob): FinishRing {
  if (job.feeds.finish === null)
    throw new Error(`${job.program} bores without a feed for its finishing rings`);
  return job.feeds.finish;
}

function atFeed(feed: number, job: RouterJob): RouterJob {
  return { ...job, feeds: { ...job.feeds, feed } };
}

/**
 * Radii of the cutter's centre: no post is left in the middle, no ring takes more than the step-over, and the last one
 * finishes the `finishing` mm left on the wall.
 */
export function ringRadii(diameter: number, cutter: number, finishing: number): number[] {
  const finish = (diameter - cutter) / 2;
  if (!(finish > 0)) throw new Error(`a cutter of ${cutter} mm in a hole of ${diameter} mm`);
  const roughest = finish - finishing;
  if (roughest < 0.1 || roughest < LEAST_RING * cutter) return [finish];
  const step = STEP_OVER * cutter;
  const count = Math.ceil(roughest / step);
  return [...Array.from({ length: count }, (_, i) => (roughest * (i + 1)) / count), finish];
}

/** Where a ring ends in plan. */
function endOf(turns: readonly Move[]): readonly [number, number] {
  const last = turns.at(-1);
  if (last?.kind === 'arc') return [last.to.x, last.to.y];
  if (last?.kind === 'feed' && last.x !== undefined && last.y !== undefined) return [last.x, last.y];
  throw new Error('a ring that ends nowhere');
}

/** One ring of a bore. */
interface RingRun {
  readonly radius: number;
  readonly bottom: number;
  /** Its level turn is run to the end. */
  readonly isWhole: boolean;
}

function helix(bore: BoreOperation, { radius, bottom, isWhole }: RingRun, job: RouterJob): Move[] {
  const round = circle(bore.at, radius);
  const half = segments(bore.direction === 'climb' ? round : reverse(round));
  const pitch = Math.min(passDepth(job), 2 * Math.PI * radius * Math.tan(STEEPEST));
  const turns = Math.ceil((START - bottom) / pitch - 1e-9);
  const moves: Move[] = [];
  for (let turn = 0; turn <= turns; turn += 1) {
    half.forEach((side, i) => {
      const share = Math.min(turns, turn + (i + 1) / half.length) / turns;
      const fall = turn < turns ? (START - bottom) / turns / half.length : 0;
      const isEnd = turn === turns && i + 1 === half.length;
      const run = isEnd && !isWhole ? withoutEnd(side, job) : side;
      moves.push(...runSegment(run, START + (bottom - START) * share, fall, job));
    });
  }
  return moves;
}

/** Share of the cutter's radius by which a ring may end early: where it came down it has cut the way there already. */
const AHEAD = 0.75;

/** The last half of a ring's level turn, without what was cut already; the next ring takes what that leaves beside it. */
function withoutEnd(side: Segment, { tool }: RouterJob): Segment {
  const left = Math.min(0.5, (AHEAD * tool.diameter) / 2 / segmentLength(side));
  return splitSegment(side, [1 - left])[0]?.side ?? side;
}
