/**
 * A part and the pocket it goes into, as both were really cut.
 *
 * In: written programs, their intents, and which cuts belong together. Out: checks. Frames: `toPocket` takes a point of the part's
 * own frame to that of the pocket's part. Millimetres.
 */
import type { ProgramIntent } from '../../intent/types.ts';

/** A program as it was written, and what it was meant to do. */
export interface WrittenProgram {
  readonly bytes: Uint8Array;
  readonly intent: ProgramIntent;
}

/** One part, and the pocket that it is made for. */
export interface InlayPair {
  /** Features: the pocket, the part's outline, and the openings within the part. */
  readonly pocket: string;
  readonly part: string;
  readonly openings: readonly string[];
  /** Wanted between the two, all round. */
  readonly gap: number;
  /** Turned about `from` by quarters, counter-clockwise, then `from` laid on `to`. */
  readonly toPocket: {
    readonly from: readonly [number, number];
    readonly quarters: number;
    readonly to: readonly [number, number];
  };
}

/** All pairs of a job. */
export interface InlayPairs {
  readonly format: 1;
  readonly units: 'mm';
  /** The gap may differ from the wanted one by this, anywhere. */
  readonly tolerance: number;
  readonly pairs: readonly InlayPair[];
}
