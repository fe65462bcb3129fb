/** Face markers as a profile has them, every default filled in. Millimetres and radians. */
import type { MaterialClass } from './types.ts';

/**
 * A square stands along the board, a diamond has its points along and across it: `length` along, `width` across. A block has its
 * sides along slots and edges; its length and width are those through its middle. A ring leaves an island of its inner diameter.
 */
export type MarkerForm =
  | { readonly shape: 'round'; readonly diameter: number }
  | { readonly shape: 'square'; readonly side: number }
  | { readonly shape: 'diamond'; readonly length: number; readonly width: number }
  | { readonly shape: 'ring'; readonly diameter: number; readonly inner: number }
  | { readonly shape: 'block'; readonly length: number; readonly width: number }
  | {
      readonly shape: 'notched block';
      readonly length: number;
      readonly width: number;
      /** Of the V in the middle of each side that faces a slot. */
      readonly notchDepth: number;
      readonly notchWidth: number;
    };

export type FaceMarker = { readonly fret: number; readonly count: 1 | 2 } & MarkerForm;

/** A marker whose outline a file holds. */
export interface MarkerArtwork {
  /** SVG or DXF, as seen from the profile's folder. */
  readonly file: string;
  /** Fret in whose space its middle lies. */
  readonly fret: number;
  /** Positions of the two strings between which its middle lies; null: on the centreline. */
  readonly between: readonly [number, number] | null;
  /** Counter-clockwise as seen from above, the artwork's own x along the board toward the bridge. */
  readonly rotate: number;
  readonly size:
    | { readonly kind: 'scale'; readonly scale: number }
    /** Extent along the artwork's own x axis. */
    | { readonly kind: 'width'; readonly width: number };
  /** On a left-handed instrument it is mirrored with the board; else it keeps its own hand there. */
  readonly mirrorForLeftHand: boolean;
}

/** Parts for the pockets, cut from pieces of shell or wood. */
export interface InlayParts {
  readonly materialClass: MaterialClass;
  /** One piece of the material, as it is bought. */
  readonly blank: { readonly length: number; readonly width: number };
  /** Waste between two parts and beside the edges of a piece. */
  readonly between: number;
}

export interface FaceMarkers {
  readonly material: string;
  readonly thickness: number;
  /** How far a marker stands above the finished board before levelling. */
  readonly proud: number;
  /** By how much a pocket is wider than its marker, both sides together. */
  readonly clearance: number;
  /** Radius of the corners of pockets that have corners. */
  readonly cornerRadius: number;
  /** Between the centres of a double marker, across the board. */
  readonly spread: number;
  /** Least that should be left of a marker's thickness once the board is radiused and levelled. */
  readonly leastLeft: number;
  readonly at: readonly FaceMarker[];
  readonly artwork: readonly MarkerArtwork[];
  /** Null: the parts are bought or cut by hand. */
  readonly inlays: InlayParts | null;
}
