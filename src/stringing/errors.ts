/** How far out of tune each string of an instrument is, as the solvers want it. */
import { setUpOf } from '../physics/board.ts';
import { bodyOf } from '../physics/construction.ts';
import { centsParts, fretCents, openString } from '../physics/intonation.ts';
import type { SaddleString } from '../physics/solve/types.ts';
import type { TunedString } from '../physics/types.ts';
import type { Instrument } from '../profile/types.ts';
import type { StringCase } from './cases.ts';
import type { SharpParts } from './types.ts';

/** The string tuned to its pitch, or to another. */
export const tunedString = (given: StringCase, hertz = given.string.hertz): TunedString => ({
  kind: 'built',
  body: bodyOf(given.construction),
  hertz,
});

/** Cents by fret at a set-back, as they sound. */
export function centsBy(given: StringCase, hertz?: number): (setBack: number) => number[] {
  const setUp = setUpOf(given.bench);
  const tuned = tunedString(given, hertz);
  return (setBack) => fretCents(setUp, tuned, setBack);
}

/** A string with its errors against what the profile aims at, or against 0. */
export function saddleString(
  { intonation }: Instrument,
  given: StringCase,
  { aimed, hertz }: { readonly aimed: boolean; readonly hertz?: number },
): SaddleString {
  const cents = centsBy(given, hertz);
  return {
    y: given.y,
    weight: given.string.importance,
    fretWeights: intonation.fretWeights,
    errors: (setBack) => (aimed ? cents(setBack).map((e, i) => e - (given.aims[i] ?? 0)) : cents(setBack)),
  };
}

/** What would make the note at a fret (from 1) sharp if the saddle stood at the scale length. */
export function sharpWithoutSetBack(given: StringCase, fret: number): SharpParts {
  const setUp = setUpOf(given.bench);
  const parts = centsParts(setUp, openString(setUp, tunedString(given), 0), fret - 1, 0);
  return { pressing: parts.length + parts.mass + parts.tension, stiffness: parts.stiffness };
}

/** Frets that count, from 1. */
export const countedFrets = ({ intonation, frets }: Instrument): number[] =>
  intonation.fretWeights.slice(0, frets.count).flatMap((w, i) => (w > 0 ? [i + 1] : []));

/** The octave's fret, or the last one that counts where the board ends before it. */
export const octaveFret = (instrument: Instrument): number =>
  instrument.frets.octave ?? Math.max(...countedFrets(instrument));

/** Largest miss of any counted fret, cents either way; `errors` by string, then fret. */
export function worstMiss(errors: readonly (readonly number[])[], counted: readonly number[]): number {
  return Math.max(...errors.flatMap((list) => counted.map((fret) => Math.abs(list[fret - 1] ?? 0))));
}

export function pick<T>(list: readonly T[], index: number): T {
  const item = list[index];
  if (item === undefined) throw new Error(`item ${index} of a list of ${list.length}`);
  return item;
}
