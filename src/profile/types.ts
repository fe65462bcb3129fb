/**
 * What the two files say once read: every length in millimetres, every angle in radians, every speed in mm/min,
 * every default filled in, no optional field left except where absence means "not wanted".
 *
 * Frame words: "bass" and "treble" are positions on a right-handed instrument; a left-handed one is mirrored
 * once, at the end of the layout.
 */

import type { InstrumentString, Intonation, SaddleTop } from './stringTypes.ts';

export type {
  CoreMaterialName,
  InstrumentString,
  StringBuild,
  WrapMaterialName,
} from './stringTypes.ts';

export type Hand = 'right' | 'left';
export type Family = 'guitar' | 'ukulele' | 'mandolin' | 'dulcimer' | 'bass' | 'other';
export type LengthUnit = 'mm' | 'in';

/** How a material behaves under a cutter. */
export type MaterialClass =
  | 'tropical hardwood'
  | 'hardwood'
  | 'softwood'
  | 'plywood'
  | 'mdf'
  | 'acrylic'
  | 'card';

export interface FaceMarker {
  readonly fret: number;
  readonly count: 1 | 2;
  readonly diameter: number;
}

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
  readonly scale: { readonly length: number };
  readonly frets: {
    readonly count: number;
    /** Equal divisions of the octave. */
    readonly perOctave: number;
    readonly slotWidth: number;
    /** Of the slot below the finished surface: tang depth + clearance. */
    readonly slotDepth: number;
    /** Least wood between a slot's floor and the board's underside. */
    readonly leastWoodBelow: number;
  };
  readonly fretWire: {
    readonly tangDepth: number;
    readonly tangWidth: number;
    /** Width over the barbs. */
    readonly barbWidth: number;
    readonly crownHeight: number;
    readonly crownWidth: number;
    /** Added to each cut length for trimming, both ends together. */
    readonly trim: number;
  };
  readonly fingerboard: {
    readonly wood: string;
    readonly materialClass: MaterialClass;
    /** Finished, at the crest. */
    readonly thickness: number;
    /** Of the blank while slots and pockets are cut; at least `thickness`. */
    readonly blankThickness: number;
    readonly widthAtNut: number;
    readonly widthAt: { readonly fret: number; readonly width: number };
    /** Board past the last slot, on the centreline. */
    readonly overhang: number;
    /** Radius of the two corners at the body end; 0 for square. */
    readonly endRounding: number;
    readonly radius: number;
    /** Whether the blank still is flat or already carries its radius when the slots are cut. */
    readonly surfaceWhenSlotted: 'flat' | 'radiused';
  };
  readonly faceMarkers: {
    readonly material: string;
    readonly thickness: number;
    /** How far a marker stands above the finished board before levelling. */
    readonly proud: number;
    /** Pocket diameter less marker diameter. */
    readonly clearance: number;
    /** Between the centres of a double marker, across the board. */
    readonly spread: number;
    readonly at: readonly FaceMarker[];
  };
  readonly sideMarkers: {
    readonly material: string;
    readonly diameter: number;
    readonly depth: number;
    /** Centre below the finished edge of the board's surface. */
    readonly below: number;
    /** Between the centres of a double marker, along the board. */
    readonly spread: number;
    readonly at: readonly SideMarker[];
  };
  readonly indexPins: {
    readonly diameter: number;
    /** `clear`: clear of slots, markers, rod and edges; `slot`: under a fret's crown; `marker`: under a marker. */
    readonly place: 'clear' | 'slot' | 'marker';
    /** The two frets near which (clear), in whose slots, or under whose markers the pins go. */
    readonly frets: readonly [number, number];
    /** Wanted distance from the centreline, bass side first pin, treble side second. */
    readonly offset: number;
    /** Least wood between a pin hole and anything else, when clear. */
    readonly leastWall: number;
  };
  readonly nut: {
    readonly thickness: number;
    /** Nut face forward of scale zero (0 for a plain nut). */
    readonly setForward: number;
    /** Between the centres of the outer strings. */
    readonly stringSpread: number;
    readonly spacing: 'equal gaps' | 'equal centres';
  };
  readonly trussRod: {
    readonly width: number;
    readonly depth: number;
    /** From the nut face to the channel's near end (may be negative: starts in the headstock). */
    readonly from: number;
    readonly length: number;
  } | null;
  readonly bridge: {
    /** Between the centres of the outer strings at the saddle line. */
    readonly stringSpread: number;
    readonly saddle: SaddleTop;
    readonly pins: {
      /** Between the outer pin centres. */
      readonly spread: number;
      /** From the saddle line to the pin row, along the centreline. */
      readonly behindSaddle: number;
      /** `square`: row square to the centreline; `saddle`: row follows the saddle's slant. */
      readonly row: 'square' | 'saddle';
      /** Diameter of the straight hole drilled first. */
      readonly drill: number;
      /** Diameter the reamed hole has at the bridge's face. */
      readonly seat: number;
      /** Included angles, radians. */
      readonly reamerTaper: number;
      readonly pinTaper: number;
      /** Wood the hole goes through: bridge + top + plate. */
      readonly through: number;
    };
  };
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
  };
}

/** A sanding block of curved plates on dowels, carrying a thin sole and abrasive. */
export interface RadiusBlock {
  /** Of the sheet the plates are cut from. */
  readonly materialClass: MaterialClass;
  readonly length: number;
  readonly width: number;
  readonly height: number;
  /** Of the sheet the plates are cut from. */
  readonly plateThickness: number;
  readonly plates: number;
  readonly dowelDiameter: number;
  /** Sole plus abrasive between the plates' curve and the board. */
  readonly padding: number;
}

// ---------------------------------------------------------------- the shop

export type Plane = 'xy' | 'xz' | 'yz';
export type Interval = readonly [min: number, max: number];

/** What a machine's control understands; only what is stated here is ever written for it. */
export interface Controller {
  /** Planes in which arcs may be written; empty: none. */
  readonly arcPlanes: readonly Plane[];
  /** G81 and G83 understood. */
  readonly drillCycles: boolean;
  /** G61 understood. */
  readonly exactPath: boolean;
  readonly comments: boolean;
  readonly lineNumbers: boolean;
  /** Digits after the point, millimetres: 3 to 5. */
  readonly decimals: number;
  readonly programEnd: 'M2' | 'M30';
  /** Whether all axes of a rapid arrive together on a straight line. */
  readonly straightRapids: boolean;
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
  /** Height above the stock's top for travel. */
  readonly clearHeight: number;
  /** How deep a through cut may go into the board below. */
  readonly intoSpoilboard: number;
  readonly controller: Controller;
}

/** What the shop tested on its laser for one material and thickness. `power` is a share, 0 to 1. */
export interface BeamSetting {
  readonly materialClass: MaterialClass;
  readonly thickness: number;
  readonly kerf: number;
  readonly cut: { readonly power: number; readonly speed: number; readonly passes: number };
  readonly mark: { readonly power: number; readonly speed: number };
}

export interface Laser {
  readonly kind: 'laser';
  readonly id: string;
  readonly name: string;
  readonly bed: { readonly x: number; readonly y: number };
  readonly maxFeed: number;
  readonly rapid: number;
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

/** A clamp or fence, in the frame of the program's work zero. */
export interface KeepOut {
  readonly name: string;
  readonly part: string;
  readonly x: Interval;
  readonly y: Interval;
  readonly z: Interval;
}

/** A kind of work and who does it: a machine's id, or `hand`. */
export interface Work {
  readonly indexPins: string;
  readonly fretSlots: string;
  readonly faceMarkers: string;
  readonly boardOutline: string;
  readonly radiusBlock: string;
  readonly pinTemplate: string;
  readonly slotTemplate: string;
}

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
  readonly holding: { readonly tabLength: number; readonly tabHeight: number };
  readonly work: Work;
}
