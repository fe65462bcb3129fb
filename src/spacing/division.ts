/**
 * How the octave is divided, and which of its steps carry a fret.
 *
 * A division is a rule for the cents of its nth step; step 0 is the open string. A list of steps goes on from its last
 * entry, which is the octave in nearly every list.
 */
import { equalCents } from './cents.ts';

export interface Steps {
  /** How many steps the list has before it begins again. */
  readonly size: number;
  /** Cents of a step, counted from the open string. */
  readonly cents: (step: number) => number;
}

export const equalSteps = (perOctave: number): Steps => ({
  size: perOctave,
  cents: (step) => equalCents(step, perOctave),
});

/** Steps of a rising list of cents; past its last entry it begins again from there. */
export function listedSteps(list: readonly number[]): Steps {
  const size = list.length;
  const period = list[size - 1];
  if (period === undefined) throw new Error('a division without steps');
  return {
    size,
    cents: (step) => {
      const rounds = Math.floor(step / size);
      const rest = step - rounds * size;
      return rounds * period + (rest === 0 ? 0 : (list[rest - 1] ?? Number.NaN));
    },
  };
}

/** A fret by its name, and how far above the open string it stands. */
export interface NamedFret {
  readonly label: string;
  readonly cents: number;
}

export interface Fretting {
  /** Number of the last fret; half frets are not counted. */
  readonly count: number;
  /** Steps of each round of the division that carry a fret; null for all of them. */
  readonly fretted: readonly number[] | null;
  /** Half frets, as `6+`: on the middle step between frets 6 and 7, or halfway in cents where there is no such step. */
  readonly added: readonly string[];
  /** Names of frets that are not there. */
  readonly leftOut: readonly string[];
}

/** Names and cents of the frets from the nut. */
export function nameFrets(steps: Steps, { count, fretted, added, leftOut }: Fretting): NamedFret[] {
  const { size } = steps;
  const stepOf = (fret: number): number => {
    if (fretted === null) return fret;
    const rounds = Math.floor((fret - 1) / fretted.length);
    const last = fretted[fret - 1 - rounds * fretted.length];
    return fret === 0 ? 0 : rounds * size + (last ?? Number.NaN);
  };
  const whole = Array.from({ length: count }, (_, i): NamedFret & { readonly order: number } => ({
    label: String(i + 1),
    cents: steps.cents(stepOf(i + 1)),
    order: i + 1,
  }));
  const half = [...new Set(added)].map((label) => {
    const before = Number(label.replace('+', ''));
    const [low, high] = [stepOf(before), stepOf(before + 1)];
    const middle = (low + high) / 2;
    const cents = Number.isInteger(middle) ? steps.cents(middle) : (steps.cents(low) + steps.cents(high)) / 2;
    return { label, cents, order: before + 0.5 };
  });
  return [...whole, ...half]
    .filter(({ label }) => !leftOut.includes(label))
    .sort((a, b) => a.order - b.order)
    .map(({ label, cents }) => ({ label, cents }));
}
