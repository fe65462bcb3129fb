/** The same set at other pitches: read from words, and worked out beside the profile's own tuning. */
import { idealSetBack } from '../physics/solve/fit.ts';
import type { Instrument } from '../profile/types.ts';
import { errorFinding } from '../report/collect.ts';
import type { Finding, Outcome } from '../report/finding.ts';
import { PITCH_FORMS, parsePitch } from '../units/pitch.ts';
import type { StringCase } from './cases.ts';
import { centsBy, octaveFret, pick, saddleString } from './errors.ts';
import { pullOf } from './pull.ts';
import type { Retuned, StringPull } from './types.ts';

/** Another tuning as it was asked for: notes in words, and the frequency of A4. */
export interface TuningWords {
  /** `D2 A2 D3 G3 B3 E4`, bass side first; undefined: the profile's own notes. */
  readonly notes?: string | undefined;
  /** `432` or `432 Hz`; undefined: the profile's own. */
  readonly concertPitch?: string | undefined;
}

export interface OtherTuning {
  readonly concertPitch: number;
  /** By string, bass side first. */
  readonly pitches: readonly { readonly pitch: string; readonly hertz: number }[];
}

const CONCERT_RANGE = [380, 480] as const;

/** Code of every finding about the words of another tuning: they were not read from a file. */
export const BAD_TUNING = 'bad-tuning';

const bad = (text: string, allowed: string): Finding => errorFinding(BAD_TUNING, text, { allowed });

/** Reads another tuning for an instrument; null when none is asked for. */
export function readTuning(instrument: Instrument, words: TuningWords): Outcome<OtherTuning | null> {
  if (words.notes === undefined && words.concertPitch === undefined)
    return { ok: true, value: null, findings: [] };
  const concert = readConcertPitch(instrument, words.concertPitch);
  if (concert === null) {
    const range = `${CONCERT_RANGE[0]} to ${CONCERT_RANGE[1]} Hz`;
    return { ok: false, findings: [bad(`"${words.concertPitch}" is not a concert pitch.`, range)] };
  }
  const names = words.notes?.split(/[\s,]+/).filter((name) => name !== '');
  const count = instrument.strings.length;
  if (names !== undefined && names.length !== count) {
    const text = `The tuning names ${names.length} notes and the instrument has ${count} strings.`;
    return { ok: false, findings: [bad(text, `${count} notes, bass side first`)] };
  }
  const read = (names ?? instrument.strings.map((s) => s.pitch)).map((pitch) => ({
    pitch,
    parsed: parsePitch(pitch, concert),
  }));
  const findings = read.flatMap(({ parsed }) => (parsed.ok ? [] : [bad(parsed.problem, PITCH_FORMS)]));
  const pitches = read.flatMap(({ pitch, parsed }) => (parsed.ok ? [{ pitch, hertz: parsed.value }] : []));
  if (findings.length > 0) return { ok: false, findings };
  return { ok: true, value: { concertPitch: concert, pitches }, findings: [] };
}

function readConcertPitch(instrument: Instrument, written: string | undefined): number | null {
  if (written === undefined) return instrument.concertPitch;
  const hertz = Number(written.trim().replace(/\s*hz$/i, ''));
  return hertz >= CONCERT_RANGE[0] && hertz <= CONCERT_RANGE[1] ? hertz : null;
}

/** How the set pulls and plays at other pitches, with the profile's saddle. */
export function retune(
  instrument: Instrument,
  cases: readonly StringCase[],
  pulls: readonly StringPull[],
  other: OtherTuning,
): Retuned {
  const strings = cases.map((given, i) => {
    const tuned = pick(other.pitches, i);
    const pull = pullOf(instrument, given, i + 1, tuned);
    const { hertz } = tuned;
    return {
      position: i + 1,
      pull,
      change: pull.tension - pick(pulls, i).tension,
      ideal: idealSetBack(saddleString(instrument, given, { aimed: true, hertz })),
      atOctave: pick(centsBy(given, hertz)(given.string.setBack), octaveFret(instrument) - 1),
    };
  });
  return {
    concertPitch: other.concertPitch,
    strings,
    total: strings.reduce((sum, s) => sum + s.pull.tension, 0),
  };
}
