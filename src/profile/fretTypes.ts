/** Where the frets are, once a profile has been read: scale lengths, the division of the octave, courses. Millimetres, cents. */

/** A slot under some of the strings only, or at a place of its own. */
export interface FretPiece {
  /** Positions of the first and the last string over it, 1 is the bass-most. */
  readonly first: number;
  readonly last: number;
  /** Above the open strings. */
  readonly cents: number;
}

export interface Fret {
  /** As the trade writes it: `7`, `6+`. */
  readonly label: string;
  /** Above the open strings. */
  readonly cents: number;
  /** Bass side first; null: one slot under all strings. */
  readonly pieces: readonly FretPiece[] | null;
}

/** How the octave is divided, in words for sheets. */
export interface Division {
  readonly words: string;
  /** Of a division from published theory; null otherwise. */
  readonly source: string | null;
  /** Equal steps to the octave; null for any other division. */
  readonly equal: number | null;
}

export interface Frets {
  /** From the nut, without a zero fret. A fret's number elsewhere is its place in this list, from 1. */
  readonly list: readonly Fret[];
  /** How many there are: the list's length. */
  readonly count: number;
  readonly division: Division;
  /** Place in the list of the fret an octave above the open strings; null where there is none. */
  readonly octave: number | null;
  readonly slotWidth: number;
  /** Of the slot below the finished surface: tang depth + clearance. */
  readonly slotDepth: number;
  /** Least wood between a slot's floor and the board's underside. */
  readonly leastWoodBelow: number;
  /** Between the ends of neighbouring pieces of one fret. */
  readonly pieceGap: number;
}

/** What a stated scale length is measured along. */
export type ScaleAlong = 'centreline' | 'reference lines';

export interface Scale {
  /** Along the centreline, from scale zero to where a string without set-back would meet its saddle. */
  readonly length: number;
  /** As stated; the same twice for one scale. */
  readonly stated: { readonly bass: number; readonly treble: number };
  readonly along: ScaleAlong;
  /** Half the distance between the two reference lines; null where no line was needed. */
  readonly lines: { readonly nut: number; readonly saddle: number } | null;
  /** null for one scale: every slot is square to the centreline. */
  readonly slant: Slant | null;
}

/** How far slots lean, bass end nearer the nut where the bass scale is the longer one. */
export interface Slant {
  /** Bass scale less treble scale, both seen along the centreline. */
  readonly difference: number;
  /** Share of the scale, from scale zero, at which a slot is square: 0 at scale zero, 1 at the saddle line. */
  readonly squareShare: number;
  /** Where that is, in words for sheets: `fret 7`. */
  readonly squareWords: string;
  /** Half the distance between the reference lines at scale zero and at the saddle line. */
  readonly half: { readonly nut: number; readonly saddle: number };
}

/** Two or three neighbouring strings played as one: `size` strings from position `first`. */
export interface Course {
  readonly first: number;
  readonly size: number;
}
