/** Saddle and nut chosen together: a pair for each string, or one straight nut under strings that each have their saddle. */
import { MOST_STEPS, NUDGE, pick, SETTLED } from './fit.ts';

/** One string whose nut may move too. */
export interface NutString {
  /** Errors in cents by fret for that set-back and that nut, forward of scale zero. */
  readonly errors: (setBack: number, nutForward: number) => readonly number[];
  readonly fretWeights: readonly number[];
  readonly weight: number;
}

export interface SharedNut {
  readonly nutForward: number;
  /** By string. */
  readonly setBacks: readonly number[];
}

/** The set-back and the nut that leave one string's errors least. */
export function idealPair(string: NutString): { readonly setBack: number; readonly nutForward: number } {
  const { nutForward, setBacks } = sharedNut([string]);
  return { nutForward, setBack: pick(setBacks, 0) };
}

/** The one nut that leaves the set's errors least when each string then has the saddle it wants. */
export function sharedNut(strings: readonly NutString[]): SharedNut {
  const weights = strings.map((s) => s.weight);
  let nutForward = 0;
  let setBacks = strings.map(() => 0);
  for (let i = 0; i < MOST_STEPS; i += 1) {
    const local = strings.map((s, k) => normal(s, pick(setBacks, k), nutForward));
    const nut = nutStep(local, weights);
    const steps = local.map((n) => -(n.gs + n.sn * nut) / n.ss);
    nutForward += nut;
    setBacks = setBacks.map((at, k) => at + pick(steps, k));
    if (Math.max(Math.abs(nut), ...steps.map(Math.abs)) < SETTLED) return { nutForward, setBacks };
  }
  throw new Error(`nut did not settle: ${nutForward}`);
}

/** Normal equations of one string: s for its set-back, n for the nut, g for half gradients. */
interface Normal {
  readonly gs: number;
  readonly gn: number;
  readonly ss: number;
  readonly sn: number;
  readonly nn: number;
}

/** The nut's step once every set-back has been eliminated. */
function nutStep(local: readonly Normal[], weights: readonly number[]): number {
  const total = (of: (n: Normal) => number): number =>
    local.reduce((sum, n, i) => sum + pick(weights, i) * of(n), 0);
  const gradient = total((n) => n.gn - (n.sn * n.gs) / n.ss);
  const curvature = total((n) => n.nn - n.sn ** 2 / n.ss);
  if (!(curvature > 0)) throw new Error('one fret cannot settle nut and saddle both');
  return -gradient / curvature;
}

function normal(string: NutString, setBack: number, nutForward: number): Normal {
  const here = string.errors(setBack, nutForward);
  const slope = (a: readonly number[], b: readonly number[], i: number): number =>
    ((a[i] ?? 0) - (b[i] ?? 0)) / (2 * NUDGE);
  const back = [
    string.errors(setBack + NUDGE, nutForward),
    string.errors(setBack - NUDGE, nutForward),
  ] as const;
  const nut = [
    string.errors(setBack, nutForward + NUDGE),
    string.errors(setBack, nutForward - NUDGE),
  ] as const;
  const sum = { gs: 0, gn: 0, ss: 0, sn: 0, nn: 0 };
  here.forEach((e, i) => {
    const w = string.fretWeights[i] ?? 0;
    const [s, n] = [slope(back[0], back[1], i), slope(nut[0], nut[1], i)];
    sum.gs += w * s * e;
    sum.gn += w * n * e;
    sum.ss += w * s * s;
    sum.sn += w * s * n;
    sum.nn += w * n * n;
  });
  return sum;
}
