/**
 * The bench sheet: every location a person measures by hand, each with its datum.
 *
 * In: a layout and its instrument. Out: numbers in full doubles, millimetres; `y` is that of the layout (toward the
 * treble side of a right-handed instrument, toward the bass side of a left-handed one). Rounding belongs to the text.
 */
import type { FacetEdges } from '../carving/types.ts';
import type { Form } from '../geometry/form.ts';
import type { Vec } from '../geometry/types.ts';
import type { Anchor, Family, Hand, LengthUnit, ScaleAlong } from '../profile/types.ts';
import type { WirePlan } from '../wire/types.ts';

export interface SheetFret {
  /** Its name as a number: 6.5 for the half fret `6+`, 0 for a zero fret. */
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
  /** Where slots slant: along the bass edge and the treble edge, from the corners at the nut face. */
  readonly alongEdges?: readonly [bass: number, treble: number];
  /** First and last string over a slot that does not serve all. */
  readonly strings?: readonly [first: number, last: number];
}

export interface SheetMarker {
  readonly fret: number;
  readonly at: Vec;
  readonly shape: Form['shape'];
  /** Diameter; side of a square; length along the board of any other. */
  readonly size: number;
  /** Width across the board of what is neither round nor square. */
  readonly across?: number;
  /** Diameter of the wood that a ring leaves in its middle. */
  readonly inner?: number;
}

/** What becomes of a marker's thickness, at its place nearest to the centreline and at that farthest from it. */
export interface MarkerLoss {
  readonly fret: number;
  readonly shape: SheetMarker['shape'];
  /** Distances of the two places from the centreline. */
  readonly from: readonly [near: number, far: number];
  /** Left once the board has its radius and the marker is level with it. */
  readonly left: readonly [near: number, far: number];
  /** Lost there by a marker that was set flush with the flat blank before the board was radiused. */
  readonly lostIfFlush: readonly [near: number, far: number];
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
  /** Along the bass edge, from its corner at the nut end. */
  readonly alongEdge: number;
  /** Centre above the board's underside. */
  readonly aboveUnderside: number;
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

/** A slot across the board or a ledge at its end, seen square to the nut face. */
export interface SheetNutSeat {
  readonly kind: 'slot' | 'ledge';
  readonly length: number;
  /** Of its flat floor below the crest. */
  readonly depth: number;
  /** From the nut face back to the board's nut end, along the centreline. */
  readonly toBoardEnd: number;
}

/** The playing surface, and what is cut of its slots and edges. */
export interface SheetBoard {
  readonly surface: 'flat' | 'cylinder' | 'cone' | 'matched cone';
  /** Radii at the nut face and at the body end; null for a flat board. */
  readonly radii: readonly [nut: number, end: number] | null;
  /**
   * For each string: by how much the surface under it leaves a straight line from nut face to body end; of greatest size, positive
   * where the board stands higher.
   */
  readonly offStrings: readonly number[];
  readonly slotFloor: 'follows' | 'flat';
  /** Deepest a slot lies below the surface, at the crest; the slot depth itself where floors follow. */
  readonly deepestSlot: number;
  /** Along the slot, from the finished edge; 0: slots run out. */
  readonly slotsStopShort: number;
  /** What the nut stands in; null where the board ends at the nut face. */
  readonly nutSeat: SheetNutSeat | null;
  /** Strips glued to the edges of the wood; null for none. */
  readonly binding: {
    readonly width: number;
    readonly around: 'sides' | 'sides and end';
    /** Of the channel it is let into, below the finished edge; null: it is as high as the board. */
    readonly channelDepth: number | null;
    /** Of the wood, at the nut face and at the body end, measured on the centreline. */
    readonly wood: readonly [nut: number, end: number];
  } | null;
}

/** How the back of the neck is carved by hand. */
export interface SheetCarving {
  readonly places: readonly {
    /** `fret 5`, or an end of the shaft. */
    readonly what: string;
    readonly fromNutFace: number;
    readonly edges: FacetEdges;
  }[];
  /** Where a gauge fits. */
  readonly gauges: readonly {
    readonly label: string;
    readonly fromNutFace: number;
    /** Of the neck below the board. */
    readonly depth: number;
    /** How far a measured point lies off at most; null where nothing was measured. */
    readonly fitted: number | null;
  }[];
}

export interface SheetChecks {
  /** The slot an octave above the open string, where the board has one. */
  readonly octave: {
    readonly fret: number;
    readonly fromScaleZero: number;
    readonly halfScale: number;
  } | null;
  readonly sum: { readonly ofDifferences: number; readonly lastSlot: number };
  /** Of each difference to the one before it: least, most, and what it must be; null where steps are not equal. */
  readonly ratio: { readonly least: number; readonly most: number; readonly expected: number } | null;
}

export interface Sheet {
  readonly instrument: string;
  readonly family: Family;
  readonly hand: Hand;
  /** The unit that stands first in the text; the numbers here are millimetres always. */
  readonly units: LengthUnit;
  /** Along the centreline. */
  readonly scaleLength: number;
  /** What was stated and what it lies along; of two scales, what else makes the slots slant. */
  readonly scale: {
    readonly along: ScaleAlong;
    readonly bass: number;
    readonly treble: number;
    /** Half the distance between the reference lines at both ends of the scale, where there are any. */
    readonly lines: { readonly nut: number; readonly saddle: number } | null;
    /** Where a slot is square, of two scales; null for one. */
    readonly squareAt: string | null;
  };
  readonly division: { readonly words: string; readonly source: string | null };
  /** Equal steps to the octave; null for any other division. */
  readonly perOctave: number | null;
  readonly zeroFret: boolean;
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
  /** Radius of the corners of pockets that have corners, and so of their markers; null when all are round. */
  readonly markerCorners: number | null;
  /** For the text alone; one for each marker. */
  readonly markerLosses: readonly MarkerLoss[];
  readonly sideMarkers: readonly SheetSideMarker[];
  /** Round holes from above: index pins through the board, string holes through bridge and plate. */
  readonly holes: readonly SheetHole[];
  readonly pins: readonly SheetPin[];
  /** Of each string's saddle point, in the order of `pins`: how far behind the straight saddle it lies, along the centreline. */
  readonly offSaddle: readonly number[];
  /** Null where nothing is reamed. */
  readonly reaming: Reaming | null;
  /** What holds the strings behind the saddle. */
  readonly anchor: Anchor;
  /** A piece of fret wire for each slot, in the order in which frets go in. */
  readonly wire: WirePlan;
  readonly board: SheetBoard;
  /** Null where the back of the neck is shaped by eye. */
  readonly carving: SheetCarving | null;
  readonly checks: SheetChecks;
}

/** A thing to buy or to have ready that no saw makes. */
export interface BuyRow {
  readonly what: string;
  readonly amount: string;
  readonly note: string;
}
