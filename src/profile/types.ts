/**
 * What the two files say once read: every length in millimetres, every angle in radians, every speed in mm/min,
 * every default filled in, no optional field left except where absence means "not wanted".
 *
 * Frame words: "bass" and "treble" are positions on a right-handed instrument; a left-handed one is mirrored
 * once, at the end of the layout.
 */

import type { Controller, LengthUnit } from './control.ts';

export type { Controller, LengthOffset, LengthUnit, Plane, WorkOffset } from './control.ts';

import type { Fingerboard, NutSeat } from './boardTypes.ts';

export type { Anchor, Pins, Tailpiece, Through, Tied } from './anchorTypes.ts';

export type { Binding, EndArtwork, Fingerboard, NutSeat, RadiusAlong } from './boardTypes.ts';

import type { FaceMarkers } from './markerTypes.ts';

export type { FaceMarker, FaceMarkers, InlayParts, MarkerArtwork, MarkerForm } from './markerTypes.ts';

import type { Course, Frets, Scale } from './fretTypes.ts';

export type { Course, Division, Fret, FretPiece, Frets, Scale, ScaleAlong, Slant } from './fretTypes.ts';

import type { Headstock, NeckBlank, RodClearance, RodEnds } from './headTypes.ts';

import type { Work } from './workTypes.ts';

export type { HeadShape, Headstock, NeckBlank, RodClearance, RodPocket, Tuners } from './headTypes.ts';
export type { Work } from './workTypes.ts';

import type { BridgeCaul, BridgeTemplate, PinGauges } from './bridgeTypes.ts';
import type { RadiusBlock, SideMarkerTemplate } from './jigTypes.ts';

export type {
  BridgeArtwork,
  BridgeBody,
  BridgeCaul,
  BridgePlate,
  BridgeTemplate,
  PinGauges,
} from './bridgeTypes.ts';

import type { Bridge, NeckJoint } from './neckTypes.ts';
import type { IndexPins } from './pinTypes.ts';
import type { NeckShape } from './shapeTypes.ts';

export type { RadiusBlock, SideMarkerTemplate } from './jigTypes.ts';

export type { NeckJoint } from './neckTypes.ts';
export type { IndexPins } from './pinTypes.ts';
export type { Tenon } from './tenonTypes.ts';

import type { InstrumentString, Intonation } from './stringTypes.ts';

export type {
  CoreMaterialName,
  InstrumentString,
  StringBuild,
  WrapMaterialName,
} from './stringTypes.ts';

export type Hand = 'right' | 'left';
export type Family = 'guitar' | 'ukulele' | 'mandolin' | 'dulcimer' | 'bass' | 'other';

/** How a material behaves under a cutter. */
export type MaterialClass =
  | 'tropical hardwood'
  | 'hardwood'
  | 'softwood'
  | 'plywood'
  | 'mdf'
  | 'acrylic'
  | 'card'
  | 'shell';

export interface SideMarker {
  readonly fret: number;
  readonly count: 1 | 2;
}

export interface Instrument {
  readonly name: string;
  /** Folder name made from `name`: a-z, 0-9 and hyphens. */
  readonly slug: string;
  readonly family: Family;
  readonly hand: Hand;
  /** Unit of a bare number in the file; also the first unit on sheets. */
  readonly units: LengthUnit;
  /** Frequency of A4 that note names were read with, hertz. */
  readonly concertPitch: number;
  /** In order of position, bass side first. */
  readonly strings: readonly InstrumentString[];
  /** Strings that are played as one, bass side first; every string belongs to one, most to one of their own. */
  readonly courses: readonly Course[];
  readonly scale: Scale;
  readonly frets: Frets;
  readonly fretWire: {
    readonly tangDepth: number;
    readonly tangWidth: number;
    /** Width over the barbs. */
    readonly barbWidth: number;
    readonly crownHeight: number;
    readonly crownWidth: number;
    /** Added to each cut length for trimming, both ends together. */
    readonly trim: number;
    /** Length of the sticks it is bought in; null: by length, from a coil. */
    readonly stick: number | null;
  };
  readonly fingerboard: Fingerboard;
  readonly faceMarkers: FaceMarkers;
  readonly sideMarkers: {
    readonly material: string;
    readonly diameter: number;
    readonly depth: number;
    /** Centre below the finished edge of the board's surface. */
    readonly below: number;
    /** Between the centres of a double marker, along the board. */
    readonly spread: number;
    /** Of a board with binding: through the binding once it is on, into the wood; or through the bare strip before. */
    readonly drilled: 'after binding' | 'before binding';
    readonly at: readonly SideMarker[];
  };
  readonly indexPins: IndexPins;
  readonly nut: {
    readonly thickness: number;
    /** Nut face forward of scale zero (0 for a plain nut, negative behind a zero fret). */
    readonly setForward: number;
    /** A fret at scale zero carries the open strings; the nut behind it only keeps them apart. */
    readonly zeroFret: boolean;
    /** Clear space between the strings of one course. */
    readonly courseGap: number;
    /** Between the centres of the outer strings. */
    readonly stringSpread: number;
    readonly spacing: 'equal gaps' | 'equal centres';
    /** By how much a slot is wider than its string. */
    readonly slotClearance: number;
    /** Null: the board ends at the nut face, and the nut stands before it. */
    readonly seat: NutSeat | null;
  };
  readonly trussRod:
    | (RodEnds & {
        readonly width: number;
        readonly depth: number;
        /** From the nut face to the channel's near end (may be negative: starts in the headstock). */
        readonly from: number;
        readonly length: number;
        /** Pocket with round ends in the board's underside, over the rod; null: the underside stays whole. */
        readonly clearance: RodClearance | null;
      })
    | null;
  /** Null: nothing is said of the neck's set. */
  readonly neckJoint: NeckJoint | null;
  /** Null: the neck is made elsewhere. */
  readonly neckBlank: NeckBlank | null;
  /** Null: the headstock is made elsewhere. */
  readonly headstock: Headstock | null;
  /** Null: the back of the neck is shaped by eye. */
  readonly neckShape: NeckShape | null;
  readonly bridge: Bridge;
  readonly targets: {
    readonly actionBass: number;
    readonly actionTreble: number;
    /** Fret at which the two are measured. */
    readonly actionFret: number;
    /** Open string over the first fret. */
    readonly firstFretBass: number;
    readonly firstFretTreble: number;
    readonly relief: number;
    /** Fret at which the neck's bow ends, usually where it meets the body. */
    readonly bowFret: number;
  };
  readonly intonation: Intonation;
  readonly jigs: {
    readonly radiusBlock: RadiusBlock | null;
    readonly pinTemplate: {
      readonly materialClass: MaterialClass;
      readonly thickness: number;
      readonly margin: number;
      readonly pilot: number;
    } | null;
    /** A thin strip that carries the slot lines, to be laid on a hand-sawn board. */
    readonly slotTemplate: {
      readonly materialClass: MaterialClass;
      readonly thickness: number;
      readonly width: number;
    } | null;
    readonly bridgeTemplate: BridgeTemplate | null;
    readonly bridgeCaul: BridgeCaul | null;
    readonly pinGauges: PinGauges | null;
    /** Drawings of nut and saddle from blanks of a material with so much to spare all round. */
    readonly nutAndSaddle: { readonly material: string; readonly over: number } | null;
    /** A strip with a hole over each side marker, to be laid on the edge. */
    readonly sideMarkerTemplate: SideMarkerTemplate | null;
    /** Numbers and names scribed or marked on the templates; null: none. */
    readonly lettering: {
      /** Of a capital letter. */
      readonly height: number;
    } | null;
  };
}

// ---------------------------------------------------------------- the shop

export type Interval = readonly [min: number, max: number];

/** Of the nut that closes a router's collet. */
export interface ColletNut {
  /** Across its widest place, corners and dirt included. */
  readonly diameter: number;
  /** From the collet's face up to the spindle's body, of which nothing is known. */
  readonly length: number;
}

export interface Router {
  readonly kind: 'router';
  readonly id: string;
  readonly name: string;
  /** Where the tool's tip can go, measured from the work zero once a job is set up. */
  readonly travel: { readonly x: number; readonly y: number; readonly z: number };
  readonly spindle: Interval;
  /** Seconds until the spindle is up to speed. */
  readonly spinUp: number;
  readonly maxFeed: { readonly xy: number; readonly z: number };
  readonly rapid: { readonly xy: number; readonly z: number };
  /** How fast it gains and loses speed, mm/s^2; for the time estimate. */
  readonly acceleration: { readonly xy: number; readonly z: number };
  /** Largest sudden change of velocity where two moves meet, mm/min; for the time estimate. */
  readonly junctionSpeed: number;
  /** Height above the stock's top at start and end, and over what stands in the way. */
  readonly clearHeight: number;
  /** Height above the stock's top for travel from one feature to the next. */
  readonly travelHeight: number;
  /** How deep a through cut may go into the board below. */
  readonly intoSpoilboard: number;
  /** What clamps the collet: as wide as its corners, from the collet's face up. Null: not measured, so no proof knows of it. */
  readonly nut: ColletNut | null;
  readonly controller: Controller;
}

/** What the shop tested on its laser for one material and thickness. `power` is a share, 0 to 1. */
export interface BeamSetting {
  readonly materialClass: MaterialClass;
  readonly thickness: number;
  readonly kerf: number;
  readonly cut: {
    readonly power: number;
    readonly speed: number;
    readonly passes: number;
    /** Seconds the beam stands still at the start of a cut, until it is through. */
    readonly pierce: number;
    /** Length of the way from where the beam comes on, in the waste, to the outline. */
    readonly leadIn: number;
    /** How far the beam runs on past the start of a closed outline. */
    readonly overCut: number;
  };
  readonly mark: { readonly power: number; readonly speed: number };
  /** What to set the air to, in the shop's own words; null when nothing is said. */
  readonly air: string | null;
}

export interface Laser {
  readonly kind: 'laser';
  readonly id: string;
  readonly name: string;
  readonly bed: { readonly x: number; readonly y: number };
  readonly maxFeed: number;
  readonly rapid: number;
  /** How fast it gains and loses speed, mm/s^2; for the time estimate. */
  readonly acceleration: number;
  /** Largest sudden change of velocity where two moves meet, mm/min; for the time estimate. */
  readonly junctionSpeed: number;
  /** S word at full power. */
  readonly fullPower: number;
  readonly settings: readonly BeamSetting[];
  readonly controller: Controller;
}

export type Machine = Router | Laser;

export interface Tool {
  /** Tool number. */
  readonly id: number;
  readonly name: string;
  readonly kind: 'flat' | 'ball' | 'vee' | 'drill';
  readonly diameter: number;
  /** The true diameter lies within diameter +/- this (wear and runout included). */
  readonly tolerance: number;
  readonly flutes: number;
  readonly cuttingLength: number;
  readonly shankDiameter: number;
  /** From the collet's face to the tip: what can bend. */
  readonly stickOut: number;
  /** Included tip angle, radians; null for a flat end. */
  readonly tipAngle: number | null;
  /** Deepest single pass as a share of the diameter, where the shop knows better than the default. */
  readonly stepDownShare: number | null;
  /** mm per tooth, where the shop knows better than the default. */
  readonly chipLoad: number | null;
  /** Which machine holds it. */
  readonly machine: string;
}

export interface StockItem {
  readonly id: string;
  readonly kind: 'board' | 'sheet' | 'stick';
  readonly material: string;
  readonly materialClass: MaterialClass;
  readonly length: number;
  /** Of a stick: its diameter. */
  readonly width: number;
  /** Of a stick: its diameter. */
  readonly thickness: number;
  readonly count: number;
  /** Each; null when unknown. */
  readonly price: number | null;
  /** Grain along the length, or none that matters. */
  readonly grain: 'length' | 'none';
}

/** A clamp or fence, in the frame of the work zero of the programs during which it stands there. */
export interface KeepOut {
  readonly name: string;
  readonly part: string;
  /** Id of the machine it stands on; null: on every machine that works on the part. */
  readonly machine: string | null;
  readonly x: Interval;
  readonly y: Interval;
  readonly z: Interval;
}

/** With the turn of the cutter's edges, or against it. */
export type MillingDirection = 'climb' | 'conventional';

export interface Shop {
  readonly name: string;
  readonly currency: string;
  readonly machines: readonly Machine[];
  readonly tools: readonly Tool[];
  readonly stock: readonly StockItem[];
  readonly keepOuts: readonly KeepOut[];
  readonly allowances: {
    /** Blank past the finished part at each end and at each side. */
    readonly ends: number;
    readonly sides: number;
    /** Between parts cut from one sheet. */
    readonly between: number;
    /** Saw kerf for the cut list. */
    readonly sawKerf: number;
    /** Trimmed off each edge of a stock piece before anything is cut from it. */
    readonly trim: number;
  };
  readonly holding: {
    /** What keeps a part in its blank when its outline is cut: tabs, or a thin skin left all round under the cut. */
    readonly by: 'tabs' | 'skin';
    readonly tabLength: number;
    readonly tabHeight: number;
    /** Thickness of the skin; also of the one that holds a part with no room for tabs. */
    readonly skin: number;
  };
  /** Pins in the waste of a blank, on which it is turned over: their diameter, and how deep they stand in the board below. */
  readonly turning: { readonly pinDiameter: number; readonly pinDepth: number };
  readonly surfacing: {
    /** Which cutter makes the last passes over a board's radius. */
    readonly finish: 'ball' | 'flat';
    /** Highest ridge between two of those passes. */
    readonly cusp: number;
    /** What the level passes leave for them. */
    readonly allowance: number;
  };
  readonly pockets: {
    /** Which way a cutter goes along the walls. */
    readonly direction: MillingDirection;
    /** Left on the walls for the finishing pass; null: a share of the cutter's radius. */
    readonly allowance: number | null;
  };
  readonly bores: { readonly direction: MillingDirection };
  readonly outlines: {
    readonly direction: MillingDirection;
    /** As for pockets; 0: no finishing pass. */
    readonly allowance: number | null;
  };
  /** Width, at the surface, of a line cut by a vee cutter. */
  readonly scribing: { readonly lineWidth: number };
  readonly work: Work;
}
