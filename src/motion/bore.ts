import { circle, reverse, segments } from '../geometry/ring.ts';
import { ringEngagement } from '../geometry/ringEngagement.ts';
import { segmentLength } from '../geometry/segment.ts';
import type { Segment, Vec } from '../geometry/types.ts';
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

/** The finished wall is left inwards by this much before the cutter rises, mm. */
const OFF_WALL = 0.2;

/** A ring that engages no more of the rim than a strip of this share of the diameter would is a shaving (common practice, no source). */
const SHAVING = 0.15;

/**
 * Moves that bore a round pocket or hole: rings ever larger, the last on the finished wall, each ended by a turn on the
 * floor. A ring comes down in a helix of its own, unless the one before has left it no more than it may take in one turn,
 * a pass or a shaving: then it goes on along the floor. Counter-clockwise, so that a right-hand spindle climbs; the
 * conventional way is clockwise.
 */
export function boreMoves(bore: BoreOperation, job: RouterJob): Move[] {
  const bottom = bore.through ? bore.z - job.below : bore.z;
  const finish = finishOf(job);
  const rings = ringRadii(bore.diameter, job.tool.diameter, finish.width);
  const isShaving = ringEngagement(bore.diameter, job.tool.diameter, finish.width) <= SHAVING;
  const runs = rings.map((radius, i) => {
    const isFinish = i > 0 && i === rings.length - 1;
    return {
      radius,
      bottom,
      isFinish,
      early: earlyEnd(rings, i, job.tool.diameter / 2),
      onFloor: i > 0 && -bottom <= (isFinish && isShaving ? finish.deepest : passDepth(job)),
      job: isFinish ? atFeed(finish.feed, job) : job,
    };
  });
  return runRings(bore, runs, job);
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

/** Share of the cutter's radius by which a ring may end early where the next takes far more than that leaves. */
const AHEAD = 0.75;

/** Left by the ring before the last in the shape of a cusp, mm: the rounding of the shaving that the last takes. */
const CUSP = 0.004;

/**
 * By how much ring number `i` may end early: where it began the cutter has cut the way there already. The last is run to
 * its end. Ending the one before by s leaves a cusp of s^2 r / (8 q (r + q)) on the wall, q the cutter's radius (two circles
 * inside a third, for small s).
 */
function earlyEnd(rings: readonly number[], i: number, q: number): number {
  if (i === rings.length - 1) return 0;
  if (i < rings.length - 2) return AHEAD * q;
  const r = rings[i] ?? 0;
  return Math.min(AHEAD * q, Math.sqrt((8 * CUSP * q * (r + q)) / r));
}

/** One ring of a bore. */
interface RingRun {
  readonly radius: number;
  readonly bottom: number;
  /** Its level turn ends this much before its beginning, mm. */
  readonly early: number;
  /** It takes the shaving that was left on the wall. */
  readonly isFinish: boolean;
  /** It comes from the ring before along the floor. */
  readonly onFloor: boolean;
  /** The job at this ring's feed. */
  readonly job: RouterJob;
}

function runRings(bore: BoreOperation, runs: readonly RingRun[], job: RouterJob): Move[] {
  const moves: Move[] = [];
  for (const [i, run] of runs.entries()) {
    if (run.onFloor) moves.push(...alongFloor(bore, run, endOf(moves)));
    else moves.push(...(i > 0 ? backUp(bore, endOf(moves)) : []), ...entry(bore, run), ...helix(bore, run));
  }
  return [...moves, ...offWall(bore, endOf(moves), job)];
}

/**
 * Outwards on the floor and round there: for a roughing ring by a half turn along both rings, so that the bite grows
 * slowly; for the shaving of the last by an arc that meets the wall along it, for a long way on would cut nothing.
 */
function alongFloor(bore: BoreOperation, run: RingRun, from: Vec): Move[] {
  const { radius, bottom, early, job } = run;
  const across = run.isFinish ? leadOn(bore, from, radius) : halfTurn(bore, from, radius);
  const away = halfTurn(bore, across.to, radius);
  const back = halfTurn(bore, away.to, radius);
  const sides = [across, away, withoutEnd(back, early)];
  return sides.flatMap((side) => runSegment(side, bottom, 0, job));
}

/** One axis at a time, so that a machine whose axes need not arrive together stays over the hole too. */
function backUp({ at }: BoreOperation, [x]: Vec): Move[] {
  return [
    { kind: 'rapid', z: RAPID_FLOOR },
    { kind: 'rapid', x, y: at[1] },
  ];
}

/** To where a ring's helix begins. */
function entry(bore: BoreOperation, { radius, job }: RingRun): Move[] {
  return [
    { kind: 'rapid', x: bore.at[0] + radius, y: bore.at[1] },
    { kind: 'rapid', z: RAPID_FLOOR },
    { kind: 'feed', z: START, feed: job.feeds.plunge },
  ];
}

/** From where the last ring ends inwards, and up. */
function offWall({ at }: BoreOperation, [x, y]: Vec, job: RouterJob): Move[] {
  const radius = Math.hypot(x - at[0], y - at[1]);
  const left = 1 - Math.min(OFF_WALL, radius) / radius;
  return [
    { kind: 'feed', x: at[0] + (x - at[0]) * left, y: at[1] + (y - at[1]) * left, feed: job.feeds.feed },
    { kind: 'rapid', z: job.machine.clearHeight },
  ];
}

/** Where a way ends in plan. */
function endOf(moves: readonly Move[]): Vec {
  const last = moves.at(-1);
  if (last?.kind === 'arc') return [last.to.x, last.to.y];
  if (last?.kind === 'feed' && last.x !== undefined && last.y !== undefined) return [last.x, last.y];
  throw new Error('a ring that ends nowhere');
}

function helix(bore: BoreOperation, { radius, bottom, early, job }: RingRun): Move[] {
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
      const run = isEnd ? withoutEnd(side, early) : side;
      moves.push(...runSegment(run, START + (bottom - START) * share, fall, job));
    });
  }
  return moves;
}

/** Half round the bore's middle, to the far side of it at another distance: along the ring at both ends. */
function halfTurn({ at, direction }: BoreOperation, from: Vec, radius: number): Segment {
  const before = Math.hypot(from[0] - at[0], from[1] - at[1]);
  const to: Vec = [
    at[0] - ((from[0] - at[0]) * radius) / before,
    at[1] - ((from[1] - at[1]) * radius) / before,
  ];
  return {
    kind: 'arc',
    from,
    to,
    centre: [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2],
    radius: (before + radius) / 2,
    sweep: direction === 'climb' ? Math.PI : -Math.PI,
  };
}

/**
 * An arc that touches a ring where the ring's own arcs begin, on the level of the bore's middle, so that the wall is written in
 * round figures as every other. From the middle its centre lies at d = (r^2 - p^2) / 2 (r - p cos a): p and a are where it
 * starts, r the ring's radius (cosine rule, both ends being equally far from that centre).
 */
function leadOn({ at, direction }: BoreOperation, from: Vec, radius: number): Segment {
  const [x, y] = [from[0] - at[0], from[1] - at[1]];
  const side = x < 0 ? -1 : 1;
  const d = (side * (radius ** 2 - x * x - y * y)) / (2 * (radius - side * x));
  const round = Math.abs(Math.atan2(y, side * (x - d)));
  return {
    kind: 'arc',
    from,
    to: [at[0] + side * radius, at[1]],
    centre: [at[0] + d, at[1]],
    radius: radius - Math.abs(d),
    sweep: direction === 'climb' ? round : -round,
  };
}

/** A ring's last half turn without what was cut already where the ring began. */
function withoutEnd(side: Segment, early: number): Segment {
  const left = Math.min(0.5, early / segmentLength(side));
  return left === 0 ? side : (splitSegment(side, [1 - left])[0]?.side ?? side);
}
