/**
 * What an independent reader finds in a written program.
 *
 * In: program text (bytes). Out: a stream of motions in millimetres in the frame of the active work offset, and
 * refusals. Units, planes, distance modes, cycles and both arc formats are resolved; nothing is assumed.
 */

export type Plane = 'xy' | 'xz' | 'yz';

export interface Refusal {
  /** Line in the file, from 1; 0 when the whole file is meant. */
  readonly line: number;
  /** Kebab-case name of the rule. */
  readonly rule: string;
  readonly found: string;
  readonly allowed: string;
}

/** The modes a program starts from when it sets none itself. */
export interface StartState {
  readonly units: 'mm' | 'in';
  readonly distance: 'absolute' | 'incremental';
  readonly plane: Plane;
  readonly feedMode: 'per minute' | 'inverse time';
  readonly position: readonly [number, number, number];
}

/**
 * One motion. The reader reuses a single mutable record for speed; a sink that keeps motions must copy the fields.
 * Lines: `sweep` = 0. Arcs: `sweep` is the signed angle in `plane`, counter-clockwise positive seen from the positive
 * end of the axis square to it (as G3), with full turns; the third axis moves linearly with it.
 */
export interface Motion {
  line: number;
  kind: 'rapid' | 'feed' | 'arc' | 'dwell';
  plane: Plane;
  fromX: number;
  fromY: number;
  fromZ: number;
  toX: number;
  toY: number;
  toZ: number;
  /** Absolute centre in the plane; the axis square to it is 0. */
  centreX: number;
  centreY: number;
  centreZ: number;
  radius: number;
  sweep: number;
  /** mm/min (inverse time already resolved to mm/min). 0 for a rapid. */
  feed: number;
  /** S word in force; 0 when the spindle or beam is off. */
  spindle: number;
  spindleOn: boolean;
  /** How often the program has set the spindle or beam going, or to another S word while on, so far. */
  spindleStarts: number;
  /** Seconds, dwell only. */
  seconds: number;
  /** Tool in the spindle, or -1 when the program named none. */
  tool: number;
  /** G61 in force. */
  exactPath: boolean;
  /** Part of an expanded drill cycle (81, 82, 83), else 0. */
  cycle: number;
}

/** One M6. */
export interface ToolChange {
  readonly line: number;
  /** The tool put in. */
  readonly tool: number;
  /** The spindle was still turning when the line was reached. */
  readonly spindleOn: boolean;
}

export interface ReadResult {
  readonly refusals: readonly Refusal[];
  readonly lines: number;
  readonly motions: number;
  /** Position and state after the last line. */
  readonly end: {
    readonly x: number;
    readonly y: number;
    readonly z: number;
    readonly spindleOn: boolean;
    readonly ended: boolean;
  };
  /** Every G and M word met, as `G17`, `M3`, sorted, each once. */
  readonly words: readonly string[];
  /** Every tool number that a T word named, whether or not M6 followed; each once, in order. */
  readonly tools: readonly number[];
  /** Every M6, in order. */
  readonly toolChanges: readonly ToolChange[];
}
