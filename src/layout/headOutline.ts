import type { Ring, Vec, Vertex } from '../geometry/types.ts';
import type { HeadShape } from '../profile/types.ts';

/** What a head's outline starts from: the back of the nut and half the neck's width there. */
export interface HeadRoot {
  readonly breakX: number;
  readonly half: number;
}

/**
 * The outline of a head from its sizes, counter-clockwise from the treble end of the break to its bass end: each cheek swings out in
 * two equal arcs that meet the neck and the side without a corner, the sides are straight, the tip is one arc. Null where its sizes
 * leave no room for it.
 */
export function headOutline(given: HeadShape, root: HeadRoot): Ring | null {
  const tip = Math.abs(given.tip) < STRAIGHT_TIP ? 0 : given.tip;
  const shape = { ...given, tip };
  const side = trebleSide(shape, root);
  if (side === null) return null;
  const atTip = { ...last(side), bulge: tipBulge(shape, last(side)) };
  const treble = [...side.slice(0, -1), atTip];
  return [...treble, ...mirrored(side)];
}

/** A tip that rises by less is straight. Millimetres. */
const STRAIGHT_TIP = 0.01;

/** The treble side from the break to where the tip's arc begins; the bulge of its last vertex is left open. */
function trebleSide(shape: HeadShape, root: HeadRoot): Vertex[] | null {
  const { length, shoulder, widthAtShoulder, widthAtTip, tip, corner } = shape;
  const h2 = widthAtTip / 2;
  const from: Vec = [root.breakX - shoulder, widthAtShoulder / 2];
  const to: Vec = [root.breakX - (length - tip), h2];
  if (!(from[0] - to[0] > 0) || Math.abs(tip) >= h2) return null;
  const cheek = cheekOf(from, to, root);
  if (cheek === null) return null;
  if (corner === 0) return [...cheek, vertex(from), vertex(to)];
  const round = cornerAt(from, to, { r: corner, tip, end: root.breakX - length });
  return round === null ? null : [...cheek, vertex(from), ...round];
}

/**
 * Two arcs of one radius R from the neck to a side: out by the angle a, back to the side's own slope d. With S along and h outward,
 * R (2 sin a - sin d) = S and R (1 + cos d - 2 cos a) = h, so 2 h sin a + 2 S cos a = S (1 + cos d) + h sin d. Null where the cheek
 * would turn square to the neck.
 */
function cheekOf(from: Vec, to: Vec, { breakX, half }: HeadRoot): Vertex[] | null {
  const sense = from[1] < half ? -1 : 1;
  const [along, out] = [breakX - from[0], sense * (from[1] - half)];
  const slope = sense * Math.atan2(to[1] - from[1], from[0] - to[0]);
  // With k and m the cosine and sine of d / 2: sin(a + b) = k (S k + h m) / M, its cosine without a difference of near numbers.
  const [k, m] = [Math.cos(slope / 2), Math.sin(slope / 2)];
  const up = k * (along * k + out * m);
  const level = Math.hypot(Math.hypot(along, out) * m, k * (along * m - out * k));
  const turn = Math.PI - Math.atan2(up, level) - Math.atan2(along, out);
  const radius = along / (2 * Math.sin(turn) - Math.sin(slope));
  if (!(turn < MOST_TURN && radius * (turn - slope) > SHORTEST_ARC))
    return straightCheek(out, slope, { breakX, half });
  return [
    { x: breakX, y: half, bulge: -sense * Math.tan(turn / 4) },
    {
      x: breakX - radius * Math.sin(turn),
      y: half + sense * radius * (1 - Math.cos(turn)),
      bulge: sense * Math.tan((turn - slope) / 4),
    },
  ];
}

/** The second arc of a cheek is none where the side splays as far as the first goes out. Millimetres. */
const SHORTEST_ARC = 0.1;

/** A cheek that turns farther is more of a step than a curve. Radians. */
const MOST_TURN = (80 * Math.PI) / 180;

/** A head that goes on as straight as the neck has no cheeks. */
function straightCheek(out: number, slope: number, { breakX, half }: HeadRoot): Vertex[] | null {
  return Math.abs(out) < 1e-9 && Math.abs(slope) < 1e-9 ? [{ x: breakX, y: half, bulge: 0 }] : null;
}

interface TipCorner {
  readonly r: number;
  /** How far the arc's middle stands beyond its corners. */
  readonly tip: number;
  /** x of the arc's middle. */
  readonly end: number;
}

/**
 * The arc that rounds the corner between a side and the tip: its centre lies r inside the side, and r from the tip's line or arc.
 * Null where it does not fit between the ends of the side and the centreline.
 */
function cornerAt(from: Vec, to: Vec, { r, tip, end }: TipCorner): Vertex[] | null {
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const u: Vec = [(to[0] - from[0]) / long, (to[1] - from[1]) / long];
  // Inward: a quarter turn counter-clockwise of the way along the treble side toward the tip.
  const base: Vec = [from[0] - u[1] * r, from[1] + u[0] * r];
  const t = tip === 0 ? (end + r - base[0]) / u[0] : meetArc(base, u, tipArc(to[1], tip, end), r);
  if (t === null || !(t > 0 && t < long)) return null;
  const centre: Vec = [base[0] + u[0] * t, base[1] + u[1] * t];
  const onSide: Vec = [from[0] + u[0] * t, from[1] + u[1] * t];
  const onTip = tip === 0 ? ([end, centre[1]] as const) : footOnArc(centre, tipArc(to[1], tip, end));
  if (!(onTip[1] > 0)) return null;
  return [{ ...vertex(onSide), bulge: Math.tan(sweepBetween(onSide, onTip, centre) / 4) }, vertex(onTip)];
}

/** Centre on the centreline and radius of the arc through both tip corners; the sign of `tip` says which way it stands. */
interface TipArc {
  readonly centre: number;
  readonly radius: number;
  readonly hollow: boolean;
}

function tipArc(half: number, tip: number, end: number): TipArc {
  const radius = (half * half + tip * tip) / (2 * Math.abs(tip));
  return { centre: tip > 0 ? end + radius : end - radius, radius, hollow: tip < 0 };
}

/** Way along a line at which it is r inside a round tip, or r off a hollow one. */
function meetArc(base: Vec, u: Vec, { centre, radius, hollow }: TipArc, r: number): number | null {
  const reach = hollow ? radius + r : radius - r;
  const [dx, dy] = [base[0] - centre, base[1]];
  const b = dx * u[0] + dy * u[1];
  const root = b * b - (dx * dx + dy * dy - reach * reach);
  if (!(root >= 0 && reach > 0)) return null;
  return hollow ? -b - Math.sqrt(root) : -b + Math.sqrt(root);
}

function footOnArc([x, y]: Vec, { centre, radius }: TipArc): Vec {
  const away = Math.hypot(x - centre, y);
  return [centre + ((x - centre) * radius) / away, (y * radius) / away];
}

function sweepBetween(a: Vec, b: Vec, centre: Vec): number {
  const turn =
    Math.atan2(b[1] - centre[1], b[0] - centre[0]) - Math.atan2(a[1] - centre[1], a[0] - centre[0]);
  return turn < 0 ? turn + 2 * Math.PI : turn;
}

/** Of the arc from a point of the tip to its mirror image: tan of a quarter of its sweep. */
function tipBulge({ tip, widthAtTip, length }: HeadShape, { y }: Vertex): number {
  if (tip === 0) return 0;
  const { radius } = tipArc(widthAtTip / 2, tip, -length);
  return Math.sign(tip) * Math.tan(Math.asin(y / radius) / 2);
}

/** The bass side, from the tip back to the break. */
function mirrored(side: readonly Vertex[]): Vertex[] {
  return side.toReversed().map((v, i, all) => ({ x: v.x, y: -v.y, bulge: all[i + 1]?.bulge ?? 0 }));
}

function vertex([x, y]: Vec): Vertex {
  return { x, y, bulge: 0 };
}

function last(side: readonly Vertex[]): Vertex {
  const end = side.at(-1);
  if (end === undefined) throw new Error('a side without an end');
  return end;
}
