/**
 * Where the slots of two scales run.
 *
 * The bass scale lies along one reference line and the treble scale along the other; both lines are straight and lie
 * evenly beside the centreline. Points at the same share of both are joined: that line crosses the centreline at the same share of
 * the mean length. Frame: x from scale zero on the centreline toward the bridge, y toward the treble side, millimetres.
 */

export interface SlantedScale {
  /** Along the centreline. */
  readonly length: number;
  /** null: all slots are square. */
  readonly slant: {
    /** Bass scale less treble scale, both seen along the centreline. */
    readonly difference: number;
    /** Share of the scale at which a slot is square. */
    readonly squareShare: number;
    /** Half the distance between the reference lines at both ends of the scale. */
    readonly half: { readonly nut: number; readonly saddle: number };
  } | null;
}

/** x = at + lean y: the line that carries a slot. */
export interface SlotCarrier {
  readonly at: number;
  readonly lean: number;
}

/** The line across the board at a share of the scale: 0 is scale zero, 1 the end of the scale. */
export function carrierAt({ length, slant }: SlantedScale, share: number): SlotCarrier {
  return { at: length * share, lean: slant === null ? 0 : leanAt(slant, share) };
}

/** The treble point lies (squareShare - share) of the difference beyond the bass point, across twice the half distance. */
function leanAt(
  { difference, squareShare, half }: NonNullable<SlantedScale['slant']>,
  share: number,
): number {
  const apart = 2 * (half.nut + (half.saddle - half.nut) * share);
  return (difference * (squareShare - share)) / apart;
}

export const onCarrier = ({ at, lean }: SlotCarrier, y: number): number => at + lean * y;

/** Parts of a scale seen along the centreline: it lies along a line that moves outward by `outward` from end to end. */
export const alongCentreline = (length: number, outward: number): number =>
  Math.sqrt(length * length - outward * outward);

/** Point at which the line meets a straight edge |y| = at0 + slope x of the board, on the side of negative or positive y. */
export function meetEdge(
  { at, lean }: SlotCarrier,
  edge: { readonly at0: number; readonly slope: number },
  side: -1 | 1,
): readonly [x: number, y: number] {
  const x = (at + side * lean * edge.at0) / (1 - side * lean * edge.slope);
  return [x, side * (edge.at0 + edge.slope * x)];
}

/** Point at which the line meets the straight line through two points. */
export function meetLine(
  { at, lean }: SlotCarrier,
  [from, to]: readonly [readonly [number, number], readonly [number, number]],
): readonly [x: number, y: number] {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const y = from[1] + (dy * (at + lean * from[1] - from[0])) / (dx - lean * dy);
  return [at + lean * y, y];
}

/**
 * How far in along a line across the board a strip reaches that lies along an edge, `width` wide square to the edge. This is how wood
 * at the end of a slot is measured everywhere: along the slot.
 */
export function stripAlong(
  line: SlotCarrier,
  edge: { readonly at0: number; readonly slope: number },
  width: number,
  side: -1 | 1,
): number {
  const inner = { ...edge, at0: edge.at0 - width * Math.hypot(1, edge.slope) };
  const [a, b] = [meetEdge(line, edge, side), meetEdge(line, inner, side)];
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}
