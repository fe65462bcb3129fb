import type { Move } from '../../motion/types.ts';
import type { Controller } from '../../profile/types.ts';
import { commentText, coordinate, rounded } from './numbers.ts';

export interface ProgramHead {
  /** Lines for a person: what this is, tool, work zero, stock. */
  readonly remarks: readonly string[];
  readonly controller: Controller;
}

type Axis = 'x' | 'y' | 'z';
type Arc = Move & { kind: 'arc' };

/** What the control already knows; a word is written only when it changes. */
interface State {
  readonly position: { x: number | null; y: number | null; z: number | null };
  motion: string | null;
  feed: number | null;
  plane: string;
}

const PLANE_WORD = { xy: 'G17', xz: 'G18', yz: 'G19' } as const;

/** The back-off of a G83 above the last bottom, millimetres (NISTIR 6556 port: 0.010 inch). */
const PECK_BACK_OFF = 0.254;

/**
 * Plain program text for the moves: RS-274 words the control is known to understand, millimetres, absolute.
 * Arc centres are given from the rounded start, so that what is read is what was meant.
 */
export function writeProgram(moves: readonly Move[], head: ProgramHead): string {
  const { controller } = head;
  const state: State = { position: { x: null, y: null, z: null }, motion: null, feed: null, plane: 'G17' };
  const remarks = head.remarks.flatMap((remark) => comment(remark, controller));
  const opening = [...remarks, 'G21 G17 G90 G94', `G40 G49 G54${controller.exactPath ? ' G61' : ''}`, 'G80'];
  const body = moves.flatMap((move) => lines(move, state, controller));
  const all = [...opening, ...body, ...toPlane('G17', state), controller.programEnd];
  const numbered = controller.lineNumbers ? all.map((line, i) => `N${((i + 1) * 5) % 100000} ${line}`) : all;
  return `${numbered.join('\n')}\n`;
}

function comment(text: string, controller: Controller): string[] {
  return controller.comments ? [`(${commentText(text)})`] : [];
}

function lines(move: Move, state: State, controller: Controller): string[] {
  switch (move.kind) {
    case 'rapid':
      return straight('G0', move, null, state, controller);
    case 'feed':
      return straight('G1', move, move.feed, state, controller);
    case 'arc':
      return arc(move, state, controller);
    case 'drill':
      return controller.drillCycles
        ? drillCycle(move, state, controller)
        : drillLong(move, state, controller);
    case 'spindle':
      return [`M3 S${Math.round(move.rpm)}`, `G4 P${coordinate(move.dwell, 1)}`];
    case 'spindle off':
    case 'beam off':
      return ['M5'];
    case 'beam':
      return [`M3 S${Math.round(move.s)}`];
    case 'comment':
      // A new feature starts with its motion word in full, so that a person can read the program from there.
      state.motion = null;
      return comment(move.text, controller);
  }
}

/** Words of the axes whose written value changes; the state takes them over. */
function axisWords(target: Partial<Record<Axis, number>>, state: State, controller: Controller): string[] {
  const words: string[] = [];
  for (const axis of ['x', 'y', 'z'] as const) {
    const value = target[axis];
    if (value === undefined) continue;
    const written = rounded(value, controller.decimals);
    if (written === state.position[axis]) continue;
    state.position[axis] = written;
    words.push(`${axis.toUpperCase()}${coordinate(value, controller.decimals)}`);
  }
  return words;
}

function straight(
  motion: 'G0' | 'G1',
  target: Partial<Record<Axis, number>>,
  feed: number | null,
  state: State,
  controller: Controller,
): string[] {
  const axes = axisWords(target, state, controller);
  if (axes.length === 0) return [];
  return [[...motionWord(motion, state), ...axes, ...feedWord(feed, state)].join(' ')];
}

function motionWord(motion: string, state: State): string[] {
  if (state.motion === motion) return [];
  state.motion = motion;
  return [motion];
}

function feedWord(feed: number | null, state: State): string[] {
  if (feed === null) return [];
  const written = Math.max(1, Math.floor(feed));
  if (written === state.feed) return [];
  state.feed = written;
  return [`F${written}`];
}

function toPlane(plane: string, state: State): string[] {
  if (state.plane === plane) return [];
  state.plane = plane;
  return [plane];
}

const CENTRE_WORDS = {
  xy: [
    ['x', 'I'],
    ['y', 'J'],
  ],
  xz: [
    ['x', 'I'],
    ['z', 'K'],
  ],
  yz: [
    ['y', 'J'],
    ['z', 'K'],
  ],
} as const;

/** An arc whose ends round to one point would be read as a full circle, so it becomes the straight move it is. */
function arc(move: Arc, state: State, controller: Controller): string[] {
  const axes = CENTRE_WORDS[move.plane];
  const { decimals } = controller;
  const start = axes.map(([axis]) => knownPosition(state, axis));
  const end = axes.map(([axis]) => rounded(inPlane(move.to, axis), decimals));
  if (end.every((value, i) => value === start[i]))
    return straight('G1', move.to, move.feed, state, controller);
  const wanted = axes.map(([axis], i) => inPlane(move.centre, axis) - (start[i] ?? 0));
  const offsets = centreOffsets(wanted, start, end, decimals);
  const centre = axes.map(([, word], i) => `${word}${coordinate(offsets[i] ?? 0, decimals)}`);
  const planeLine = toPlane(PLANE_WORD[move.plane], state);
  const motion = motionWord(move.clockwise ? 'G2' : 'G3', state);
  const target = axisWords(move.to, state, controller);
  // A reader wants at least one word of the plane's axes, even when only the third axis changed.
  const [first] = axes[0];
  const named = target.some((word) => axes.some(([axis]) => word.startsWith(axis.toUpperCase())));
  const ends = named
    ? target
    : [...target, `${first.toUpperCase()}${coordinate(inPlane(move.to, first), decimals)}`];
  return [...planeLine, [...motion, ...ends, ...centre, ...feedWord(move.feed, state)].join(' ')];
}

/**
 * The centre's offsets from the written start, rounded so that the written start and end lie at the same distance from
 * it as nearly as can be: of the nine roundings next to the wanted centre, the one with the least difference of radii
 * (NISTIR 6556, 3.5.3.2 allows 0.002 mm).
 */
function centreOffsets(
  wanted: readonly number[],
  start: readonly number[],
  end: readonly number[],
  decimals: number,
): number[] {
  const unit = 10 ** -decimals;
  const [a = 0, b = 0] = wanted.map((value) => rounded(value, decimals));
  const chord = [(end[0] ?? 0) - (start[0] ?? 0), (end[1] ?? 0) - (start[1] ?? 0)] as const;
  let best = { mismatch: Number.POSITIVE_INFINITY, offsets: [a, b] };
  for (const da of [0, -unit, unit]) {
    for (const db of [0, -unit, unit]) {
      const offsets = [rounded(a + da, decimals), rounded(b + db, decimals)] as const;
      const mismatch = Math.abs(
        Math.hypot(...offsets) - Math.hypot(chord[0] - offsets[0], chord[1] - offsets[1]),
      );
      if (mismatch < best.mismatch - unit / 10) best = { mismatch, offsets: [...offsets] };
    }
  }
  return best.offsets;
}

function inPlane(point: Partial<Record<Axis, number>>, axis: Axis): number {
  const value = point[axis];
  if (value === undefined) throw new Error(`an arc without ${axis}`);
  return value;
}

function knownPosition(state: State, axis: Axis): number {
  const value = state.position[axis];
  if (value === null) throw new Error(`an arc before ${axis} is known`);
  return value;
}

function drillCycle(move: Move & { kind: 'drill' }, state: State, controller: Controller): string[] {
  const approach = [
    ...straight('G0', { x: move.x, y: move.y }, null, state, controller),
    ...straight('G0', { z: move.retract }, null, state, controller),
  ];
  const number = (value: number): string => coordinate(value, controller.decimals);
  const peck = move.peck === null ? [] : [`Q${number(move.peck)}`];
  const words = [
    'G98',
    move.peck === null ? 'G81' : 'G83',
    `X${number(move.x)}`,
    `Y${number(move.y)}`,
    `Z${number(move.z)}`,
    `R${number(move.retract)}`,
    ...peck,
    ...feedWord(move.feed, state),
  ];
  state.motion = null;
  return [...approach, words.join(' '), 'G80'];
}

/** The same hole in plain moves: down a peck, out, back to just above the last bottom. */
function drillLong(move: Move & { kind: 'drill' }, state: State, controller: Controller): string[] {
  const out: string[] = [
    ...straight('G0', { x: move.x, y: move.y }, null, state, controller),
    ...straight('G0', { z: move.retract }, null, state, controller),
  ];
  const peck = move.peck ?? move.retract - move.z;
  for (let from = move.retract; from > move.z + 1e-9; from -= peck) {
    const to = Math.max(move.z, from - peck);
    if (from < move.retract) {
      out.push(
        ...straight('G0', { z: Math.min(from + PECK_BACK_OFF, move.retract) }, null, state, controller),
      );
    }
    out.push(...straight('G1', { z: to }, move.feed, state, controller));
    out.push(...straight('G0', { z: move.retract }, null, state, controller));
  }
  return out;
}
