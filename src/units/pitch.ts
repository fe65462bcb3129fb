/** Pitches as a builder writes them, to hertz. Equal temperament; scientific octave numbers (A4 is the concert pitch). */
import { type Parsed, quote, readMeasure, refuse } from './exact.ts';

/** ISO 16:1975, standard tuning frequency. */
export const CONCERT_PITCH = 440;

/** How a pitch may be written, for error messages. */
export const PITCH_FORMS = 'a note with its octave, or a frequency: E2, C#4, Bb3, 82.41 Hz';

const NOTE = /^([A-Ga-g])(##|#|x|bb|b|♯|♭)?(-?\d)$/u;
const SEMITONES: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
const ACCIDENTALS: Readonly<Record<string, number>> = {
  '': 0,
  '#': 1,
  '♯': 1,
  '##': 2,
  x: 2,
  b: -1,
  '♭': -1,
  bb: -2,
};
/** Semitones from C0 to A4. */
const A4 = 57;

/**
 * Hertz of a written pitch, A4 at `concertPitch`: f = concert * 2^((n - 57)/12), n semitones above C0.
 * @example parsePitch('E2') // { ok: true, value: 82.40688922821748 }
 */
export function parsePitch(written: string | number, concertPitch = CONCERT_PITCH): Parsed<number> {
  if (typeof written === 'number')
    return refuse(`${written} could be anything; write "${written} Hz" or a note.`);
  const note = NOTE.exec(written.trim());
  return note === null ? parseHertz(written) : { ok: true, value: noteHertz(note, concertPitch) };
}

function noteHertz(note: RegExpExecArray, concertPitch: number): number {
  const [, letter = '', accidental = '', octave = ''] = note;
  const step = SEMITONES[letter.toUpperCase()];
  const shift = ACCIDENTALS[accidental];
  if (step === undefined || shift === undefined) throw new Error(`note not understood: ${note[0]}`);
  return concertPitch * 2 ** ((step + shift + 12 * Number(octave) - A4) / 12);
}

function parseHertz(written: string): Parsed<number> {
  if (/^[A-Ga-g](##|#|x|bb|b|♯|♭)?$/u.test(written.trim())) {
    return refuse(`${quote(written)} has no octave; A4 is the concert pitch, a guitar's low string is E2.`);
  }
  const measure = readMeasure(written);
  if (!measure.ok) return /\d/.test(written) ? refuse(`${quote(written)} is not a pitch.`) : measure;
  const { amount, unit } = measure.value;
  if (unit === '') return refuse(`${quote(written)} could be anything; write Hz behind it, or a note.`);
  if (unit.toLowerCase() !== 'hz') return refuse(`${quote(written)} is not a pitch.`);
  const hertz = amount.valueOf();
  return hertz > 0 ? { ok: true, value: hertz } : refuse(`${quote(written)} is not above zero.`);
}
