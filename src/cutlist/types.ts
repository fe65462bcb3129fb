/**
 * Which piece comes out of which stock, and in what order the saw goes.
 *
 * In: pieces and a shop. Out: one layout for each piece of stock that is sawn, and the pieces that fit on none.
 * Guaranteed: every layout can be cut by straight saw cuts from edge to edge; `cuts` lists them in a workable order.
 * Frame: a piece of stock lies with its length along x and its lower left corner, untrimmed, at (0, 0). Millimetres.
 */

import type { MaterialClass } from '../profile/types.ts';

export type StockKind = 'board' | 'sheet' | 'stick';

/** One piece where it lies on its stock. `length` and `width` are as it lies: exchanged when it is turned. */
export interface PlacedPiece {
  /** Piece id. */
  readonly piece: string;
  readonly title: string;
  /** Which one of its count, from 1. */
  readonly number: number;
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
  /** Of the piece; a board may be thicker and is then planed. */
  readonly thickness: number;
  readonly turned: boolean;
}

/** A rectangle worth keeping. */
export interface Offcut {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
}

/**
 * One straight saw cut through a whole rectangle. `across`: the blade runs along y and stands at x = `at`;
 * `along`: it runs along x and stands at y = `at`. The kerf lies past `at`.
 */
export interface SawCut {
  readonly direction: 'across' | 'along';
  readonly at: number;
  readonly from: number;
  readonly to: number;
}

/** One piece of stock and what is sawn from it. */
export interface StockLayout {
  /** Stock item id. */
  readonly stock: string;
  /** Which one of its count, from 1. */
  readonly number: number;
  readonly kind: StockKind;
  readonly material: string;
  readonly materialClass: MaterialClass;
  readonly length: number;
  readonly width: number;
  readonly thickness: number;
  readonly price: number | null;
  readonly placed: readonly PlacedPiece[];
  /** In order, once the edges are trimmed. */
  readonly cuts: readonly SawCut[];
  readonly offcuts: readonly Offcut[];
}

/** A piece that fits on no stock left in the shop. */
export interface UnplacedPiece {
  readonly piece: string;
  readonly title: string;
  readonly number: number;
  /** What to buy, in words, trim included. */
  readonly buy: string;
}

export interface KindTotals {
  readonly kind: StockKind;
  readonly stockUsed: number;
  readonly pieces: number;
  /** Share of the used stock that becomes pieces: by area, of sticks by length. */
  readonly yield: number;
  readonly cost: number;
  /** Board feet of the boards used, by their true size; null for other kinds. 1 board foot = 144 cubic inches. */
  readonly boardFeet: number | null;
}

export interface CutPlan {
  readonly sawKerf: number;
  readonly trim: number;
  readonly currency: string;
  readonly layouts: readonly StockLayout[];
  readonly unplaced: readonly UnplacedPiece[];
  readonly totals: {
    readonly kinds: readonly KindTotals[];
    /** Of the stock used whose price is known. */
    readonly cost: number;
    /** How many used pieces of stock have no price. */
    readonly unpriced: number;
  };
}

/** A thing to buy that no saw makes, as fret wire. */
export interface BuyRow {
  readonly what: string;
  /** With its unit, as `1184 mm` or `6`. */
  readonly amount: string;
  readonly note: string;
}
