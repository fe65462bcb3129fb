/**
 * What a written drawing is held against, and the answer.
 *
 * In: DXF text and the plain list of what it was meant to show. Out: named checks. Everything here is bare numbers in
 * millimetres, angles in radians, counter-clockwise positive; nothing is shared with whoever wrote the drawing.
 */

export type Pair = readonly [x: number, y: number];

/** A corner and the bulge of the side that leaves it: tan(a quarter of its arc's angle), 0 for a straight side. */
export type Corner = readonly [x: number, y: number, bulge: number];

export type MeantShape =
  | { readonly kind: 'line'; readonly layer: string; readonly from: Pair; readonly to: Pair }
  | { readonly kind: 'circle'; readonly layer: string; readonly centre: Pair; readonly radius: number }
  /** `ring` returns to its first corner, `chain` ends at its last. */
  | { readonly kind: 'ring' | 'chain'; readonly layer: string; readonly vertices: readonly Corner[] }
  | { readonly kind: 'point'; readonly layer: string; readonly at: Pair }
  | {
      readonly kind: 'text';
      readonly layer: string;
      readonly at: Pair;
      readonly height: number;
      readonly angle: number;
      readonly text: string;
    };

/** A shape found in the file and the line its entity starts on. */
export type FoundShape = MeantShape & { readonly line: number };

export interface DrawingCheck {
  /** As `units`, `nothing missing`. */
  readonly name: string;
  readonly passed: boolean;
  /** Worst distance in millimetres for a check of places, else the number of faults. */
  readonly value: number;
  readonly limit: number;
  /** How many things the check looked at; a check that saw nothing fails. */
  readonly seen: number;
  /** Of the worst fault: line of the file, or 0. */
  readonly line: number;
  readonly place: Pair | null;
  /** What was found, in a sentence; empty when passed. */
  readonly text: string;
}

export interface DrawingProof {
  readonly passed: boolean;
  readonly checks: readonly DrawingCheck[];
}

/** Something wrong with the file. */
export interface Fault {
  readonly line: number;
  readonly text: string;
  readonly place?: Pair;
}
