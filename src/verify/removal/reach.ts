/**
 * Bounds on how far any point of a small convex patch can be from a path.
 *
 * The distance to one straight piece is convex, so over a patch it is greatest at a corner; the distance to a circle is the
 * difference from its radius. These bounds are sharp, so a long straight wall needs few patches.
 */
import type { Piece } from './piece.ts';
import { farthest, type Point } from './polygon.ts';
import { hasAngle, pointToPrim } from './prim.ts';

/** A disc that the patch is known to lie within besides its polygon, or null. */
export type Within = { readonly x: number; readonly y: number; readonly radius: number } | null;

/** Upper bound of the distance from any point of the patch to one piece. */
export function reachOf(patch: readonly Point[], within: Within, piece: Piece): number {
  return piece.arc ? reachOfArc(patch, within, piece) : reachOfLine(patch, within, piece);
}

function reachOfLine(patch: readonly Point[], within: Within, piece: Piece): number {
  let most = 0;
  for (const [x, y] of patch) most = Math.max(most, pointToPrim(x, y, piece));
  if (within === null) return most;
  return Math.min(most, pointToPrim(within.x, within.y, piece) + within.radius);
}

function reachOfArc(patch: readonly Point[], within: Within, piece: Piece): number {
  // A piece turns at most half a turn: the wedge it faces is convex, and holds the patch when it holds its corners.
  if (!patch.every(([x, y]) => hasAngle(piece, Math.atan2(y - piece.cy, x - piece.cx)))) {
    return Number.POSITIVE_INFINITY;
  }
  let far = farthest(patch, piece.cx, piece.cy);
  if (within !== null) {
    far = Math.min(far, Math.hypot(within.x - piece.cx, within.y - piece.cy) + within.radius);
  }
  return Math.max(far - piece.radius, piece.radius - nearest(patch, piece.cx, piece.cy));
}

/** Distance from a point to a convex patch; 0 inside it. */
function nearest(patch: readonly Point[], x: number, y: number): number {
  let outside = 0;
  let least = Number.POSITIVE_INFINITY;
  patch.forEach((p, i) => {
    const q = patch[(i + 1) % patch.length] ?? p;
    least = Math.min(least, segmentDistance(p, q, x, y));
    if ((q[0] - p[0]) * (y - p[1]) - (q[1] - p[1]) * (x - p[0]) < 0) outside += 1;
  });
  return outside > 0 || patch.length < 3 ? least : 0;
}

function segmentDistance(p: Point, q: Point, x: number, y: number): number {
  const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - p[0]) * dx + (y - p[1]) * dy) / square));
  return Math.hypot(x - p[0] - t * dx, y - p[1] - t * dy);
}

/** Keeps those pieces that may be the nearest for some point within `half` of (x, y), and gives the least distance. */
export function sift(
  pieces: readonly Piece[],
  x: number,
  y: number,
  half: number,
): { near: Piece[]; least: number } {
  const distances = pieces.map((piece) => pointToPrim(x, y, piece));
  const least = Math.min(...distances);
  return { near: pieces.filter((_, i) => (distances[i] ?? 0) <= least + 2 * half), least };
}
