/**
 * Numbers of an arc as they are written. An interpreter refuses an arc whose two ends lie at different distances from the centre:
 * by more than 0.002 mm or 0.0002 inch (NISTIR 6556, 3.5.3.2). Half of that is kept to here.
 */
import type { LengthUnit } from '../../profile/types.ts';
import { rounded } from './numbers.ts';

type Pair = readonly [number, number];

/** Greatest difference of the two radii that is written, in the program's unit. */
export const MOST_MISMATCH: Readonly<Record<LengthUnit, number>> = { mm: 0.001, in: 0.0001 };

/**
 * The centre's offsets from the written start, in the program's unit, rounded so that start and end lie at the same distance
 * from it as nearly as can be. Of the nine roundings next to the wanted centre the one with the least difference of radii;
 * where the ends of a short arc were rounded too unevenly for any of them, of the nine next to the centre that lies at the
 * same distance from both written ends.
 */
export function centreOffsets(wanted: Pair, chord: Pair, decimals: number, units: LengthUnit): Pair {
  const near = best(wanted, chord, decimals);
  if (near.mismatch <= 0.75 * MOST_MISMATCH[units]) return near.offsets;
  const even = best(onBisector(wanted, chord), chord, decimals);
  const found = even.mismatch < near.mismatch ? even : near;
  if (found.mismatch > MOST_MISMATCH[units] + 1e-9) {
    throw new Error(`an arc over ${chord.join(', ')} about ${wanted.join(', ')} with ${decimals} decimals`);
  }
  return found.offsets;
}

function best(about: Pair, chord: Pair, decimals: number): { offsets: Pair; mismatch: number } {
  const unit = 10 ** -decimals;
  const [a, b] = [rounded(about[0], decimals), rounded(about[1], decimals)];
  let found: { offsets: Pair; mismatch: number } = { mismatch: Number.POSITIVE_INFINITY, offsets: [a, b] };
  for (const da of [0, -unit, unit]) {
    for (const db of [0, -unit, unit]) {
      const offsets: Pair = [rounded(a + da, decimals), rounded(b + db, decimals)];
      const mismatch = mismatchOf(offsets, chord);
      if (mismatch < found.mismatch - unit / 10) found = { mismatch, offsets };
    }
  }
  return found;
}

function mismatchOf(offsets: Pair, chord: Pair): number {
  return Math.abs(Math.hypot(...offsets) - Math.hypot(chord[0] - offsets[0], chord[1] - offsets[1]));
}

/** The nearest point that is as far from the start as from the end. */
function onBisector([a, b]: Pair, [p, q]: Pair): Pair {
  const shift = 0.5 - (a * p + b * q) / (p * p + q * q);
  return [a + shift * p, b + shift * q];
}
