/**
 * Finished shapes, tool-free: the intent.
 *
 * In: Layout and Instrument. Out: parts. Guaranteed: every feature has an id of its own and says all a prover needs.
 * Frame: the part's own; x, y as the layout for instrument parts; z = 0 on the top of the blank as it lies while it
 * is worked, negative into the wood. Millimetres.
 */
import type { Shaft } from '../carving/types.ts';
import type { Box, Region, Ring, Vec } from '../geometry/types.ts';
import type { MaterialClass, Work } from '../profile/types.ts';

/** z = crest + sqrt(R^2 - y^2) - R - below, about the line y = 0; R linear in x between the two stations. */
export interface Cone {
  readonly kind: 'cone';
  readonly x: readonly [number, number];
  readonly R: readonly [number, number];
  readonly crest: number;
  readonly below: number;
}

/** Height of a floor below the blank's top. */
export type Floor = { readonly kind: 'plane'; readonly z: number } | Cone;

/** Flat at `z`, but between two stations worked down to the cone wherever that is lower. */
export interface WorkedTop {
  readonly kind: 'worked';
  readonly z: number;
  readonly x: readonly [number, number];
  readonly cone: Cone;
}

/** Flat at `z`, but between two stations planed down to `floor`. */
export interface PlanedTop {
  readonly kind: 'planed';
  readonly z: number;
  readonly x: readonly [number, number];
  readonly floor: number;
}

/** What the blank's top looks like before a program: before the part's first one, unless a program works it. */
export type Top = { readonly kind: 'plane'; readonly z: number } | Cone | WorkedTop | PlanedTop;

/** Work that is always done by hand. */
export type HandWork =
  | 'tieHoles'
  | 'bridgeShape'
  | 'saddleInPlace'
  | 'pinCoupon'
  | 'nutBlank'
  | 'saddleBlank';

interface FeatureBase {
  /** Unique within all parts of an instrument. */
  readonly id: string;
  readonly work: keyof Work | HandWork;
}

/**
 * A parallel-sided slot. Past either end the cutter may run out by that end's `runOut`; where it is 0 the slot stops in the wood,
 * its end round from the cutter and just reaching the line's end.
 */
export interface SlotFeature extends FeatureBase {
  readonly kind: 'slot';
  readonly line: readonly [Vec, Vec];
  readonly width: number;
  readonly floor: Floor;
  readonly runOut: readonly [number, number];
  /** One wall lies in the waste past the part: what is wanted is a ledge along the other, on this side seen along the line. */
  readonly ledge?: 'wall on the left' | 'wall on the right';
}

/** A flat-floored pocket with vertical walls. */
export interface PocketFeature extends FeatureBase {
  readonly kind: 'pocket';
  readonly region: Region;
  readonly floor: Floor & { readonly kind: 'plane' };
  /** A part is cut to go into it: no corner may keep more than a hair. Its sharpest corner's radius. */
  readonly fitted?: { readonly corner: number };
}

/** A flat-floored pocket from below, seen from above. */
export interface UndersidePocketFeature extends FeatureBase {
  readonly kind: 'underside pocket';
  readonly region: Region;
  /** Around the region. */
  readonly box: Box;
  /** From the underside. */
  readonly depth: number;
}

/** A round hole from the top, `depth` at full diameter, or through. */
export interface HoleFeature extends FeatureBase {
  readonly kind: 'hole';
  readonly at: Vec;
  readonly diameter: number;
  readonly depth: number;
  readonly through: boolean;
}

/** A contour cut right through. `keep: inside` leaves what the ring encloses; `outside` makes an opening. */
export interface OutlineFeature extends FeatureBase {
  readonly kind: 'outline';
  readonly ring: Ring;
  readonly keep: 'inside' | 'outside';
  /** Glued to a carrier while it is cut, in place of tabs. */
  readonly carried?: Carried;
  /** Least radius of its corners that go in, where it has any: no thicker cutter gets into them. */
  readonly inner?: number;
  /** The pocket that a part is made for. */
  readonly fits?: InlayFit;
}

export interface Carried {
  /** Least waste to the next part. */
  readonly between: number;
  /** Least radius of the corners that a cutter makes from their inside; null when there are none. */
  readonly corner: number | null;
}

/** How a part goes into its pocket: turned about `from` by quarters, counter-clockwise, then `from` laid on `to`. */
export interface InlayFit {
  /** Id of the pocket's feature. */
  readonly pocket: string;
  /** Wanted between the two, all round. */
  readonly gap: number;
  /** Ids of the openings within the part. */
  readonly openings: readonly string[];
  readonly toPocket: { readonly from: Vec; readonly quarters: 0 | -1; readonly to: Vec };
}

/** Cut down to a level floor outside of a wall, one cutter's width and no farther: out to the part's edge and into the waste. */
export interface ChannelFeature extends FeatureBase {
  readonly kind: 'channel';
  /** The wall, closed in the waste past the part's ends. What it encloses is kept. */
  readonly ring: Ring;
  readonly floor: Floor & { readonly kind: 'plane' };
  /** Farthest that the part's edge lies from the wall. */
  readonly width: number;
  /** Edge of the part's top once it is cut; for drawings. */
  readonly top: Ring;
}

/** A line drawn on the surface: scribed or marked, never cut through. */
export interface LineFeature extends FeatureBase {
  readonly kind: 'line';
  readonly points: readonly Vec[];
  readonly meaning:
    | 'fret slot'
    | 'centreline'
    | 'saddle line'
    | 'nut line'
    | 'underside'
    | 'wing line'
    | 'face line'
    | 'tie block'
    | 'tie hole'
    | 'check mark'
    | 'string slot'
    | 'lettering';
}

/** The finished top, worked from the flat blank: the box from edge to edge of the blank, its waste at both ends left as it is. */
export interface SurfaceFeature extends FeatureBase {
  readonly kind: 'surface';
  readonly box: Box;
  /** A plane: a flat board's blank is planed to thickness. */
  readonly floor: Floor;
  /** Slots meant to be cut in a radiused board come after it, those meant for a flat blank before it. */
  readonly when: 'before the slots' | 'after the slots';
}

/** The back of the neck, carved from its blank while that lies on its face. */
export interface NeckBackFeature extends FeatureBase {
  readonly kind: 'neck back';
  readonly shaft: Shaft;
  /** How far the head stands up from the blank's back while it lies so, and from which x of the part on; null: no head yet. */
  readonly head: { readonly until: number; readonly rise: number } | null;
}

/** A hole drilled into the part's edge face, square to that. */
export interface EdgeHoleFeature extends FeatureBase {
  readonly kind: 'edge hole';
  readonly at: readonly [x: number, y: number, z: number];
  /** On the edge face: along it from its corner, and up from the underside. */
  readonly onEdge: { readonly along: number; readonly up: number };
  readonly diameter: number;
  readonly depth: number;
  readonly through: boolean;
}

/** The edge that side markers go into, in the part frame, and how the part is worked there. */
export interface EdgeFace {
  /** Corner of the edge at the nut end, its direction toward the body end, and square to it out of the part; length 1. */
  readonly from: Vec;
  readonly along: Vec;
  readonly outward: Vec;
  /** Least and greatest length along the edge, from its corner, of any place of the part. */
  readonly reach: readonly [least: number, most: number];
  /** How far the part goes down below the edge when that is level. */
  readonly depth: number;
  /** From the underside to the blank's top. */
  readonly height: number;
  /** A binding strip that is drilled by itself, before it is glued on: its thickness. Null: the whole board is drilled. */
  readonly strip: number | null;
  /** Whether the board has a binding there once it is drilled. */
  readonly bound: boolean;
}

export type Feature =
  | SlotFeature
  | PocketFeature
  | HoleFeature
  | OutlineFeature
  | ChannelFeature
  | LineFeature
  | SurfaceFeature
  | NeckBackFeature
  | EdgeHoleFeature
  | UndersidePocketFeature;

export interface Part {
  /** `fingerboard`, `radius-block-plates`, `pin-template`, `slot-template`, `side-marker-template`. */
  readonly id: string;
  readonly title: string;
  readonly material: string;
  readonly materialClass: MaterialClass;
  /** The wood before the first program, in the part frame. */
  readonly blank: { readonly box: Box; readonly thickness: number; readonly top: Top };
  readonly features: readonly Feature[];
  /** A touchable datum of the part frame, in words. */
  readonly datum: string;
  /** It is sawn from a board with the grain along this axis; left out: from a sheet. */
  readonly grain?: 'x' | 'y';
  /** What the bench must do, with numbers, where one of its works is left to the hand. Words that go after a colon. */
  readonly byHand?: Partial<Record<Feature['work'], string>>;
  /** How it is used, with the numbers that go with it; a sentence each. */
  readonly use?: readonly string[];
  /** Of a part with edge holes. */
  readonly edge?: EdgeFace;
  /** Its blank is a piece as it is bought: nothing is sawn for it. */
  readonly bought?: true;
  /** Id of the piece that its blank is sawn from, where that is not a piece of its own. */
  readonly sawnFrom?: string;
  /** Where its programs have their zero, in words, on y = 0; left out: as for any panel or fingerboard. */
  readonly zero?: string;
  /** What is done by hand once a kind of work is done, and makes no feature. */
  readonly benchSteps?: readonly BenchStep[];
}

/** Work by hand between the programs of a part. */
export interface BenchStep {
  /** As `glue-scarf`. */
  readonly step: string;
  readonly follows: Feature['work'];
  readonly why: string;
}

/** A piece to saw or buy that no program shapes, as a dowel. */
export interface Piece {
  readonly id: string;
  readonly title: string;
  readonly kind: 'board' | 'sheet' | 'stick';
  readonly material: string | null;
  readonly materialClass: MaterialClass | null;
  readonly length: number;
  readonly width: number;
  readonly thickness: number;
  readonly count: number;
  /** Grain must run along the length. */
  readonly grain: boolean;
  /** How it is sawn further, in words. */
  readonly note?: string;
}
