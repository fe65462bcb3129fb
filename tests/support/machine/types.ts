/**
 * What a machine does with a program: a second reader, written for the tests alone, that shares nothing with the product's.
 *
 * It carries out what is written, as a forgiving control would, and remembers what it did: every step with its feed, speed and
 * modes. Where a control would stop with an error, or where two controls would do different things, it stops and says why.
 * Text, in: any. Out: steps in mm and mm/min. Words as in NISTIR 6556 (Kramer, Proctor, Messina, 2000).
 */

/** One straight, or one arc of at most half a turn (xy) or a quarter (upright). */
export interface Step {
  readonly rapid: boolean;
  readonly shape: 'line' | 'flat arc' | 'xz arc' | 'yz arc';
  readonly x0: number;
  readonly y0: number;
  readonly z0: number;
  readonly x1: number;
  readonly y1: number;
  readonly z1: number;
  /** Of an arc: centre in its plane (first axis in plan, then y or z), radius, start angle and turn, radians. */
  readonly ca: number;
  readonly cb: number;
  readonly radius: number;
  readonly a0: number;
  readonly turn: number;
  /** mm/min; 0 for a rapid. */
  readonly feed: number;
  /** S word; 0 when off, negative when it turns backward. */
  readonly speed: number;
  readonly exact: boolean;
  /** Seconds stood still since the spindle or beam was last switched on or changed. */
  readonly stood: number;
  /** Work offset 54 to 59; 0 while the cutter's radius is compensated. */
  readonly offset: number;
  /** Tool whose length is compensated; 0 for none, -1 for one that was left on by another program. */
  readonly lengthOf: number;
  /** Line of the text, from 1. */
  readonly line: number;
}

/** A pause with the spindle or beam on. */
export interface Pause {
  readonly seconds: number;
  readonly speed: number;
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

export interface Run {
  readonly steps: readonly Step[];
  readonly pauses: readonly Pause[];
  /** Why the machine stopped before the end, or did what nobody can foretell; null when it ran through. */
  readonly stopped: string | null;
  readonly ended: boolean;
  readonly speed: number;
  readonly at: readonly [number, number, number];
  readonly toolsNamed: readonly number[];
}

/** How the machine was left by whoever used it before. */
export interface Left {
  readonly scale: number;
  readonly absolute: boolean;
  readonly plane: 17 | 18 | 19;
  readonly inverse: boolean;
  readonly offset: number;
  readonly compensated: boolean;
  /** Tool whose length is compensated; 0 for none, -1 for one that nobody knows. */
  readonly lengthOf: number;
  /** Seconds of one unit of P. */
  readonly dwell: number;
  readonly exact: boolean;
  readonly at: readonly [number, number, number];
}

/** As most controls wake up. */
export const TIDY: Omit<Left, 'at' | 'dwell'> = {
  scale: 1,
  absolute: true,
  plane: 17,
  inverse: false,
  offset: 54,
  compensated: false,
  lengthOf: 0,
  exact: false,
};

/** As the user before may have left it. */
export const UNTIDY: Omit<Left, 'at' | 'dwell'> = {
  scale: 25.4,
  absolute: false,
  plane: 18,
  inverse: true,
  offset: 57,
  compensated: true,
  lengthOf: -1,
  exact: false,
};
