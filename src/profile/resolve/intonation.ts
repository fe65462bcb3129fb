/** How stopped notes are judged: which frets count, and how a finger presses. */
import type { GivenInstrument } from '../schema/instrument.ts';
import type { Frets, Instrument } from '../types.ts';
import { type Fill, PRACTICE } from './fill.ts';

/** Fills in what the file leaves out of `intonation`. */
export function resolveIntonation(
  given: Partial<GivenInstrument>,
  frets: Frets,
  fill: Fill,
): Instrument['intonation'] {
  const { intonation } = given;
  const counted = frets.octave ?? Math.min(frets.division.equal ?? 12, frets.count);
  return {
    fretWeights: fill.shown(
      'intonation.fretWeights',
      intonation?.fretWeights,
      Array.from({ length: counted }, () => 1),
      `frets 1 to ${counted} alike`,
      'the first octave, as in the published tables',
    ),
    nut: fill.plain('intonation.nut', intonation?.nut, 'fixed', 'the nut is where nut.setForward says'),
    fingerBehind: fill.length(
      'intonation.fingerBehind',
      intonation?.fingerBehind,
      6,
      `a finger just behind the fret (${PRACTICE})`,
    ),
    press: fill.length(
      'intonation.press',
      intonation?.press,
      0.03,
      'a light touch; 0 would not hold the string on the fret (assumed)',
    ),
  };
}
