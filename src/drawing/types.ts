/**
 * Drawings, format-free: layers of paths and texts at 1:1.
 *
 * In: layouts and parts. Out: sheets. Frame: the part's own, millimetres, y up. Layers carry meaning by name only.
 */
import type { Ring, Vec, Vertex } from '../geometry/types.ts';

export type Shape =
  | { readonly kind: 'line'; readonly from: Vec; readonly to: Vec }
  | { readonly kind: 'circle'; readonly centre: Vec; readonly radius: number }
  | { readonly kind: 'ring'; readonly ring: Ring }
  | { readonly kind: 'chain'; readonly vertices: readonly Vertex[] }
  | { readonly kind: 'point'; readonly at: Vec }
  | {
      readonly kind: 'text';
      readonly at: Vec;
      readonly height: number;
      readonly angle: number;
      readonly text: string;
    };

export interface Layer {
  /** Upper-case words joined by underscores: `BOARD_OUTLINE`, `FRET_SLOTS`. */
  readonly name: string;
  readonly shapes: readonly Shape[];
}

export interface Drawing {
  /** File stem, as `fingerboard`. */
  readonly id: string;
  readonly title: string;
  readonly part: string;
  /** What the lines are: finished edges (no allowance) or already corrected for the kerf; written into the file. */
  readonly kerf: 'finished edges' | 'corrected for kerf';
  readonly layers: readonly Layer[];
}
