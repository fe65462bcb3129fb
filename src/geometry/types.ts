/**
 * Plain plane geometry. Lengths are millimetres, angles radians, y up, counter-clockwise positive.
 *
 * A ring keeps its arcs: every vertex carries the bulge of the side that leaves it,
 * `bulge = tan(sweep / 4)`, 0 for a straight side, positive for a counter-clockwise arc.
 */

export type Vec = readonly [x: number, y: number];

export interface Vertex {
  readonly x: number;
  readonly y: number;
  /** tan(a quarter of the arc's angle) to the next vertex; 0 is straight. */
  readonly bulge: number;
}

/** A closed chain of vertices; the last side returns to the first vertex. */
export type Ring = readonly Vertex[];

/** A plane figure: outer ring counter-clockwise, holes clockwise. */
export interface Region {
  readonly outer: Ring;
  readonly holes: readonly Ring[];
}

/** One side of a ring or chain. */
export type Segment =
  | { readonly kind: 'line'; readonly from: Vec; readonly to: Vec }
  | {
      readonly kind: 'arc';
      readonly from: Vec;
      readonly to: Vec;
      readonly centre: Vec;
      readonly radius: number;
      /** Signed, counter-clockwise positive, never 0. */
      readonly sweep: number;
    };

export interface Box {
  readonly x: readonly [min: number, max: number];
  readonly y: readonly [min: number, max: number];
}
