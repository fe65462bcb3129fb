/**
 * The space that a tool's end sweeps along one straight piece of path, seen from above: over each point of the plan the
 * lowest height that any part of the end reaches.
 *
 * Flat, ball and vee ends with all that is above them are convex, and so is what they sweep along a straight line: the lowest
 * height is a convex function of the point, and so greatest over a patch at one of its corners. Millimetres.
 */
import { type Piece, planLength } from '../removal/piece.ts';

/** The end of a tool. `cotangent`: of half the included angle of a vee, the height it gains for each mm sideways. */
export type End =
  | { readonly kind: 'flat'; readonly radius: number }
  | { readonly kind: 'ball'; readonly radius: number }
  | { readonly kind: 'vee'; readonly radius: number; readonly cotangent: number };

export interface Stroke {
  readonly minX: number;
  readonly maxX: number;
  readonly minY: number;
  readonly maxY: number;
  /** Of the tool. */
  readonly radius: number;
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  /** Level and along x: the height then depends on y alone between the two ends. */
  readonly isLong: boolean;
  /** Lowest height over a point; infinite where the end never comes. */
  readonly over: (x: number, y: number) => number;
}

/** What an end sweeps along a straight piece. Throws on an arc: see `straightParts`. */
export function strokeOf(end: End, piece: Piece): Stroke {
  if (piece.arc || piece.upright) throw new Error('a stroke runs straight');
  const { x0, y0, z0, x1, y1, z1 } = piece;
  return {
    minX: Math.min(x0, x1) - end.radius,
    maxX: Math.max(x0, x1) + end.radius,
    minY: Math.min(y0, y1) - end.radius,
    maxY: Math.max(y0, y1) + end.radius,
    radius: end.radius,
    x0,
    y0,
    x1,
    y1,
    isLong: y0 === y1 && z0 === z1 && x0 !== x1,
    over: overOf(end, piece),
  };
}

/** A way shorter than this in plan goes straight up or down. Millimetres. */
const UPRIGHT = 1e-9;

function overOf(end: End, piece: Piece): Stroke['over'] {
  if (planLength(piece) < UPRIGHT) return standing(end, piece.x0, piece.y0, Math.min(piece.z0, piece.z1));
  switch (end.kind) {
    case 'ball':
      return ballOver(end.radius, piece);
    case 'flat':
      return flatOver(end.radius, piece);
    case 'vee':
      return veeOver(end.radius, end.cotangent, piece);
  }
}

/** The end at one place, its tip at height `z`. */
function standing(end: End, cx: number, cy: number, z: number): Stroke['over'] {
  const square = end.radius * end.radius;
  return (x, y) => {
    const away = (x - cx) * (x - cx) + (y - cy) * (y - cy);
    if (!(away <= square)) return Number.POSITIVE_INFINITY;
    if (end.kind === 'flat') return z;
    return end.kind === 'ball'
      ? z + end.radius - Math.sqrt(square - away)
      : z + Math.sqrt(away) * end.cotangent;
  };
}

/**
 * A ball sweeps a round bar with round ends. With u the bar's direction, p = (Q - A).u in plan and q = |Q - A|^2 in plan, the
 * bar's lower side over Q is the lesser root w of w^2 (1 - uz^2) - 2 p uz w + q - p^2 - r^2 = 0; beyond the bar's ends it
 * is the ball there.
 */
function ballOver(r: number, piece: Piece): Stroke['over'] {
  const { x0, y0, x1, y1 } = piece;
  const length = Math.hypot(x1 - x0, y1 - y0, piece.z1 - piece.z0);
  const [ux, uy, uz] = [(x1 - x0) / length, (y1 - y0) / length, (piece.z1 - piece.z0) / length];
  const k = ux * ux + uy * uy;
  const square = r * r;
  const [centre0, centre1] = [piece.z0 + r, piece.z1 + r];
  return (x, y) => {
    const [dx, dy] = [x - x0, y - y0];
    const p = dx * ux + dy * uy;
    const q = dx * dx + dy * dy;
    const product = q - p * p - square;
    const half = p * uz;
    const root = half * half - k * product;
    if (!(root >= 0)) return Number.POSITIVE_INFINITY;
    // Of the two forms of the lesser root the one that does not lose digits.
    const w = half > 0 ? product / (half + Math.sqrt(root)) : (half - Math.sqrt(root)) / k;
    const along = p + w * uz;
    if (along >= 0 && along <= length) return centre0 + w;
    const away = along < 0 ? q : (x - x1) * (x - x1) + (y - y1) * (y - y1);
    if (!(away <= square)) return Number.POSITIVE_INFINITY;
    return (along < 0 ? centre0 : centre1) - Math.sqrt(square - away);
  };
}

/** A flat end is lowest over a point at one end of the stretch in which its disc covers the point. */
function flatOver(r: number, piece: Piece): Stroke['over'] {
  const { x0, y0, z0 } = piece;
  const length = planLength(piece);
  const [ux, uy] = [(piece.x1 - x0) / length, (piece.y1 - y0) / length];
  const slope = (piece.z1 - z0) / length;
  const square = r * r;
  return (x, y) => {
    const [dx, dy] = [x - x0, y - y0];
    const p = dx * ux + dy * uy;
    const off = dx * uy - dy * ux;
    const left = square - off * off;
    if (!(left >= 0)) return Number.POSITIVE_INFINITY;
    const half = Math.sqrt(left);
    const from = Math.max(0, p - half);
    const to = Math.min(length, p + half);
    if (from > to) return Number.POSITIVE_INFINITY;
    return z0 + slope * (slope > 0 ? from : to);
  };
}

/**
 * A cone of cotangent c along a line of slope m: the height over a point at a distance d from the line is least where the
 * tip is d m / sqrt(c^2 - m^2) before the foot, or at an end.
 */
function veeOver(r: number, cotangent: number, piece: Piece): Stroke['over'] {
  const { x0, y0, z0 } = piece;
  const length = planLength(piece);
  const [ux, uy] = [(piece.x1 - x0) / length, (piece.y1 - y0) / length];
  const slope = (piece.z1 - z0) / length;
  const steep = Math.abs(slope) >= cotangent;
  const lead = steep ? 0 : slope / Math.sqrt(cotangent * cotangent - slope * slope);
  return (x, y) => {
    const [dx, dy] = [x - x0, y - y0];
    const p = dx * ux + dy * uy;
    const off = Math.abs(dx * uy - dy * ux);
    if (!(off <= r)) return Number.POSITIVE_INFINITY;
    const half = Math.sqrt(r * r - off * off);
    const from = Math.max(0, p - half);
    const to = Math.min(length, p + half);
    if (from > to) return Number.POSITIVE_INFINITY;
    const best = steep ? (slope > 0 ? from : to) : Math.min(to, Math.max(from, p - off * lead));
    return z0 + slope * best + cotangent * Math.hypot(off, p - best);
  };
}
