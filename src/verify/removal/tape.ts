/**
 * All motions of a program in one block of numbers, and the same program read from other starts beside it.
 *
 * Coordinates that the program has not set yet are NaN: nobody knows where the machine stood.
 */
import type { Motion, Plane, ReadResult, StartState } from '../gcode/types.ts';
import type { Understands } from '../gcode/understands.ts';
import { at } from './at.ts';

const KINDS = ['rapid', 'feed', 'arc', 'dwell'] as const;
const PLANES: readonly Plane[] = ['xy', 'xz', 'yz'];
const STRIDE = 21;

/** Motions in order. */
export interface Tape {
  data: Float64Array;
  count: number;
  result: ReadResult;
}

/** Reads a program from a start state and hands each motion to a sink. */
export type Reader = (
  bytes: Uint8Array,
  start: StartState,
  understands: Understands,
  sink: (motion: Motion) => void,
) => ReadResult;

/** Starts that a program must not depend on: far positions, and every mode a machine may have been left in. */
export const STARTS: readonly StartState[] = [
  {
    units: 'mm',
    distance: 'absolute',
    plane: 'xy',
    feedMode: 'per minute',
    position: [-4321.0625, 3210.4375, -99.5625],
  },
  {
    units: 'in',
    distance: 'incremental',
    plane: 'yz',
    feedMode: 'inverse time',
    position: [987.65625, -765.4375, 321.03125],
  },
  {
    units: 'in',
    distance: 'absolute',
    plane: 'xz',
    feedMode: 'per minute',
    position: [-55.78125, -66.890625, 777.90625],
  },
  {
    units: 'mm',
    distance: 'incremental',
    plane: 'xz',
    feedMode: 'inverse time',
    position: [1.0078125, 2.015625, -3.0234375],
  },
];

/** Reads a program once onto a tape. */
export function recordTape(
  read: Reader,
  bytes: Uint8Array,
  start: StartState,
  understands: Understands,
): Tape {
  // A motion takes some twenty bytes of text: most programs fit at once.
  let data = new Float64Array(STRIDE * (16 + Math.ceil(bytes.length / 20)));
  let count = 0;
  const known = [false, false, false];
  let first: readonly number[] | null = null;
  let last: readonly number[] | null = null;
  const afresh = understands.afreshAfterTool === true;
  const result = read(bytes, start, understands, (m) => {
    if ((count + 1) * STRIDE > data.length) data = grown(data);
    // After a change of tools the machine stands nobody knows where, and all begins anew.
    if (afresh && last !== null && (m.fromX !== last[0] || m.fromY !== last[1] || m.fromZ !== last[2])) {
      first = null;
      known.fill(false);
    }
    first ??= [m.fromX, m.fromY, m.fromZ];
    last = [m.toX, m.toY, m.toZ];
    write(data, count * STRIDE, m);
    blankUnknown(data, count * STRIDE, first, known);
    count += 1;
  });
  return { data, count, result };
}

function grown(data: Float64Array): Float64Array<ArrayBuffer> {
  const next = new Float64Array(data.length * 2);
  next.set(data);
  return next;
}

function write(data: Float64Array, base: number, m: Motion): void {
  data[base] = m.fromX;
  data[base + 1] = m.fromY;
  data[base + 2] = m.fromZ;
  data[base + 3] = m.toX;
  data[base + 4] = m.toY;
  data[base + 5] = m.toZ;
  data[base + 6] = m.line;
  data[base + 7] = KINDS.indexOf(m.kind);
  data[base + 8] = PLANES.indexOf(m.plane);
  data[base + 9] = m.centreX;
  data[base + 10] = m.centreY;
  data[base + 11] = m.centreZ;
  data[base + 12] = m.radius;
  data[base + 13] = m.sweep;
  data[base + 14] = m.feed;
  data[base + 15] = m.spindleOn ? m.spindle : 0;
  data[base + 16] = m.seconds;
  data[base + 17] = m.tool;
  data[base + 18] = m.exactPath ? 1 : 0;
  data[base + 19] = m.cycle;
  data[base + 20] = m.spindleStarts;
}

/** An axis is unknown until it first leaves the place where the machine happened to stand. */
function blankUnknown(data: Float64Array, base: number, first: readonly number[], known: boolean[]): void {
  for (let axis = 0; axis < 3; axis += 1) {
    if (!known[axis]) data[base + axis] = Number.NaN;
    if (data[base + 3 + axis] !== first[axis]) known[axis] = true;
    if (!known[axis]) data[base + 3 + axis] = Number.NaN;
  }
}

/** One number of a motion: 0 to 2 from, 3 to 5 to. */
export function fromAxis(tape: Tape, motion: number, axis: number): number {
  return at(tape.data, motion * STRIDE + axis);
}

export function toAxis(tape: Tape, motion: number, axis: number): number {
  return at(tape.data, motion * STRIDE + 3 + axis);
}

export function lineOf(tape: Tape, motion: number): number {
  return at(tape.data, motion * STRIDE + 6);
}

export function kindOf(tape: Tape, motion: number): Motion['kind'] {
  return at(KINDS, at(tape.data, motion * STRIDE + 7));
}

export function planeOf(tape: Tape, motion: number): Plane {
  return at(PLANES, at(tape.data, motion * STRIDE + 8));
}

export function centreAxis(tape: Tape, motion: number, axis: number): number {
  return at(tape.data, motion * STRIDE + 9 + axis);
}

export function radiusOf(tape: Tape, motion: number): number {
  return at(tape.data, motion * STRIDE + 12);
}

export function sweepOf(tape: Tape, motion: number): number {
  return at(tape.data, motion * STRIDE + 13);
}

export function feedOf(tape: Tape, motion: number): number {
  return at(tape.data, motion * STRIDE + 14);
}

/** S in force while the spindle or beam is on, else 0. */
export function speedOf(tape: Tape, motion: number): number {
  return at(tape.data, motion * STRIDE + 15);
}

export function secondsOf(tape: Tape, motion: number): number {
  return at(tape.data, motion * STRIDE + 16);
}

export function toolOf(tape: Tape, motion: number): number {
  return at(tape.data, motion * STRIDE + 17);
}

export function isExact(tape: Tape, motion: number): boolean {
  return at(tape.data, motion * STRIDE + 18) === 1;
}

/** How often the spindle or beam was set going, or to another speed, before a motion. */
export function startsOf(tape: Tape, motion: number): number {
  return at(tape.data, motion * STRIDE + 20);
}

/** Whether an axis of a motion's end is one that the program has set. */
export function isKnown(tape: Tape, motion: number): boolean {
  for (let axis = 0; axis < 6; axis += 1) {
    if (Number.isNaN(at(tape.data, motion * STRIDE + axis))) return false;
  }
  return true;
}

/** First motion in which two readings of one program differ, or -1. */
export function firstDifference(a: Tape, b: Tape): number {
  const count = Math.min(a.count, b.count);
  for (let k = 0; k < count * STRIDE; k += 1) {
    const x = at(a.data, k);
    const y = at(b.data, k);
    if (x !== y && !(Number.isNaN(x) && Number.isNaN(y)) && !(Math.abs(x - y) <= 1e-9))
      return Math.floor(k / STRIDE);
  }
  return a.count === b.count ? -1 : count;
}

/** The motions from one to before another as a tape of their own, with a result of their own. */
export function partOfTape(tape: Tape, from: number, to: number, result: ReadResult): Tape {
  return { data: tape.data.subarray(from * STRIDE, to * STRIDE), count: to - from, result };
}
