import { INDEX_X } from './letters.ts';
import { emptyWords, type LineWords } from './lineWords.ts';
import type { Refusals } from './refusals.ts';
import type { Motion, Plane, StartState, ToolChange } from './types.ts';
import type { Understands } from './understands.ts';

export const MM_PER_INCH = 25.4;

/** Modes as bits of `known`: set by the program itself, not taken from how the machine happened to stand. */
export const KNOWN = {
  units: 1,
  distance: 2,
  plane: 4,
  feedMode: 8,
  feed: 16,
  offset: 32,
  compensation: 64,
  length: 128,
  returnLevel: 256,
  speed: 512,
} as const;

/** What is known of an axis: nothing yet, its place, or no more because a line that moved it was refused. */
export const AXIS_UNSET = 0;
export const AXIS_KNOWN = 1;
export const AXIS_LOST = 2;

/** No motion word has been in force yet. */
export const MOTION_NONE = -1;
/** The motion word in force was refused, so lines under it are passed over without a further refusal. */
export const MOTION_REFUSED = -2;

/** Numbers of a drill cycle that hold for the next line with the same cycle; NaN when none was given. Millimetres. */
export interface Sticky {
  bottom: number;
  retract: number;
  peck: number;
  /** Seconds. */
  dwell: number;
}

/** The arc being worked out: in-plane start, end and centre, mm; `sweep` in radians, counter-clockwise positive. */
export interface ArcWork {
  a0: number;
  b0: number;
  a1: number;
  b1: number;
  ca: number;
  cb: number;
  radius: number;
  sweep: number;
}

/** All that reading a program carries from line to line. Lengths in mm, feeds in mm/min or 1/min. */
export interface Reading {
  readonly words: LineWords;
  readonly refusals: Refusals;
  readonly understands: Understands;
  readonly sink: (motion: Motion) => void;
  /** Where the machine happens to stand when nothing is known. */
  readonly start: StartState;
  /** The one record handed to the sink. */
  readonly motion: Motion;
  motions: number;
  known: number;
  /** Millimetres per unit of the words. */
  scale: number;
  absolute: boolean;
  plane: Plane;
  inverseTime: boolean;
  feed: number;
  /** G98 in force. */
  returnToStart: boolean;
  exactPath: boolean;
  /** Ten times the G code of the motion word in force. */
  motionCode: number;
  speed: number;
  turning: boolean;
  /** How often the spindle was set going, or to another speed. */
  starts: number;
  selectedTool: number;
  /** Every tool number that a T word named. */
  readonly toolsNamed: Set<number>;
  readonly toolChanges: ToolChange[];
  tool: number;
  readonly position: Float64Array;
  readonly target: Float64Array;
  readonly axes: Uint8Array;
  readonly arc: ArcWork;
  readonly sticky: Sticky;
  /** Where the axis of the holes stood before the first of a row of cycles; NaN outside one. */
  cycleLevel: number;
  /** 81, 82, 83 while a cycle is expanded. */
  cycle: number;
  /** Letters that had a use on this line. */
  used: number;
  ended: boolean;
}

export function startReading(
  start: StartState,
  understands: Understands,
  refusals: Refusals,
  sink: (motion: Motion) => void,
): Reading {
  return {
    words: emptyWords(),
    refusals,
    understands,
    sink,
    start,
    motion: emptyMotion(),
    motions: 0,
    known: knownWithoutWords(understands),
    scale: start.units === 'mm' ? 1 : MM_PER_INCH,
    absolute: start.distance === 'absolute',
    plane: start.plane,
    inverseTime: start.feedMode === 'inverse time',
    feed: 0,
    returnToStart: true,
    exactPath: false,
    motionCode: MOTION_NONE,
    speed: 0,
    turning: false,
    starts: 0,
    selectedTool: -1,
    toolsNamed: new Set(),
    toolChanges: [],
    tool: -1,
    position: Float64Array.from(start.position),
    target: new Float64Array(3),
    axes: new Uint8Array(3),
    arc: { a0: 0, b0: 0, a1: 0, b1: 0, ca: 0, cb: 0, radius: 0, sweep: 0 },
    sticky: { bottom: Number.NaN, retract: Number.NaN, peck: Number.NaN, dwell: Number.NaN },
    cycleLevel: Number.NaN,
    cycle: 0,
    used: 0,
    ended: false,
  };
}

/** A control that has no words for tool length keeps none. */
function knownWithoutWords(understands: Understands): number {
  return understands.lengthOffset === 'none' ? KNOWN.length : 0;
}

/** Puts everything back to how it was before the first line, except for the tool in the spindle. */
export function readAfresh(reading: Reading): void {
  const { start } = reading;
  reading.known = knownWithoutWords(reading.understands);
  reading.scale = start.units === 'mm' ? 1 : MM_PER_INCH;
  reading.absolute = start.distance === 'absolute';
  reading.plane = start.plane;
  reading.inverseTime = start.feedMode === 'inverse time';
  reading.exactPath = false;
  reading.returnToStart = true;
  reading.motionCode = MOTION_NONE;
  reading.position.set(start.position);
  reading.axes.fill(AXIS_UNSET);
  reading.cycleLevel = Number.NaN;
  dropSticky(reading);
}

/** Seconds that 1 stands for after the P of a dwell. */
export function secondsPerDwell(reading: Reading): number {
  return reading.understands.dwellUnit === 'milliseconds' ? 0.001 : 1;
}

function emptyMotion(): Motion {
  return {
    line: 0,
    kind: 'rapid',
    plane: 'xy',
    fromX: 0,
    fromY: 0,
    fromZ: 0,
    toX: 0,
    toY: 0,
    toZ: 0,
    centreX: 0,
    centreY: 0,
    centreZ: 0,
    radius: 0,
    sweep: 0,
    feed: 0,
    spindle: 0,
    spindleOn: false,
    spindleStarts: 0,
    seconds: 0,
    tool: -1,
    exactPath: false,
    cycle: 0,
  };
}

/** In-plane axes in the order that turns counter-clockwise, then the axis square to them (0, 1, 2 for X, Y, Z). */
export interface PlaneAxes {
  readonly first: number;
  readonly second: number;
  readonly normal: number;
  /** Bits of the two axis words. */
  readonly axisBits: number;
}

const X_BIT = 1 << INDEX_X;
const PLANE_AXES: Readonly<Record<Plane, PlaneAxes>> = {
  xy: { first: 0, second: 1, normal: 2, axisBits: X_BIT | (X_BIT << 1) },
  xz: { first: 2, second: 0, normal: 1, axisBits: X_BIT | (X_BIT << 2) },
  yz: { first: 1, second: 2, normal: 0, axisBits: (X_BIT << 1) | (X_BIT << 2) },
};

export function planeAxes(plane: Plane): PlaneAxes {
  return PLANE_AXES[plane];
}

/** Forgets the sticky numbers of a drill cycle. */
export function dropSticky(reading: Reading): void {
  const { sticky } = reading;
  sticky.bottom = Number.NaN;
  sticky.retract = Number.NaN;
  sticky.peck = Number.NaN;
  sticky.dwell = Number.NaN;
}
