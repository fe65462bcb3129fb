/** What an instrument file says of its fingerboard, read and filled in. Millimetres, radians. */
import type { MaterialClass } from './types.ts';

/** How the board's radius goes on from what it is at the nut face; `radius` itself is infinite for a flat board. */
export type RadiusAlong =
  | { readonly kind: 'constant' }
  /** Evenly to a second radius, at a fret or (null) at the body end. */
  | { readonly kind: 'cone'; readonly fret: number | null; readonly radius: number }
  /** In proportion to the distance between the outer strings, so that every string lies along the board's surface. */
  | { readonly kind: 'matched' };

/**
 * What the nut stands in: a slot across a board that goes on behind it, or a ledge at the board's nut end. The floor of both is
 * flat and the wall on the side of the frets is the nut face.
 */
export interface NutSeat {
  readonly kind: 'slot' | 'ledge';
  /** Of the floor below the finished board's crest. */
  readonly depth: number;
  /** By how much a slot is longer than the nut is thick; 0 for a ledge, which is open behind the nut. */
  readonly clearance: number;
  /** Board behind a slot, along the centreline; 0 for a ledge. */
  readonly boardBehind: number;
}

/** Strips glued to the edges of the board's wood. The finished widths are those over the binding. */
export interface Binding {
  readonly material: string;
  /** Of a strip, seen from above. */
  readonly width: number;
  readonly around: 'sides' | 'sides and end';
  /** Added to the length of each strip for trimming. */
  readonly trim: number;
  /**
   * Of the channel along the board's edges that the strips are let into, below the finished edge where that is lowest. Null: the
   * strips are as high as the board, whose wood is made narrower by them.
   */
  readonly channelDepth: number | null;
}

/** A closed outline whose right side is the board's end. */
export interface EndArtwork {
  /** SVG or DXF, as seen from the profile's folder. */
  readonly file: string;
  /** Least radius of corners that go in. */
  readonly cornerRadius: number;
}

export interface Fingerboard {
  readonly wood: string;
  readonly materialClass: MaterialClass;
  /** Finished, at the crest. */
  readonly thickness: number;
  /** Of the blank while slots and pockets are cut; at least `thickness`. */
  readonly blankThickness: number;
  /** Finished, binding included. */
  readonly widthAtNut: number;
  /** At a fret, or (null) at the body end. */
  readonly widthAt: { readonly fret: number | null; readonly width: number };
  /** Board past the last slot, on the centreline. */
  readonly overhang: number;
  /** How far the end leans from square, positive where the treble side is the longer one; 0 for square. */
  readonly endAngle: number;
  /** Radius of one arc across the whole end, its middle on the centreline; negative where the end is hollow, null for a straight end. */
  readonly endArc: number | null;
  /** The end as a file holds it; null: one of the others. */
  readonly endArtwork: EndArtwork | null;
  /** Radius of the two corners of a straight end or an arc; 0 for sharp ones. */
  readonly endRounding: number;
  /** Of the playing surface at the nut face; infinite for a flat board. */
  readonly radius: number;
  readonly radiusAlong: RadiusAlong;
  /** Whether the blank still is flat or already carries its radius when the slots are cut. */
  readonly surfaceWhenSlotted: 'flat' | 'radiused';
  /** `follows`: the floor of a slot lies at one depth below the surface; `flat`: it is straight from edge to edge. */
  readonly slotFloor: 'follows' | 'flat';
  /** A slot ends this far before the finished edge, measured along it; 0: it runs out at the edge. */
  readonly slotsStopShort: number;
  readonly binding: Binding | null;
}
