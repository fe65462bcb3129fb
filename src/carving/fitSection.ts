import type { Vec } from '../geometry/types.ts';
import { backHeight } from './section.ts';
import type { Section } from './types.ts';

/** What a measured back comes to, and how far the farthest point of it lies off. */
export interface FittedSection {
  readonly shoulder: number;
  readonly back: number;
  /** Largest distance of a point from the curve, up or down. */
  readonly worst: number;
}

/** Shares that a section may have: outside these its curve is nearly a corner. */
export const SHARES = [0.05, 0.95] as const;

/** [shoulder, back]. */
type Pair = readonly [number, number];
/** How far each measured point lies under the curve of a pair, mm. */
type Misses = (pair: Pair) => readonly number[];

/**
 * The shoulder and the back whose curve lies nearest to points measured on a neck, by least squares of the heights: a coarse look
 * over all pairs, then damped Gauss-Newton steps (Levenberg 1944, Marquardt 1963) from the best few, for the best lies in a narrow
 * bent valley. Points are [from the centreline, below the board's underside].
 */
export function fitSection(
  size: Pick<Section, 'halfWidth' | 'depth'>,
  points: readonly Vec[],
): FittedSection {
  if (points.length === 0) throw new Error('no points to fit a section to');
  const misses: Misses = ([shoulder, back]) =>
    points.map(([y, below]) => backHeight({ ...size, shoulder, back }, y) + below);
  const starts = LOOKED_AT.map((pair) => ({ pair, sum: squares(misses(pair)) })).sort(
    (a, b) => a.sum - b.sum,
  );
  const [best] = starts
    .slice(0, STARTS)
    .map(({ pair }) => settle(misses, pair))
    .sort((a, b) => a.sum - b.sum);
  if (best === undefined) throw new Error('no pair to start a fit from');
  const [shoulder, back] = best.pair;
  return { shoulder, back, worst: Math.max(...misses(best.pair).map(Math.abs)) };
}

const SHARES_LOOKED_AT = Array.from({ length: 10 }, (_, i) => SHARES[0] + (i * (SHARES[1] - SHARES[0])) / 9);
const LOOKED_AT = SHARES_LOOKED_AT.flatMap((s) => SHARES_LOOKED_AT.map((b): Pair => [s, b]));
const STARTS = 3;
const MOST_STEPS = 100;
/** A pair is settled when a step is smaller than this: less than 1e-7 mm on any neck. */
const SETTLED = 1e-9;
/** Half the step of the numerical derivative. */
const NUDGE = 1e-5;

const squares = (list: readonly number[]): number => list.reduce((sum, miss) => sum + miss * miss, 0);
const within = (share: number): number => Math.min(SHARES[1], Math.max(SHARES[0], share));

/** Damped steps downhill from a pair: the damping falls while steps help, and rises until one does. */
function settle(misses: Misses, from: Pair): { readonly pair: Pair; readonly sum: number } {
  let best = { pair: from, sum: squares(misses(from)) };
  let damping = 1e-3;
  for (let i = 0; i < MOST_STEPS && damping < 1e12; i += 1) {
    const [a, b] = dampedStep(misses, best.pair, damping);
    const pair: Pair = [within(best.pair[0] + a), within(best.pair[1] + b)];
    const sum = squares(misses(pair));
    const moved = Math.hypot(pair[0] - best.pair[0], pair[1] - best.pair[1]);
    damping *= sum < best.sum ? 1 / 3 : 10;
    if (sum < best.sum) best = { pair, sum };
    if (moved < SETTLED) break;
  }
  return best;
}

/** Solves (J'J + damping diag J'J) step = -J'r for two unknowns. */
function dampedStep(misses: Misses, [shoulder, back]: Pair, damping: number): Pair {
  const off = misses([shoulder, back]);
  const by = (a: number, b: number): number[] => {
    const beyond = misses([shoulder + a, back + b]);
    const before = misses([shoulder - a, back - b]);
    return beyond.map((miss, i) => (miss - (before[i] ?? 0)) / (2 * NUDGE));
  };
  const [js, jb] = [by(NUDGE, 0), by(0, NUDGE)];
  const dot = (u: readonly number[], v: readonly number[]): number =>
    u.reduce((sum, value, i) => sum + value * (v[i] ?? 0), 0);
  const [ss, sb, bb] = [dot(js, js) * (1 + damping), dot(js, jb), dot(jb, jb) * (1 + damping)];
  const [gs, gb] = [dot(js, off), dot(jb, off)];
  const det = ss * bb - sb * sb;
  // Points on the centreline alone fix neither share: there is nothing to step along.
  if (!(det > 0)) return [0, 0];
  return [(sb * gb - bb * gs) / det, (sb * gs - ss * gb) / det];
}
