/**
 * Whether a damaged program does harm, decided by what it does and not by what a proof says of it.
 *
 * In: the intent, the good program, the damaged one. Out: nothing, or what is wrong: wood taken or left where it should not be
 * (geometric), cut in a way that tool or wood does not bear (process), or a machine left to guess or in a state that it should
 * not be in (control). Tolerances are those of the intent and SLACK more.
 */
import type { Intent } from '../../../src/intent/types.ts';
import type { Pause, Step } from '../machine/types.ts';
import type { Shape } from './shape.ts';
import type { Cutting } from './wood.ts';

/** Harm begins this far beyond a tolerance, mm. */
export const SLACK = 0.002;

export interface Harm {
  readonly kind: 'geometric' | 'process' | 'control';
  readonly what: string;
}

/** A cut of the intent with its shapes. */
export interface Meant {
  readonly cut: Intent['cuts'][number];
  /** region, drill: what is cleared. */
  readonly region: Shape | null;
  /** What may be cut besides. */
  readonly may: Shape | null;
  readonly remain: Shape | null;
  /** separate: the kept ring. */
  readonly ring: Shape | null;
  readonly keepsInside: boolean;
}

/** Everything that stays the same for all damages of one program. */
export interface Good {
  readonly intent: Intent;
  readonly text: string;
  readonly stock: Shape;
  readonly meant: readonly Meant[];
  readonly cutting: Cutting;
  readonly keepOuts: readonly { readonly shape: Shape; readonly top: number }[];
  /** Seconds the good program stands still between switching the spindle on and its first cut. */
  readonly stood: number;
  readonly pauses: readonly Pause[];
  /** The part of a program that changes tools: T may name the next. */
  readonly manyTools?: true;
}

/** A damaged program, lined up with the good one: the first `head` and the last `tail` steps are the same. */
export interface Damaged {
  readonly steps: readonly Step[];
  readonly head: number;
  readonly tail: number;
  readonly cutting: Cutting;
}
