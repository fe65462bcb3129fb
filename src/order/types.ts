/**
 * The whole build as steps: what must come before what, each with its numbers and where to stop.
 *
 * In: a profile's numbers and who makes what. Out: steps in an order that keeps every "after". Words and millimetres; no format.
 */

/** A figure of a step. */
export interface StepNumber {
  readonly what: string;
  /** Millimetres, or words where it is not a length. */
  readonly is: number | string;
  /** Plus or minus, millimetres, or only more; null where nothing is measured to it. */
  readonly workTo: number | { readonly more: number } | null;
}

/** What does the work of a step: a program, or hands. */
export type Doer =
  | {
      readonly kind: 'program';
      readonly file: string;
      readonly machine: string;
      readonly worker: 'router' | 'laser';
      readonly minutes: number | null;
      /** It was run in an earlier step, which made this too. */
      readonly done?: true;
    }
  | { readonly kind: 'hand'; readonly step: string; readonly why: string };

export interface BuildStep {
  readonly id: string;
  readonly title: string;
  /** Ids of steps that must be done before; one that this build does not have passes its own on. */
  readonly after: readonly string[];
  /** What to do, a sentence each. */
  readonly does: readonly string[];
  readonly numbers: readonly StepNumber[];
  readonly doers: readonly Doer[];
  /** Jigs and templates that help here, in words. */
  readonly jigs: readonly string[];
  /** What can hurt, here. */
  readonly cautions: readonly string[];
  /** Where a mistake could still be mended: what to look at before going on; null where there is nothing to wait for. */
  readonly hold: string | null;
}

/** A step as declared: some belong only to some builds. */
export type DeclaredStep = BuildStep & { readonly wanted: boolean };
