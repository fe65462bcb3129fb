/** The bridge as wood, and the jigs that go with it, every default filled in. Millimetres and radians. */
import type { MaterialClass } from './types.ts';

/** The bridge itself, seen from above: full width in the middle, two wings that narrow toward its tips. */
export interface BridgeBody {
  readonly wood: string;
  readonly materialClass: MaterialClass;
  /** Finished, in the middle. */
  readonly thickness: number;
  /** From tip to tip, across the strings. */
  readonly length: number;
  /** In the middle, along the strings. */
  readonly width: number;
  /** From the front edge to the middle of the saddle slot, on the centreline. */
  readonly front: number;
  /** Of each wing; 0: the bridge has its full width and thickness all along. */
  readonly wingLength: number;
  /** Along the strings, at the tips. */
  readonly tipWidth: number;
  /** To which the wings are thinned at their tips, by hand. */
  readonly tipThickness: number;
  /** Of every corner of the outline. */
  readonly cornerRadius: number;
  /** `square` to the centreline, or along the `saddle`. */
  readonly stands: 'square' | 'saddle';
  /** When the saddle's slot is cut: in the blank, or in place once it was strung on trial. */
  readonly slotCut: 'before gluing' | 'after stringing';
  /** Diameter of two pins under the saddle that hold it in its place; null for none. */
  readonly indexPin: number | null;
  /** Drawn elsewhere: its outline takes the place of length, width, wings and corners. */
  readonly artwork: BridgeArtwork | null;
}

/** An outline from a file. */
export interface BridgeArtwork {
  /** SVG or DXF, as seen from the profile's folder. */
  readonly file: string;
  /** Counter-clockwise as seen from above, the drawing's own x along the strings toward the tail. */
  readonly rotate: number;
}

/** The plate under the top that the pins go through. */
export interface BridgePlate {
  readonly wood: string;
  readonly materialClass: MaterialClass;
  readonly thickness: number;
  /** Across the strings. */
  readonly length: number;
  /** Along the strings. */
  readonly width: number;
  /** From its front edge to the saddle line, on the centreline. */
  readonly front: number;
  readonly cornerRadius: number;
}

/** A plate with a bay that the bridge slides into, and marks to measure to. */
export interface BridgeTemplate {
  readonly materialClass: MaterialClass;
  readonly thickness: number;
  /** Plate before the bridge and beside it. */
  readonly margin: number;
  /** Between the bridge and the bay, all round. */
  readonly play: number;
  /** Where its check distances begin. */
  readonly from: 'nut' | 'joint';
}

/** Curved plates on dowels that press the bridge plate to a domed top. */
export interface BridgeCaul {
  readonly materialClass: MaterialClass;
  /** Along the strings, over all plates. */
  readonly length: number;
  /** Across the strings. */
  readonly width: number;
  /** At the middle of its curve. */
  readonly height: number;
  readonly plateThickness: number;
  readonly plates: number;
  readonly dowelDiameter: number;
  /** Of the top's outer face; null where nothing is said of a dome. */
  readonly radius: number | null;
  /** From that face to the caul: top and plate, and what pads the caul. */
  readonly below: number;
}

/** Rings that stop a reamer, and a scrap with trial holes. */
export interface PinGauges {
  readonly materialClass: MaterialClass;
  readonly thickness: number;
  /** Outer diameter of a ring. */
  readonly collar: number;
  /** Number of trial holes. */
  readonly holes: number;
}
