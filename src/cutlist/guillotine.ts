/**
 * A piece of stock divided by straight cuts from edge to edge, one rectangle at a time.
 *
 * Every piece, and the room for all of them, is taken as one kerf longer and wider than it is: then pieces that touch
 * have exactly one kerf between them, and the last kerf may fall off the edge. A rectangle that a piece goes into is
 * always divided by two cuts right through it, so whatever comes out can be sawn in the order in which it was placed.
 */
import { SAME_LENGTH } from './match.ts';

/** A free rectangle, one kerf longer and wider than the wood in it. */
export interface Space {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
}

/** One piece to place, as it is. */
export interface Unit {
  /** Number of the piece in the caller's list. */
  readonly piece: number;
  /** Which one of its count, from 1. */
  readonly number: number;
  readonly length: number;
  readonly width: number;
  readonly mayTurn: boolean;
}

export interface Placement {
  readonly unit: Unit;
  readonly x: number;
  readonly y: number;
  readonly turned: boolean;
  /** The rectangle it was sawn from, and which cut was made first. */
  readonly space: Space;
  readonly first: 'across' | 'along';
}

/** How much better one rectangle suits a piece than another; less is better. */
export type RankRule = (leftLength: number, leftWidth: number, space: Space) => number;

/** Which cut is made first when a piece of `length` by `width` leaves the given strips beside it. */
export type SplitRule = (
  leftLength: number,
  leftWidth: number,
  length: number,
  width: number,
) => 'across' | 'along';

export interface Rules {
  readonly rank: RankRule;
  readonly split: SplitRule;
}

/** Where a piece would go. */
export interface Choice {
  readonly index: number;
  readonly turned: boolean;
  readonly score: number;
}

/** The best rectangle for a piece, or null when it fits in none. Ties go to the earlier one, unturned. */
export function chooseSpace(
  spaces: readonly Space[],
  unit: Unit,
  kerf: number,
  rank: RankRule,
): Choice | null {
  let best: Choice | null = null;
  for (let index = 0; index < spaces.length; index += 1) {
    const space = spaces[index] as Space;
    for (const turned of unit.mayTurn ? [false, true] : [false]) {
      const left = leftOver(space, unit, kerf, turned);
      if (left.length < -SAME_LENGTH || left.width < -SAME_LENGTH) continue;
      const score = rank(left.length, left.width, space);
      if (best === null || score < best.score - SAME_LENGTH) best = { index, turned, score };
    }
  }
  return best;
}

/** Puts a piece into a rectangle and gives back the placement and the rectangles left of it. */
export function divide(
  space: Space,
  unit: Unit,
  kerf: number,
  turned: boolean,
  split: SplitRule,
): { readonly placement: Placement; readonly rest: readonly Space[] } {
  const left = leftOver(space, unit, kerf, turned);
  const length = space.length - left.length;
  const width = space.width - left.width;
  const first = split(left.length, left.width, length, width);
  const beside: Space = {
    x: space.x + length,
    y: space.y,
    length: left.length,
    width: first === 'across' ? space.width : width,
  };
  const above: Space = {
    x: space.x,
    y: space.y + width,
    length: first === 'across' ? length : space.length,
    width: left.width,
  };
  const rest = [beside, above].filter((s) => s.length > kerf + SAME_LENGTH && s.width > kerf + SAME_LENGTH);
  return { placement: { unit, x: space.x, y: space.y, turned, space, first }, rest };
}

function leftOver(
  space: Space,
  unit: Unit,
  kerf: number,
  turned: boolean,
): { readonly length: number; readonly width: number } {
  return {
    length: space.length - (turned ? unit.width : unit.length) - kerf,
    width: space.width - (turned ? unit.length : unit.width) - kerf,
  };
}
