/**
 * The work at both ends of the strings: where the bridge goes, how the saddle and the nut are made, how pins are reamed.
 *
 * In: an Instrument, its Layout and its strings' heights. Out: numbers for the bench. Millimetres, radians.
 * "Bass" and "treble" are the sides of string 1 and of the last string, for either hand.
 */

import type { Anchor } from '../profile/types.ts';

/** One string's place on the bridge. */
export interface StringPlace {
  /** 1 is the bass-most position. */
  readonly position: number;
  readonly pitch: string;
  /** From the nut face, along the centreline, to the point on the saddle that ends the string. */
  readonly saddle: number;
  /** The same to the middle of its pin, or of whatever else holds it. */
  readonly pin: number;
  /** From the centreline, bass side negative whatever the hand. */
  readonly saddleAcross: number;
  readonly pinAcross: number;
}

/** Slanted distances from the ends of the nut line to the outer pins: equal ones do not mean square where pins are slanted. */
export interface SkewCheck {
  readonly bass: number;
  readonly treble: number;
  /** Corner to the far pin. */
  readonly bassToTreble: number;
  readonly trebleToBass: number;
}

/** Sideways, from a straightedge laid along each edge of the board, square to the centreline, to the outer pin of that side. */
export interface CentringCheck {
  readonly bass: number;
  readonly treble: number;
}

export interface BridgePlace {
  readonly strings: readonly StringPlace[];
  /** The straight slot's middle, from the nut face: on the centreline and under the outer strings. */
  readonly slot: {
    readonly atCentre: number;
    readonly bass: number;
    readonly treble: number;
    /** From square to the centreline; positive: the bass end lies back. */
    readonly angle: number;
  };
  readonly skew: SkewCheck;
  readonly centring: CentringCheck;
}

/** One string slot in the nut. */
export interface NutSlot {
  readonly position: number;
  readonly pitch: string;
  readonly gauge: number;
  /** From the bass corner of the nut face to the slot's middle. */
  readonly fromBassEdge: number;
  /** Wood or bone between this string and the next, edge to edge; null for the last. */
  readonly gapToNext: number | null;
  readonly width: number;
  /** Slot floor above the board's face right under it. */
  readonly aboveBoard: number;
  /** Slot floor above the underside of the board: what a nut on the neck's face stands up to. */
  readonly aboveNeck: number;
  /** How deep the slot is once the nut's top is shaped: half a wound string, all of a plain one. */
  readonly depth: number;
}

export interface NutWork {
  readonly slots: readonly NutSlot[];
  /** Board's width at the nut face: length of the nut. */
  readonly length: number;
  readonly thickness: number;
  /** From the edge of the board to the outer strings' outer edges. */
  readonly marginBass: number;
  readonly marginTreble: number;
  /** Highest place of the finished top above the board's underside. */
  readonly tallest: number;
}

/** One string's place on the saddle's top. */
export interface SaddlePoint {
  readonly position: number;
  readonly pitch: string;
  /** From the saddle's bass end, along the saddle. */
  readonly along: number;
  /** Underside of the string above the line of the fret tops under it, carried on to the saddle. */
  readonly aboveFrets: number;
  /** How much lower than at the crest that line is there. */
  readonly fall: number;
  /** Above the bridge's face. */
  readonly aboveBridge: number;
  /** Before (-) or behind (+) the middle of the saddle's top. */
  readonly lean: number;
}

export interface SaddleWork {
  readonly points: readonly SaddlePoint[];
  readonly length: number;
  readonly width: number;
  readonly slotDepth: number;
  /** Tallest the blank must be: slot and highest point. */
  readonly tallest: number;
  /** Radius of the circle that fits the points best, and the worst miss of a point; null for fewer than three strings. */
  readonly top: { readonly radius: number | null; readonly miss: number } | null;
}

/** One pin's hole. */
export interface PinHole {
  readonly position: number;
  readonly pitch: string;
  readonly seat: number;
  readonly drill: number;
  /** How far the reamer goes on after it first touches the hole all round. */
  readonly advance: number;
  /** How far the reamer's tip is then below the face; null where the tip was not measured. */
  readonly tipBelow: number | null;
  /** Advance at which to begin trying the pin: the last 2 mm are reamed by trying. */
  readonly tryFrom: number;
  /** Advance at which the pin still stands proud by what a last push takes. */
  readonly proudAt: number;
  /** Cone reaches through all the wood. */
  readonly coneAllThrough: boolean;
  /** Largest drill for that. */
  readonly largestDrill: number;
  /** Width of the string's slot in the front of the hole. */
  readonly stringSlot: number;
}

export interface BridgeWork {
  readonly instrument: string;
  readonly units: 'mm' | 'in';
  readonly place: BridgePlace;
  readonly nut: NutWork;
  readonly saddle: SaddleWork;
  /** None where the strings are held otherwise. */
  readonly pins: readonly PinHole[];
  readonly taper: { readonly reamer: number; readonly pin: number; readonly through: number } | null;
  /** What holds the strings behind the saddle. */
  readonly anchor: Anchor;
  /** Straightedge on the frets above the bridge's face at the saddle: unstrung, and less what the pull takes. */
  readonly straightedge: { readonly unstrung: number; readonly strung: number };
}
