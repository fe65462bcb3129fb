/** How a check over several fields is written: the sections it needs, and what it finds in them. */
import { errorFinding, type FindingDetails, warningFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import { formatShort } from '../units/format.ts';
import type { InstrumentSections } from './resolve/instrument.ts';
import type { Instrument } from './types.ts';

export type Check = (sections: InstrumentSections) => readonly Finding[];

/** A check that runs when all the sections it needs could be read, so that one bad section does not hide the rest. */
export function check<Key extends keyof Instrument>(
  needs: readonly Key[],
  run: (sections: Pick<Instrument, Key>) => readonly Finding[],
): Check {
  return (sections) => (hasAll(sections, needs) ? run(sections) : []);
}

function hasAll<Key extends keyof Instrument>(
  sections: InstrumentSections,
  needs: readonly Key[],
): sections is InstrumentSections & Pick<Instrument, Key> {
  return needs.every((key) => sections[key] !== undefined);
}

type Details = Omit<FindingDetails, 'where'>;

/** An error at a field of the instrument. */
export const wrong = (code: string, path: string, text: string, details: Details = {}): Finding =>
  errorFinding(code, text, { where: { source: 'instrument', path }, ...details });

/** A warning at a field of the instrument. */
export const doubtful = (code: string, path: string, text: string, details: Details = {}): Finding =>
  warningFinding(code, text, { where: { source: 'instrument', path }, ...details });

/** A list of at most one finding. */
export const when = (isWrong: boolean, make: () => Finding): readonly Finding[] => (isWrong ? [make()] : []);

/**
 * A length for a sentence: to the hundredth that a caliper shows where that is all of it, else with more digits, so that two
 * lengths that a rule tells apart are told apart in print.
 *
 * @example mm(0.6004) // '0.6004 mm'
 */
export const mm = (length: number): string => `${formatShort(length, digitsFor(length))} mm`;

/** Digits that show a length as it was written; three for one that has no end. */
function digitsFor(length: number): number {
  const exact = [2, 3, 4].find((digits) => Math.abs(Number(length.toFixed(digits)) - length) < HAIR);
  return exact ?? 3;
}

/** Slack for comparing numbers that were written to agree. */
export const HAIR = 1e-6;

/** What a cut leaves below itself, in words: @example 'the slot leaves 0.4 mm of wood' */
export const leaves = (left: number, what: string): string =>
  left <= 0 ? `${what} cuts through the board` : `${what} leaves ${mm(left)} of wood`;
