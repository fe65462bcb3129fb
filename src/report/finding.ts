/**
 * What the tool has to say to a person: data first, wording and printing elsewhere.
 *
 * In: nothing. Out: findings. A finding is a user's mistake or a remark about their files, never a bug of ours
 * (impossible states throw). All of a file's problems are collected before any is shown.
 */

export type Severity = 'error' | 'warning' | 'note';

/** Which of the two files a finding speaks of, before a file name is known. */
export type Source = 'instrument' | 'shop';

/** Where a finding points. `line` and `column` count from 1. `path` is a field's path, as `fingerboard.radius`. */
export interface Place {
  readonly source?: Source;
  readonly file?: string;
  readonly line?: number;
  readonly column?: number;
  readonly path?: string;
}

export interface Finding {
  /** Stable kebab-case name of the rule, as `unknown-key`. */
  readonly code: string;
  readonly severity: Severity;
  readonly where?: Place;
  /** One sentence: what is wrong, in a bench's words, with the numbers. */
  readonly text: string;
  /** What was found, as written. */
  readonly found?: string;
  /** What is allowed. */
  readonly allowed?: string;
  /** What to do about it. */
  readonly remedy?: string;
}

/** A result, or the reasons why there is none. Warnings and notes may ride along with a result. */
export type Outcome<T> =
  | { readonly ok: true; readonly value: T; readonly findings: readonly Finding[] }
  | { readonly ok: false; readonly findings: readonly Finding[] };
