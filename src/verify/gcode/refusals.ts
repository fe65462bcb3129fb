import type { Refusal } from './types.ts';

/** More than this many are of no use to a person; the program is refused either way. */
export const MOST_REFUSALS = 100;

/** Refusals so far, and the line that is being read. */
export interface Refusals {
  line: number;
  readonly list: Refusal[];
}

/** Notes a refusal at the line being read; beyond the hundredth nothing is kept. */
export function refuse(refusals: Refusals, rule: string, found: string, allowed: string): void {
  if (refusals.list.length >= MOST_REFUSALS) return;
  refusals.list.push({ line: refusals.line, rule, found, allowed });
}
