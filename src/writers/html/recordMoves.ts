import { packInteger } from './packing.ts';
import type { PackedMoves } from './types.ts';

/** One motion as a reader of the written text reports it. `sweep` is counter-clockwise positive as G3 in its plane. */
export interface ReadMotion {
  readonly line: number;
  readonly kind: 'rapid' | 'feed' | 'arc' | 'dwell';
  readonly plane: 'xy' | 'xz' | 'yz';
  readonly fromX: number;
  readonly fromY: number;
  readonly fromZ: number;
  readonly toX: number;
  readonly toY: number;
  readonly toZ: number;
  readonly centreX: number;
  readonly centreY: number;
  readonly centreZ: number;
  readonly radius: number;
  readonly sweep: number;
  readonly feed: number;
  /** S word in force, 0 when spindle or beam is off. */
  readonly spindle: number;
}

export interface MoveRecorder {
  /** Takes one motion; dwells are passed over. The motion may be reused by the caller afterwards. */
  add(motion: ReadMotion): void;
  finish(): PackedMoves;
}

type Place = readonly [x: number, y: number, z: number];

/** A chord drawn for an arc leaves it by no more than this, millimetres: a fifth of what a section must be true to. */
const SAGITTA = 0.002;
const KINDS = { rapid: 0, feed: 1, arc: 2 } as const;

/**
 * Packs motions for the preview as they are read, so that none has to be kept: places to a micrometre, arcs as chords,
 * each move as differences from the one before.
 */
export function recordMoves(): MoveRecorder {
  const pieces: string[] = [];
  let start: Place | null = null;
  let last: readonly number[] = [0, 0, 0, 0, 0, 0];
  let count = 0;

  function push(kind: 0 | 1 | 2, motion: ReadMotion, place: Place): void {
    const now = [motion.line, ...place.map(micrometres), Math.round(motion.feed), Math.round(motion.spindle)];
    pieces.push(packInteger(kind), ...now.map((value, i) => packInteger(value - (last[i] ?? 0))));
    last = now;
    count += 1;
  }

  return {
    add(motion) {
      if (motion.kind === 'dwell') return;
      if (start === null) {
        start = [micrometres(motion.fromX), micrometres(motion.fromY), micrometres(motion.fromZ)];
        last = [0, ...start, 0, 0];
      }
      const kind = KINDS[motion.kind];
      for (const place of placesOf(motion)) push(kind, motion, place);
    },
    finish: () => ({ count, start: start ?? [0, 0, 0], packed: pieces.join('') }),
  };
}

function micrometres(mm: number): number {
  return Math.round(mm * 1000);
}

function placesOf(motion: ReadMotion): Place[] {
  const end: Place = [motion.toX, motion.toY, motion.toZ];
  if (motion.kind !== 'arc' || !(motion.radius > SAGITTA)) return [end];
  const step = 2 * Math.acos(1 - SAGITTA / motion.radius);
  const count = Math.max(1, Math.ceil(Math.abs(motion.sweep) / step));
  const between = Array.from({ length: count - 1 }, (_, i) => placeOnArc(motion, (i + 1) / count));
  return [...between, end];
}

/** Seen from the positive end of the axis square to a plane, G17 turns x to y, G18 z to x, G19 y to z. */
function placeOnArc(m: ReadMotion, t: number): Place {
  const along = (from: number, to: number): number => from + (to - from) * t;
  switch (m.plane) {
    case 'xy': {
      const [x, y] = turn(m, m.fromX - m.centreX, m.fromY - m.centreY, t);
      return [m.centreX + x, m.centreY + y, along(m.fromZ, m.toZ)];
    }
    case 'xz': {
      const [z, x] = turn(m, m.fromZ - m.centreZ, m.fromX - m.centreX, t);
      return [m.centreX + x, along(m.fromY, m.toY), m.centreZ + z];
    }
    case 'yz': {
      const [y, z] = turn(m, m.fromY - m.centreY, m.fromZ - m.centreZ, t);
      return [along(m.fromX, m.toX), m.centreY + y, m.centreZ + z];
    }
  }
}

function turn(m: ReadMotion, first: number, second: number, t: number): [number, number] {
  const angle = Math.atan2(second, first) + m.sweep * t;
  return [m.radius * Math.cos(angle), m.radius * Math.sin(angle)];
}
