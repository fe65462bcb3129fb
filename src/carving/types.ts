/**
 * The back of the neck's shaft: its section at any place, and what a hand or a machine carves it by.
 *
 * In: stations of a profile and the board's width. Out: sections, facets, gauges, as numbers. Frame of a section: y across, zero
 * on the centreline; z up, zero at the underside of the board, so the wood lies at negative z. Millimetres, radians.
 */

/**
 * Half a section as one cubic curve: from the side at the board's underside, where it runs straight down, to the middle of the back,
 * where it runs level. `shoulder` is how far down the side it keeps on, as a share of the depth; `back` how far out from the
 * middle it stays flat, as a share of the half width. 0.5523 for both is an ellipse.
 */
export interface Section {
  readonly halfWidth: number;
  /** From the board's underside to the middle of the back. */
  readonly depth: number;
  readonly shoulder: number;
  readonly back: number;
}

/** A section at a place along the neck, from scale zero. */
export interface Station extends Section {
  readonly x: number;
}

/** A line that touches a section from outside: its outward direction, and what it cuts off the square blank. */
export interface Facet {
  /** Of the outward normal: 0 to the side, a quarter turn to the back. */
  readonly angle: number;
  /** Distance of the line from the section's origin, along the normal. */
  readonly reach: number;
  /** Where it touches: y (of the treble half), z. */
  readonly touches: readonly [y: number, z: number];
}

/** Where facets meet the blank's side and back and one another, at one place along the neck. Both halves are alike. */
export interface FacetEdges {
  readonly x: number;
  readonly halfWidth: number;
  readonly depth: number;
  /** First stage: on the side, below the board's underside; on the back, from the centreline. */
  readonly first: { readonly onSide: number; readonly onBack: number };
  /**
   * Second stage: on the side and on the back as before, and on the first facet, from its edge on the side and from its edge
   * on the back.
   */
  readonly second: {
    readonly onSide: number;
    readonly fromSideEdge: number;
    readonly fromBackEdge: number;
    readonly onBack: number;
  };
}

/** A station that the profile names: the gauge for it carries its fret. */
export interface ShaftStation extends Station {
  readonly label: string;
  /** How far a measured point lies off at most; null where nothing was measured. */
  readonly fitted: number | null;
}

/** The back of the neck along its shaft, from the head's foot to the heel. */
export interface Shaft {
  readonly x: readonly [from: number, to: number];
  /** In order along the neck; at least one. */
  readonly stations: readonly ShaftStation[];
  /** Half the board's width at x is at0 + slope x. */
  readonly halfWidth: { readonly at0: number; readonly slope: number };
}
