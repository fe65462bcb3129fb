/** The back of the neck, once a profile has been read. Millimetres. */
import type { MaterialClass } from './types.ts';

/**
 * The back at one fret. `shoulder` and `back` say how full it is (see carving/types.ts); where points were measured on a neck
 * instead, these are null and are fitted once the board's width there is known.
 */
export interface ShapeStation {
  readonly fret: number;
  /** Neck and board together at the crest, without the fret. */
  readonly depth: number;
  readonly shares: { readonly shoulder: number; readonly back: number } | null;
  /** From the centreline, and below the board's underside. */
  readonly points: readonly (readonly [across: number, below: number])[];
}

export interface NeckGauges {
  readonly materialClass: MaterialClass;
  readonly thickness: number;
  /** Beside and below the opening. */
  readonly wall: number;
}

export interface NeckShape {
  /** In order along the neck; at least one. */
  readonly stations: readonly ShapeStation[];
  /** Where the shaft's own shape begins and ends, from the nut face: before it lies the head's foot, past it the heel. */
  readonly from: number;
  /** Null: as far as the heel's block, or the last fret. */
  readonly to: number | null;
  /** Least wood between the truss rod's channel and the carved back. */
  readonly leastUnderRod: number;
  /** A plate for each station; null: none. */
  readonly gauges: NeckGauges | null;
}
