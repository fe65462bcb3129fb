/**
 * Where everything is on the instrument. No wood, no tools, no files.
 *
 * In: an Instrument. Out: named points, lines and outlines. Guaranteed: finite, deterministic, and for a left-handed
 * instrument the exact mirror in y of the right-handed one.
 * Frame: origin where scale zero crosses the centreline on the board's crest; x toward the bridge, y toward the
 * treble side (bass side of a left-handed one), z up. Millimetres.
 */
import type { Shaft } from '../carving/types.ts';
import type { BoardSurface } from '../geometry/boardSurface.ts';
import type { Extent, Form } from '../geometry/form.ts';
import type { Region, Ring, Vec } from '../geometry/types.ts';
import type { BassEdge } from './bassEdge.ts';
import type { NeckLayout, RodCut } from './neckTypes.ts';

export type {
  HeadLayout,
  JointLayout,
  NeckLayout,
  RodCut,
  StringRun,
  TunerPost,
  VoluteLayout,
} from './neckTypes.ts';

/** `edge`: on the board's finished edge, so that a cutter may run out there; `stopped`: in the wood. */
export type SlotEnd = 'edge' | 'stopped';

export interface FretSlot {
  /** `fret-slot-07`; a piece of a fret `fret-slot-07-2`, the bass-most being 1; a half fret `fret-slot-06-plus`. */
  readonly id: string;
  /** Place among the instrument's frets, from 1; a zero fret is 0. */
  readonly fret: number;
  /** As the trade writes it: `7`, `6+`. */
  readonly label: string;
  /** Above the open string. */
  readonly cents: number;
  /** Where the line that carries it crosses the centreline, from scale zero. */
  readonly x: number;
  /** Bass end, treble end of the line that carries it, on the board's finished edges. */
  readonly carrier: readonly [Vec, Vec];
  /** Bass end, treble end of the slot itself: the carrier, or the part of it that is cut. */
  readonly line: readonly [Vec, Vec];
  /** Of the bass end and the treble end. */
  readonly ends: readonly [SlotEnd, SlotEnd];
  /** First and last string over it where it is a piece of a fret; null where it serves all. */
  readonly strings: readonly [first: number, last: number] | null;
}

/** What is cut of a slot: to the edge of the board's wood, or to where it stops in the wood. */
export interface SlotCut {
  /** Of the slot. */
  readonly id: string;
  readonly line: readonly [Vec, Vec];
  readonly ends: readonly [SlotEnd, SlotEnd];
  /** Wood behind an end that stops short of the edge, along the slot; null where an end runs out or stops elsewhere in the wood. */
  readonly walls: readonly [number | null, number | null];
}

export interface PlacedMarker {
  /** `face-marker-05`, `face-marker-12-bass`, `face-marker-12-treble`; `artwork-01`, or `artwork-01-2` of several figures. */
  readonly id: string;
  readonly fret: number;
  readonly at: Vec;
  readonly form: Form;
}

/** One figure of an artwork, scaled and turned: a pocket and the part that goes into it, both about the figure's middle. */
export interface ArtworkFigure {
  /** The figure's middle from that of the whole artwork. */
  readonly at: Vec;
  readonly pocket: Region;
  readonly part: Region;
  readonly box: Extent;
}

export interface PlacedSideMarker {
  /** `side-marker-05`, `side-marker-12-a`, `side-marker-12-b`. */
  readonly id: string;
  readonly fret: number;
  /** Along the board from scale zero. */
  readonly x: number;
  /** On the bass edge of the finished board. */
  readonly y: number;
  /** Centre, below the crest (negative). */
  readonly z: number;
  /** Along the bass edge, from its corner at the nut end. */
  readonly along: number;
  /** Centre above the board's underside. */
  readonly up: number;
  readonly diameter: number;
  readonly depth: number;
  /** Right through a binding strip that is drilled by itself. */
  readonly through: boolean;
}

export interface IndexPin {
  readonly id: string;
  readonly at: Vec;
  readonly diameter: number;
  /** `clear`, or what covers it: `fret-slot-02`, `face-marker-05`. */
  readonly under: string;
}

export interface StringLine {
  /** 1 is the bass-most position. */
  readonly position: number;
  readonly pitch: string;
  readonly gauge: number;
  /** Place of its course, from 1. */
  readonly course: number;
  /** On the nut face. */
  readonly nut: Vec;
  /** Where the saddle carries it: its set-back behind the end of its scale. */
  readonly saddle: Vec;
  /** Of its own scale, seen along the centreline: from where its line crosses scale zero to where it ends. */
  readonly scale: { readonly from: number; readonly length: number };
  /** x at which its line crosses each fret's slot, by place among the frets; where no slot reaches it, the fret's line. */
  readonly fretX: readonly number[];
  /** Behind the saddle: its pin or straight hole, where it enters the tie block, or where it leaves the tailpiece. */
  readonly pin: Vec;
}

/** Cut from the board's top outside of its wall, out to the board's edge. */
export interface BindingChannel {
  /** The wall, closed past the ends of the board that it runs out at. Counter-clockwise. */
  readonly ring: Ring;
  /** Of its level floor, below the crest. */
  readonly below: number;
}

/** What the nut stands in, between two lines from edge to edge of the finished board: bass end, treble end. */
export interface PlacedNutSeat {
  readonly kind: 'slot' | 'ledge';
  /** The nut line: the wall that the nut's face stands against. */
  readonly front: readonly [Vec, Vec];
  /** A slot's other wall; of a ledge the board's nut end. */
  readonly back: readonly [Vec, Vec];
  /** Of the flat floor, below the crest. */
  readonly depth: number;
}

/** The bridge as it lies on the top, seen from above. */
export interface PlacedBridge {
  readonly outline: Ring;
  /** Where each wing begins, from front to back: bass, treble. None where nothing is thinned. */
  readonly wings: readonly (readonly Vec[])[];
  /** Its own middle, front to back. */
  readonly centreline: readonly [Vec, Vec];
  /** Middle line of the saddle's slot, from end to end: bass, treble. */
  readonly slot: readonly [Vec, Vec];
  /** Under the saddle: bass, treble; or none. */
  readonly indexPins: readonly Vec[];
}

export interface Layout {
  /** Along the centreline. */
  readonly scaleLength: number;
  /** Nut face on the centreline, x from scale zero. */
  readonly nutFace: number;
  /** The nut face from edge to edge of the board: bass end, treble end. Square unless two scales slant it. */
  readonly nutLine: readonly [Vec, Vec];
  /** What the nut stands in; null where the board ends at the nut face. */
  readonly nutSeat: PlacedNutSeat | null;
  /** Scale zero, and where strings without set-back would meet their saddle, between the board's edges carried on. */
  readonly scaleLines: { readonly zero: readonly [Vec, Vec]; readonly full: readonly [Vec, Vec] };
  readonly board: {
    readonly outline: Ring;
    /** Its nut end, from edge to edge: bass end, treble end. The nut line, where the nut stands before the board. */
    readonly nutEnd: readonly [Vec, Vec];
    /** x of the body end on the centreline. */
    readonly end: number;
    /** half width = at0 + slope * x, before end rounding. */
    readonly halfWidth: { readonly at0: number; readonly slope: number };
    readonly surface: BoardSurface;
    /** Edge of the wood at the board's top: the outline less its binding. */
    readonly wood: Ring;
    /** Of the finished board, binding included. */
    readonly bassEdge: BassEdge;
    /** The channel that binding is let into; null where there is none, or where the wood is made narrower by it all the way down. */
    readonly channel: BindingChannel | null;
  };
  readonly slots: readonly FretSlot[];
  /** What is cut of each slot, in the same order. */
  readonly slotCuts: readonly SlotCut[];
  readonly faceMarkers: readonly PlacedMarker[];
  readonly sideMarkers: readonly PlacedSideMarker[];
  readonly indexPins: readonly IndexPin[];
  readonly strings: readonly StringLine[];
  /** Straight line through the outer strings' saddle points: bass, treble. */
  readonly saddleLine: readonly [Vec, Vec];
  /** Null when it is not made here. */
  readonly bridge: PlacedBridge | null;
  /** Channel seen from above, or null. */
  readonly trussRod: Ring | null;
  /** Pocket in the board's underside over the rod, seen from above, and its depth; null where there is none. */
  readonly rodClearance: { readonly ring: Ring; readonly depth: number } | null;
  /** The channel with the wider pockets at its ends. */
  readonly rodCuts: readonly RodCut[];
  /** Null where the profile says nothing of the neck's wood or its head. */
  readonly neck: NeckLayout | null;
  /** The back of the neck; null where it is shaped by eye. */
  readonly shaft: Shaft | null;
}
