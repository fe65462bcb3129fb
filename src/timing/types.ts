/**
 * How long a program takes.
 *
 * In: motions as an independent reader finds them in the written text, and what the machine can do. Out: minutes.
 * Guaranteed: never less than every length over its feed; the same motions give the same minutes. Millimetres and seconds
 * inside; mm/min and minutes at the edges, as in programs and shop files.
 */

/** What decides a machine's time, as the shop file states it. */
export interface MachineMotion {
  /** Fastest feed, mm/min. */
  readonly maxFeed: { readonly xy: number; readonly z: number };
  /** Speed of rapids, mm/min. */
  readonly rapid: { readonly xy: number; readonly z: number };
  /** mm/s^2. */
  readonly acceleration: { readonly xy: number; readonly z: number };
  /** Largest sudden change of velocity where two moves meet, mm/min. */
  readonly junctionSpeed: number;
  /** Whether all axes of a rapid arrive together on a straight line. */
  readonly straightRapids: boolean;
}

/** Where the time of a program goes, minutes. */
export interface ProgramTime {
  readonly minutes: number;
  readonly cutting: number;
  readonly travel: number;
  /** Dwells: spinning up, mostly. */
  readonly waiting: number;
  /** Share of the cutting way run at the written feed; the rest is speeding up, slowing down and tight curves. */
  readonly atFeed: number;
}

export type Direction = readonly [x: number, y: number, z: number];

/** A stretch of path that one set of limits holds for. */
export interface Stretch {
  readonly kind: 'cutting' | 'travel';
  /** mm. */
  readonly length: number;
  /** The written feed or the rapid's speed, mm/s. */
  readonly wanted: number;
  /** Fastest it can be run, mm/s: at most `wanted`. */
  readonly speed: number;
  /** Along the path, mm/s^2. */
  readonly acceleration: number;
  /** Unit directions at its start and end. */
  readonly from: Direction;
  readonly to: Direction;
  readonly straight: boolean;
}
