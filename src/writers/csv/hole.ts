/** One hole to drill, millimetres; y as in the layout. */
export interface Hole {
  readonly id: string;
  readonly what: string;
  /** The face it is drilled from. */
  readonly from: string;
  readonly x: number;
  readonly y: number;
  /** Of a hole in an edge: its centre below the top of the blank. */
  readonly below: number | null;
  /** Of a hole in an edge: along that from its corner at the nut end, and up from the underside. */
  readonly onEdge?: readonly [along: number, up: number];
  /** Null of a pocket that is not round. */
  readonly diameter: number | null;
  readonly depth: number;
  readonly through: boolean;
  /** Of a marker that is not round: its size along the board and across it, and the radius of its pocket's corners, if any. */
  readonly marker?: readonly [along: number, across: number, corner: number | null];
}
