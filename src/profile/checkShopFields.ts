/** How a check over fields of a shop is written. */
import { errorFinding, type FindingDetails, warningFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import { when } from './check.ts';
import type { Interval } from './types.ts';

type Details = Omit<FindingDetails, 'where'>;

/** An error at a field of the shop. */
export const wrongInShop = (code: string, path: string, text: string, details: Details = {}): Finding =>
  errorFinding(code, text, { where: { source: 'shop', path }, ...details });

/** A warning at a field of the shop. */
export const doubtfulInShop = (code: string, path: string, text: string, details: Details = {}): Finding =>
  warningFinding(code, text, { where: { source: 'shop', path }, ...details });

/** An interval whose first number is not the smaller one. */
export function upward([from, to]: Interval, path: string, what: string): readonly Finding[] {
  return when(!(from < to), () =>
    wrongInShop('interval-reversed', path, `The ${what} runs from ${from} to ${to}.`, {
      allowed: 'the smaller number first',
    }),
  );
}
