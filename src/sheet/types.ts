/**
 * The bench sheet: every location a person measures by hand, each with its datum.
 *
 * In: a layout and its instrument. Out: numbers in full doubles, millimetres; `y` is that of the layout (toward the
 * treble side of a right-handed instrument, toward the bass side of a left-handed one). Rounding belongs to the text.
 */
import type { Vec } from '../geometry/types.ts';
import type { Family, Hand, LengthUnit } from '../profile/types.ts';

export interface SheetFret {
  readonly n: number;
  readonly cents: number;
  readonly fromScaleZero: number;
  readonly fromNutFace: number;
  /** From the slot before; of the first slot, from scale zero. */
  readonly fromPrevious: number;
  /** Bass end, treble end, on the board's finished edges. */
  readonly line: readonly [Vec, Vec];
  /** The slot's two walls on the centreline, from scale zero. */
  readonly edges: readonly [number, number];
}

export interface SheetMarker {
  readonly fret: number;
  readonly at: Vec;
  readonly shape: 'round';
  /** Diameter. */
  readonly size: number;
}

export interface SheetHole {
  readonly id: string;
  readonly at: Vec;
  readonly diameter: number;
  readonly depth: number;
}

export interface SheetSideMarker {
  readonly id: string;
  readonly fret: number;
  readonly fromScaleZero: number;
  readonly fromNutFace: number;
  /** Centre below the finished edge of the board's surface. */
  readonly below: number;
  readonly diameter: number;
  readonly depth: number;
}

export interface SheetPin {
  /** String position, 1 is the bass-most. */
  readonly position: number;
  readonly pitch: string;
  readonly gauge: number;
  /** How far behind the scale length the saddle carries this string. */
  readonly setBack: number;
  readonly saddleFromNutFace: number;
  readonly fromScaleZero: number;
  readonly fromNutFace: number;
  readonly fromCentreline: number;
  readonly side: 'bass' | 'treble' | 'middle';
}

/** Numbers for reaming a pin hole. Angles are included angles, radians. */
export interface Reaming {
  readonly drill: number;
  readonly seat: number;
  readonly reamerTaper: number;
  readonly pinTaper: number;
  readonly through: number;
  /** How far the reamer goes on after it first touches the drilled hole all round: (D - d) / (2 tan(a/2)). */
  readonly advance: number;
  /** The largest drill that leaves a cone all through: D - 2 t tan(a/2). */
  readonly largestDrillForFullCone: number;
  readonly coneAllThrough: boolean;
}

export interface SheetChecks {
  /** The slot an octave above the open string, where the board has one. */
  readonly octave: {
    readonly fret: number;
    readonly fromScaleZero: number;
    readonly halfScale: number;
  } | null;
  readonly sum: { readonly ofDifferences: number; readonly lastSlot: number };
  /** Of each difference to the one before it: least, most, and what it must be. */
  readonly ratio: { readonly least: number; readonly most: number; readonly expected: number };
}

export interface Sheet {
  readonly instrument: string;
  readonly family: Family;
  readonly hand: Hand;
  /** The unit that stands first in the text; the numbers here are millimetres always. */
  readonly units: LengthUnit;
  readonly scaleLength: number;
  readonly perOctave: number;
  /** x of the nut face, from scale zero. */
  readonly nutFace: number;
  readonly slotWidth: number;
  readonly slotDepth: number;
  /** What each number is measured from, in words. */
  readonly datum: {
    readonly fromScaleZero: string;
    readonly fromNutFace: string;
    readonly fromPrevious: string;
    readonly fromCentreline: string;
  };
  readonly frets: readonly SheetFret[];
  readonly markers: readonly SheetMarker[];
  readonly sideMarkers: readonly SheetSideMarker[];
  /** Round holes from above: index pins through the board, bridge pins through bridge and plate. */
  readonly holes: readonly SheetHole[];
  readonly pins: readonly SheetPin[];
  /** Of each string's saddle point, in the order of `pins`: how far behind the straight saddle it lies, along the centreline. */
  readonly offSaddle: readonly number[];
  readonly reaming: Reaming;
  readonly checks: SheetChecks;
}

/** A thing to buy or to have ready that no saw makes. */
export interface BuyRow {
  readonly what: string;
  readonly amount: string;
  readonly note: string;
}
