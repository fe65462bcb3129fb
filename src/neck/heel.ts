import type { HeelRemoval } from './types.ts';

export interface HeelShape {
  readonly depth: number;
  readonly widthAtTop: number;
  readonly widthAtCap: number;
}

/**
 * What to take off the heel's face so that the straightedge rises by `raise` at the saddle line and the aim moves by `aim`
 * toward the bass side, both `length` from the joint: one plane, c + s raise / length + y aim / length at depth s below the top
 * and y toward the treble side, with c such that the least corner loses nothing. Millimetres.
 */
export function heelRemoval(heel: HeelShape, length: number, raise: number, aim: number): HeelRemoval {
  const plane = (s: number, y: number): number => (s * raise + y * aim) / length;
  const corners = {
    topBass: plane(0, -heel.widthAtTop / 2),
    topTreble: plane(0, heel.widthAtTop / 2),
    capBass: plane(heel.depth, -heel.widthAtCap / 2),
    capTreble: plane(heel.depth, heel.widthAtCap / 2),
  };
  const least = Math.min(...Object.values(corners));
  return {
    topBass: corners.topBass - least,
    topTreble: corners.topTreble - least,
    capBass: corners.capBass - least,
    capTreble: corners.capTreble - least,
  };
}

/**
 * How far a point of the neck moves toward the bridge when the heel seats on the new face: the shift of the face at the top's
 * plane on the middle, and the turn about that line. `before` is the point from the joint, along the rim's plane and above it.
 */
export function pointMoves(
  before: readonly [along: number, up: number],
  shift: number,
  turn: number,
): number {
  const [along, up] = before;
  // Head back turns a point above the plane toward the head, and lowers the nut.
  return along * Math.cos(turn) - up * Math.sin(turn) + shift - along;
}
