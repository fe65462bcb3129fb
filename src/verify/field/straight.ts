import { type Piece, partOf } from '../removal/piece.ts';

/** Chords that stand for an arc leave it by at most this; it is added to the figures. Millimetres. */
export const CHORD_SAGITTA = 0.0001;

/** A piece as it is when it is straight, else in chords. */
export function straightParts(piece: Piece): Piece[] {
  if (!piece.arc && !piece.upright) return [piece];
  const stops = piece.arc ? evenStops(Math.abs(piece.sweep), piece.radius) : uprightStops(piece);
  return stops.slice(1).map((to, i) => ({
    ...partOf(piece, stops[i] ?? 0, to),
    arc: false,
    upright: false,
  }));
}

function evenStops(turn: number, radius: number): number[] {
  const step = 2 * Math.acos(Math.max(-1, 1 - CHORD_SAGITTA / radius));
  const count = Math.max(1, Math.ceil(turn / step));
  return Array.from({ length: count + 1 }, (_, k) => k / count);
}

/** Even steps of the circle's angle, as shares of the way in plan. */
function uprightStops(piece: Piece): number[] {
  const [u0, u1] = piece.alongX ? [piece.x0, piece.x1] : [piece.y0, piece.y1];
  if (u0 === u1) return [0, 1];
  const angle = (u: number): number => Math.acos(Math.max(-1, Math.min(1, (u - piece.uc) / piece.radius)));
  const [a0, a1] = [angle(u0), angle(u1)];
  const inner = evenStops(Math.abs(a1 - a0), piece.radius)
    .slice(1, -1)
    .map((share) => (piece.uc + piece.radius * Math.cos(a0 + (a1 - a0) * share) - u0) / (u1 - u0));
  return [0, ...inner, 1];
}
