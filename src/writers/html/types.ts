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
  readonly workZero: string;
  readonly minutes: number;
  readonly proof: {
    readonly passed: boolean;
    readonly maxOvercut: number;
    readonly maxUndercut: number;
    readonly tolerance: number;
  };
  readonly stock: { readonly x: Interval; readonly y: Interval; readonly z: Interval };
  readonly moves: PackedMoves;
  /** Edges the part is meant to have. */
  readonly outlines: readonly PreviewRing[];
  /** Lines meant to be marked, open. */
  readonly lines: readonly (readonly (readonly [number, number])[])[];
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
