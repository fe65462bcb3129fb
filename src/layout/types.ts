/**
 * Where everything is on the instrument. No wood, no tools, no files.
 *
 * In: an Instrument. Out: named points, lines and outlines. Guaranteed: finite, deterministic, and for a left-handed
 * instrument the exact mirror in y of the right-handed one.
 * Frame: origin where scale zero crosses the centreline on the board's crest; x toward the bridge, y toward the
 * treble side (bass side of a left-handed one), z up. Millimetres.
 */
import type { Form } from '../geometry/form.ts';
import type { Ring, Vec } from '../geometry/types.ts';

export interface FretSlot {
  /** `fret-slot-07`. */
  readonly id: string;
  readonly fret: number;
  /** Above the open string. */
  readonly cents: number;
  /** On the centreline, from scale zero. */
  readonly x: number;
  /** Bass end, treble end, on the board's finished edges. */
  readonly line: readonly [Vec, Vec];
}

export interface PlacedMarker {
  /** `face-marker-05`, `face-marker-12-bass`, `face-marker-12-treble`. */
  readonly id: string;
  readonly fret: number;
  readonly at: Vec;
  readonly form: Form;
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
  readonly diameter: number;
  readonly depth: number;
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
  /** On the nut face. */
  readonly nut: Vec;
  /** Where the saddle carries it: x = scale length + its set-back. */
  readonly saddle: Vec;
  readonly pin: Vec;
}

export interface Layout {
  readonly scaleLength: number;
  /** Nut face, x from scale zero. */
  readonly nutFace: number;
  readonly board: {
    readonly outline: Ring;
    /** x of the body end on the centreline. */
    readonly end: number;
    /** half width = at0 + slope * x, before end rounding. */
    readonly halfWidth: { readonly at0: number; readonly slope: number };
    readonly radius: number;
  };
  readonly slots: readonly FretSlot[];
  readonly faceMarkers: readonly PlacedMarker[];
  readonly sideMarkers: readonly PlacedSideMarker[];
  readonly indexPins: readonly IndexPin[];
  readonly strings: readonly StringLine[];
  /** Straight line through the outer strings' saddle points: bass, treble. */
  readonly saddleLine: readonly [Vec, Vec];
  /** Channel seen from above, or null. */
  readonly trussRod: Ring | null;
}
