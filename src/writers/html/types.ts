/**
 * What the pages for people are made from.
 *
 * In: plain data, converted by the caller from written programs read anew. Out: one HTML text each. Frame: program frame,
 * millimetres, mm/min; z = 0 on top of the stock.
 */

type Interval = readonly [min: number, max: number];

/** `[x, y]` or `[x, y, b]`: b = tan(a quarter of the arc's angle) to the next vertex, counter-clockwise positive. */
export type PreviewVertex = readonly [number, number] | readonly [number, number, number];
export type PreviewRing = readonly PreviewVertex[];

/** Moves packed as text by `recordMoves`; nothing else should build or read one. */
export interface PackedMoves {
  readonly count: number;
  /** Where the first move starts, micrometres. */
  readonly start: readonly [number, number, number];
  readonly packed: string;
}

/** z = crest + sqrt(R^2 - y^2) - R - below, about the line y = 0; R linear in x between the two stations. */
export interface PreviewCone {
  readonly kind: 'cone';
  readonly x: Interval;
  readonly R: readonly [number, number];
  readonly crest: number;
  readonly below: number;
}

export type PreviewSurface = { readonly kind: 'plane'; readonly z: number } | PreviewCone;

/** Top of the stock: also one that is flat but worked down to a cone between two stations. */
export type PreviewTop =
  | PreviewSurface
  | { readonly kind: 'worked'; readonly z: number; readonly x: Interval; readonly cone: PreviewCone }
  | { readonly kind: 'planed'; readonly z: number; readonly x: Interval; readonly floor: number };

/** The end that cuts: radii in mm, the least and the most it may really have. */
export interface PreviewEnd {
  readonly kind: 'flat' | 'ball' | 'vee' | 'drill' | 'beam';
  readonly least: number;
  readonly usual: number;
  readonly most: number;
  /** Included, degrees; null for an end without a point. */
  readonly tipAngle: number | null;
}

/** A figure of the proof with the place it was found at. */
export interface PreviewFigure {
  /** As the proof names it, as `wall overcut`. */
  readonly name: string;
  readonly passed: boolean;
  readonly value: number;
  readonly limit: number;
  readonly place: readonly [number, number, number] | null;
  /** Line of the program, or null. */
  readonly line: number | null;
}

/** One thing the program is meant to cut. */
export interface PreviewCut {
  readonly id: string;
  readonly kind: 'region' | 'drill' | 'separate' | 'surface' | 'line';
  /** What is removed, or, for `separate`, the ring that is kept: counter-clockwise keeps what it encloses. */
  readonly rings: readonly PreviewRing[];
  /** line: the marked line. */
  readonly line: readonly (readonly [number, number])[] | null;
  readonly floor: PreviewSurface;
  readonly through: boolean;
  /** May be cut besides, down to the same floor. */
  readonly allowed: readonly PreviewRing[];
  /** May be left, because the cutter's radius does not reach there. */
  readonly left: readonly PreviewRing[];
  readonly tabs: readonly {
    readonly at: readonly [number, number];
    readonly length: number;
    readonly height: number;
  }[];
  /** separate, by a beam: length of the way from where the beam comes on to the outline, mm; else 0. */
  readonly wayIn: number;
  readonly figures: readonly PreviewFigure[];
  /** First and last lines of each stretch of the program that works on it. */
  readonly runs: readonly (readonly [first: number, last: number])[];
}

/** What places on the part are told from: a point of the program frame, and the words for it. */
export interface PreviewDatum {
  readonly at: readonly [x: number, y: number];
  /** As `from the nut line` and `from the centreline`. */
  readonly words: readonly [x: string, y: string];
}

export interface PreviewProgram {
  /** File name, as `fingerboard-slots.nc`. */
  readonly path: string;
  readonly part: string;
  readonly operation: string;
  readonly machine: string;
  /** In words, as `0.6 mm end mill`. */
  readonly tool: string;
  /** Width of the cut: the cutter's diameter, or the beam's kerf. */
  readonly cutWidth: number;
  readonly cutBy: 'cutter' | 'beam';
  readonly end: PreviewEnd;
  /** How far below the stock's top it goes at most, mm. */
  readonly deepest: number;
  readonly cuts: readonly PreviewCut[];
  /** Figures of the proof that speak of no single cut. */
  readonly figures: readonly PreviewFigure[];
  /** Short cautions for this program. */
  readonly cautions: readonly string[];
  readonly datum: PreviewDatum;
  readonly workZero: string;
  readonly minutes: number;
  readonly proof: {
    readonly passed: boolean;
    readonly maxOvercut: number;
    readonly maxUndercut: number;
    readonly tolerance: number;
  };
  readonly stock: {
    readonly x: Interval;
    readonly y: Interval;
    readonly z: Interval;
    readonly rings: readonly PreviewRing[];
    readonly top: PreviewTop;
  };
  readonly moves: PackedMoves;
  /** Edges the finished part is meant to have, whichever program cuts them. */
  readonly outlines: readonly PreviewRing[];
  /** y of the part's centreline, where it has one. */
  readonly centrelineY: number | null;
  /** The written program. */
  readonly text: string;
}

export interface PreviewInput {
  readonly title: string;
  /** A paragraph or two for the head of the page; paragraphs are parted by an empty line. */
  readonly text: string;
  readonly cautions: readonly string[];
  /** In cutting order. */
  readonly programs: readonly PreviewProgram[];
}
