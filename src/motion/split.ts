import { pointOn } from '../geometry/segment.ts';
import type { Segment } from '../geometry/types.ts';

/** A piece of a side, and the share of the side's length at which it ends. */
export interface Piece {
  readonly side: Segment;
  readonly end: number;
}

/** The side in pieces, cut at shares (0 to 1, rising) of its length. */
export function splitSegment(side: Segment, shares: readonly number[]): Piece[] {
  const ends = [...shares, 1];
  return ends.map((end, i) => ({ side: part(side, i === 0 ? 0 : (shares[i - 1] ?? 0), end), end }));
}

function part(side: Segment, from: number, to: number): Segment {
  const ends = { from: pointOn(side, from), to: pointOn(side, to) };
  return side.kind === 'line'
    ? { kind: 'line', ...ends }
    : { ...side, ...ends, sweep: side.sweep * (to - from) };
}
