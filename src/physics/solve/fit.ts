/** Weighted least squares of one string's errors over its frets, by Gauss and Newton's steps. */
import type { SaddleString } from './types.ts';

/** A set-back is settled when a step is smaller than this, mm: three orders below the 1e-4 that is promised. */
export const SETTLED = 1e-7;
/**
 * Half the step of the numerical derivative, mm. Where the pressed string begins to touch one more fret the error's second
 * derivative jumps, which asks for a short step; errors are exact to 1e-10 cents only, which a much shorter one would make
 * felt.
 */
export const NUDGE = 0.005;
export const MOST_STEPS = 60;

/** A string's cost near a set-back: value, half its gradient and half its curvature (Gauss-Newton), per string weight 1. */
export interface LocalCost {
  readonly value: number;
  readonly gradient: number;
  readonly curvature: number;
}

/** Sum of weight times error squared. */
export function costAt(string: SaddleString, setBack: number): number {
  return string.errors(setBack).reduce((sum, e, i) => sum + (string.fretWeights[i] ?? 0) * e * e, 0);
}

/** The cost and its first and second half-derivatives at a set-back. */
export function localCost(string: SaddleString, setBack: number): LocalCost {
  const here = string.errors(setBack);
  const beyond = string.errors(setBack + NUDGE);
  const before = string.errors(setBack - NUDGE);
  let [value, gradient, curvature] = [0, 0, 0];
  here.forEach((e, i) => {
    const w = string.fretWeights[i] ?? 0;
    const j = ((beyond[i] ?? 0) - (before[i] ?? 0)) / (2 * NUDGE);
    value += w * e * e;
    gradient += w * j * e;
    curvature += w * j * j;
  });
  if (!(curvature > 0) || !Number.isFinite(value)) throw new Error(`set-back ${setBack} moves nothing`);
  return { value, gradient, curvature };
}

/** The set-back in mm that leaves one string's errors least. */
export function idealSetBack(string: SaddleString, from = 0): number {
  let setBack = from;
  for (let i = 0; i < MOST_STEPS; i += 1) {
    const { gradient, curvature } = localCost(string, setBack);
    const step = -gradient / curvature;
    setBack += step;
    if (Math.abs(step) < SETTLED) return setBack;
  }
  throw new Error(`set-back did not settle: ${setBack}`);
}

/** The cost of a whole set. */
export function setCost(strings: readonly SaddleString[], setBacks: readonly number[]): number {
  return strings.reduce((sum, string, i) => sum + string.weight * costAt(string, pick(setBacks, i)), 0);
}

export function pick<T>(list: readonly T[], index: number): T {
  const item = list[index];
  if (item === undefined) throw new Error(`item ${index} of a list of ${list.length}`);
  return item;
}
