import { type Piece, xAt, yAt, zAt } from './piece.ts';
import type { Place } from './proof.ts';
import type { Sweep } from './sweep.ts';
import { lineOf } from './tape.ts';

/** Line of the program that a piece comes from. */
export function pieceLine(sweep: Sweep, piece: Piece): number {
  return lineOf(sweep.tape, piece.motion);
}

/** Where the tip is at `t`. */
export function piecePlace(piece: Piece, t: number): Place {
  return [xAt(piece, t), yAt(piece, t), zAt(piece, t)];
}
