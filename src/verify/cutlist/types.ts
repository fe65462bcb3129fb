/**
 * What is checked of a cut plan, by code that knows nothing of how it was made.
 *
 * In: a plan, the pieces that were wanted, the shop. Out: checks. Lengths are millimetres.
 */

export interface CutCheck {
  readonly name: string;
  readonly passed: boolean;
  /** The worst found: a length in mm, or a number of faults. */
  readonly value: number;
  readonly limit: number;
  /** How many things were looked at. */
  readonly seen: number;
  /** Where the worst is, in words; empty when nothing is wrong. */
  readonly place: string;
}

/** One thing measured: how bad, and where. */
export interface Measured {
  readonly value: number;
  readonly place: string;
}

export interface Rect {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
}
