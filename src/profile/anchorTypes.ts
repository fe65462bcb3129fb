/** What holds the strings behind the saddle: one of four ways. Millimetres and radians. */

/** The row in which the strings end, or leave for a tailpiece. */
interface AnchorRow {
  /** Between the centres of the outer strings there. */
  readonly spread: number;
  /** From the saddle line to the row, along the centreline. */
  readonly behindSaddle: number;
  /** `square`: row square to the centreline; `saddle`: row follows the saddle's slant. */
  readonly row: 'square' | 'saddle';
}

/** Each string ends in a reamed hole of its own, under a tapered pin. */
export interface Pins extends AnchorRow {
  readonly kind: 'pins';
  /** Diameter of the straight hole drilled first. */
  readonly drill: number;
  /** Diameter the reamed hole has at the bridge's face. */
  readonly seat: number;
  /** The same of each pin, bass side first, where each was measured; else empty. */
  readonly seats: readonly number[];
  /** Diameter of the reamer's tip; null where it was not measured. */
  readonly reamerTip: number | null;
  /** How far a pin stands up before the last push. */
  readonly proud: number;
  /** By how much a string's slot in the front of its hole is wider than the string. */
  readonly slotClearance: number;
  /** Included angles, radians. */
  readonly reamerTaper: number;
  readonly pinTaper: number;
  /** Wood the hole goes through: bridge + top + plate. */
  readonly through: number;
}

/** Each string goes through a level hole in a block behind the saddle and is tied round it. The row is the block's front face. */
export interface Tied extends AnchorRow {
  readonly kind: 'tied';
  /** Diameter of the hole along the strings. */
  readonly hole: number;
  /** The hole's middle below the bridge's face. */
  readonly below: number;
  /** Upper side of the block above the bridge's face. */
  readonly rise: number;
  /** The block along the strings. */
  readonly block: number;
}

/** Each string comes up through a straight hole, its end held under the plate. */
export interface Through extends AnchorRow {
  readonly kind: 'through';
  readonly drill: number;
  /** Wood the hole goes through: bridge + top + plate. */
  readonly through: number;
}

/** The bridge is held by the strings alone, which go on to a tailpiece. The row is where they leave it. */
export interface Tailpiece extends AnchorRow {
  readonly kind: 'tailpiece';
  /** The strings there below the bridge's face. */
  readonly below: number;
}

export type Anchor = Pins | Tied | Through | Tailpiece;
