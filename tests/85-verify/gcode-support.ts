import { readProgram } from '../../src/verify/gcode/readProgram.ts';
import type { Motion, ReadResult, StartState } from '../../src/verify/gcode/types.ts';
import { UNDERSTANDS_EVERYTHING, type Understands } from '../../src/verify/gcode/understands.ts';

export const PLAIN_START: StartState = {
  units: 'mm',
  distance: 'absolute',
  plane: 'xy',
  feedMode: 'per minute',
  position: [0, 0, 0],
};

/** Every mode that a program must state, and a place for each axis. */
export const HEAD = 'G21 G17 G90 G94 G40 G49 G54 G61 G98\nG0 X0 Y0 Z0\n';
export const TAIL = '\nM2\n';

export interface Read extends ReadResult {
  readonly moves: readonly Motion[];
}

/** Reads text and keeps a copy of every motion. */
export function read(
  text: string,
  start: StartState = PLAIN_START,
  understands: Understands = UNDERSTANDS_EVERYTHING,
): Read {
  const moves: Motion[] = [];
  const result = readProgram(new TextEncoder().encode(text), start, understands, (motion) => {
    moves.push({ ...motion });
  });
  return { ...result, moves };
}

/** The moves of `body` under a full head; throws when anything is refused. */
export function movesOf(body: string): readonly Motion[] {
  const result = read(HEAD + body + TAIL);
  if (result.refusals.length > 0) throw new Error(JSON.stringify(result.refusals));
  return result.moves;
}

/** The rules under which `body` is refused, under a full head. */
export function rulesOf(body: string, understands?: Understands): string[] {
  return read(HEAD + body + TAIL, PLAIN_START, understands).refusals.map((refusal) => refusal.rule);
}

/** `rapid 1 2 3`: kind and end, rounded to a nanometre, for comparing lists of moves. */
export function ends(moves: readonly Motion[]): string[] {
  return moves.map((m) => [m.kind, ...[m.toX, m.toY, m.toZ].map((v) => Number(v.toFixed(6)))].join(' '));
}

/** Length of the path of a motion, mm. */
export function pathLength(m: Motion): number {
  const chord = Math.hypot(m.toX - m.fromX, m.toY - m.fromY, m.toZ - m.fromZ);
  if (m.kind !== 'arc') return chord;
  const along = { xy: m.toZ - m.fromZ, xz: m.toY - m.fromY, yz: m.toX - m.fromX }[m.plane];
  return Math.hypot(m.radius * m.sweep, along);
}
