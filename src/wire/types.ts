/**
 * Fret wire: a piece for each slot, and how the pieces come out of the sticks that wire is bought in.
 *
 * In: a Layout and its Instrument. Out: lengths in full doubles, millimetres, in the order in which frets go in.
 */

export interface WirePiece {
  /** Place among the instrument's frets, from 1; a zero fret is 0. */
  readonly fret: number;
  /** As the trade writes it: `7`, `6+`. */
  readonly label: string;
  /** `fret-slot-07`. */
  readonly slot: string;
  /** Straight from end to end of the crown: what a rule laid across the board shows. */
  readonly straight: number;
  /** Along the board's surface, over its curve: what the bent piece covers once it is filed flush. */
  readonly crown: number;
  /** Of the tang that goes into the slot; shorter than the crown where the slot stops inside the board. */
  readonly tang: number;
  /** To nip off: the crown and what is trimmed from both its ends. */
  readonly cut: number;
}

/** One bought stick and the pieces that are nipped from it, longest first. */
export interface WireStick {
  readonly pieces: readonly WirePiece[];
  readonly used: number;
  readonly left: number;
}

export interface WireSticks {
  /** Of a bought stick. */
  readonly length: number;
  readonly sticks: readonly WireStick[];
  /** Fewer sticks cannot hold the pieces, whatever is tried. */
  readonly isLeast: boolean;
}

export interface WirePlan {
  readonly pieces: readonly WirePiece[];
  /** Left on each piece for trimming, both ends together. */
  readonly trim: number;
  /** Of all pieces as they are nipped off. */
  readonly total: number;
  /** Null where wire is bought by length, or where a piece is longer than a stick. */
  readonly sticks: WireSticks | null;
}
