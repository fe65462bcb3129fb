/** What is left along a kept ring: as `coverage.ts`, in one dimension. */
import { at } from './at.ts';
import { AIM, ENOUGH, FINE, type Left, MOST_PATCHES, SMALLEST } from './coverage.ts';
import type { Piece } from './piece.ts';
import type { Point } from './polygon.ts';
import { hasAngle, type Prim } from './prim.ts';
import { reachOf, sift } from './reach.ts';
import type { Region } from './rings.ts';

/** Centres this close are one centre, written twice. Millimetres. */
const ROUNDING = 0.001;

/** Greatest gap along a ring outside tabs and excepted places; as `leftOf`, in one dimension. */
export function leftAlong(
  ring: Region,
  isFree: (x: number, y: number, half: number) => boolean,
  finals: readonly Piece[],
  radius: number,
  limit: number,
): Left {
  const first = at(ring.edges, 0);
  let worst = { value: Number.NEGATIVE_INFINITY, place: [first.x0, first.y0] as Point };
  let bound = Number.NEGATIVE_INFINITY;
  let seen = 0;
  if (finals.length === 0) {
    return { value: ring.box.maxX - ring.box.minX, place: worst.place, seen: 1 };
  }
  const stack = ring.edges.map((edge) => ({ edge, pieces: finals }));
  while (stack.length > 0) {
    const item = stack.pop();
    if (item === undefined) break;
    seen += 1;
    const { x, y, half } = middleOfEdge(item.edge);
    if (isFree(x, y, half)) continue;
    const { near, least } = sift(item.pieces, x, y, half);
    if (!(least - radius <= worst.value) && !isFree(x, y, 0))
      worst = { value: least - radius, place: [x, y] };
    const reach = Math.min(least + half, ...near.map((piece) => reachOfEdge(item.edge, piece))) - radius;
    const hopeless = worst.value > limit && reach <= worst.value + ENOUGH;
    if (
      reach <= limit * AIM ||
      (reach <= limit && half < FINE) ||
      hopeless ||
      half < SMALLEST ||
      seen > MOST_PATCHES
    ) {
      bound = Math.max(bound, reach);
      continue;
    }
    stack.push(...halvesOfEdge(item.edge).map((edge) => ({ edge, pieces: near })));
  }
  return { value: Math.max(worst.value, bound), place: worst.place, seen };
}

function middleOfEdge(e: Prim): { x: number; y: number; half: number } {
  if (!e.arc) {
    return { x: (e.x0 + e.x1) / 2, y: (e.y0 + e.y1) / 2, half: Math.hypot(e.x1 - e.x0, e.y1 - e.y0) / 2 };
  }
  const angle = e.a0 + e.sweep / 2;
  return {
    x: e.cx + e.radius * Math.cos(angle),
    y: e.cy + e.radius * Math.sin(angle),
    half: (e.radius * Math.abs(e.sweep)) / 2,
  };
}

function reachOfEdge(edge: Prim, piece: Piece): number {
  const ends: Point[] = [
    [edge.x0, edge.y0],
    [edge.x1, edge.y1],
  ];
  if (!edge.arc) return reachOf(ends, null, piece);
  if (Math.abs(edge.sweep) > Math.PI / 2) return Number.POSITIVE_INFINITY;
  if (piece.arc) {
    if (!ends.every(([x, y]) => hasAngle(piece, Math.atan2(y - piece.cy, x - piece.cx)))) {
      return Number.POSITIVE_INFINITY;
    }
    // About one centre (but for the rounding of the text), the edge stays in the wedge its ends are in.
    const between = Math.hypot(edge.cx - piece.cx, edge.cy - piece.cy);
    return between > ROUNDING ? Number.POSITIVE_INFINITY : Math.abs(edge.radius - piece.radius) + 2 * between;
  }
  const sagitta = edge.radius * (1 - Math.cos(edge.sweep / 2));
  return reachOf(ends, null, piece) + sagitta;
}

function halvesOfEdge(e: Prim): Prim[] {
  const { x, y } = middleOfEdge(e);
  const sweep = e.sweep / 2;
  return [
    { ...e, x1: x, y1: y, sweep },
    { ...e, x0: x, y0: y, a0: e.a0 + sweep, sweep },
  ];
}
