import type { LengthUnit } from '../profile/types.ts';
import { mmFromInches } from '../units/convert.ts';

/** Cents of a frequency ratio, per natural logarithm: 1200 / ln 2. */
const CENTS = 1200 / Math.LN2;

/** A small error in a place. */
interface Slip {
  readonly words: string;
  /** In that unit. */
  readonly amount: number;
  readonly mm: number;
}

/** An error as round in its unit as a bench would say it: 0.1 mm, or 0.004 in. */
export function slip(unit: LengthUnit): Slip {
  const amount = unit === 'mm' ? 0.1 : 0.004;
  return { words: `${amount} ${unit}`, amount, mm: unit === 'mm' ? amount : mmFromInches(amount) };
}

/** Cents by which a note is out when its sounding `length` is `off` by a little, both in one unit: d(1200 log2 L). */
export function centsOf(off: number, length: number): number {
  return (CENTS * off) / length;
}
