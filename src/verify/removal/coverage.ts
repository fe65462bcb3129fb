/**
 * What is left of a region in plan: the greatest distance from any of its points to the full-depth path, less the tool's
 * least radius. Found by dividing the region until every patch is shown to be within the limit, or the worst point is found.
 */
import type { Piece } from './piece.ts';
import { clipLeft, farthest, middleOf, type Point } from './polygon.ts';
import { boxesNear, boxOf, type Prim, pointToPrim } from './prim.ts';
import { reachOf, sift, type Within } from './reach.ts';
import { isInside, type Region, signedDistance } from './rings.ts';

export interface Left {
  /** At most this much is left, mm; negative when everything is cleared with room to spare. */
  readonly value: number;
  readonly place: Point;
  /** Patches looked at. */
  readonly seen: number;
}

/** Patches are not divided below this half-width; their bound then counts as it is. Millimetres. */
export const SMALLEST = 0.0005;
/** A region that takes more patches than this is not certified: the bound at hand counts. */
export const MOST_PATCHES = 200_000;
/** Patches larger than FINE are divided until their bound is this share of the limit, so that the figure tells something. */
export const AIM = 0.6;
export const FINE = 0.2;
/** Once a point beyond the limit is known, patches that cannot beat it by this much are let go. */
export const ENOUGH = 0.0005;

interface Patch {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
  readonly pieces: readonly Piece[];
  readonly edges: readonly Prim[];
}

interface Search {
  readonly region: Region;
  readonly except: Region | null;
  readonly radius: number;
  readonly limit: number;
  /** Worst certain point, and worst bound of a patch let go. */
  worst: number;
  bound: number;
  place: Point;
  seen: number;
}

/** Greatest gap of a region outside `except`; `limit` is how much may be left. */
export function leftOf(
  region: Region,
  except: Region | null,
  finals: readonly Piece[],
  radius: number,
  limit: number,
): Left {
  const { box } = region;
  const centre: Point = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
  if (finals.length === 0) {
    return { value: Math.hypot(box.maxX - box.minX, box.maxY - box.minY), place: centre, seen: 1 };
  }
  const search: Search = {
    region,
    except,
    radius,
    limit,
    worst: Number.NEGATIVE_INFINITY,
    bound: Number.NEGATIVE_INFINITY,
    place: centre,
    seen: 0,
  };
  const stack: Patch[] = [{ ...box, pieces: finals, edges: region.edges }];
  while (stack.length > 0) {
    const patch = stack.pop();
    if (patch === undefined) break;
    search.seen += 1;
    stack.push(...look(search, patch));
  }
  return { value: Math.max(search.worst, search.bound), place: search.place, seen: search.seen };
}

/** Lets a patch go or gives back its two halves. */
function look(search: Search, patch: Patch): Patch[] {
  const [x, y] = [(patch.minX + patch.maxX) / 2, (patch.minY + patch.maxY) / 2];
  const half = Math.hypot(patch.maxX - x, patch.maxY - y);
  const edges = patch.edges.filter((e) => boxesNear(patch, boxOf(e), 0) && pointToPrim(x, y, e) <= half);
  if (edges.length === 0 && !isInside(search.region, x, y)) return [];
  if (isExcepted(search.except, x, y, half)) return [];
  const polygon = clip(search.region, patch, edges);
  if (polygon.length === 0) return [];
  const { near, least } = sift(patch.pieces, x, y, half);
  const within = withinOf(search.region, polygon);
  const bound =
    Math.min(least + half, ...near.map((piece) => reachOf(polygon, within, piece))) - search.radius;
  const hopeless = search.worst > search.limit && bound <= search.worst + ENOUGH;
  if (bound <= search.limit * AIM || hopeless || (bound <= search.limit && half < FINE))
    return letGo(search, bound, [x, y]);
  tryPoints(search, polygon, near);
  if (half < SMALLEST || search.seen > MOST_PATCHES) return letGo(search, bound, [x, y]);
  return halves({ ...patch, pieces: near, edges });
}

function letGo(search: Search, bound: number, place: Point): Patch[] {
  if (!(bound <= Math.max(search.bound, search.worst))) search.place = place;
  search.bound = Math.max(search.bound, bound);
  return [];
}

/** A patch wholly in the excepted region, or too small to tell. */
function isExcepted(except: Region | null, x: number, y: number, half: number): boolean {
  if (except === null) return false;
  const inside = signedDistance(except, x, y, 2 * half + 1);
  return inside >= half || (half < 4 * SMALLEST && inside > -half);
}

/** The patch, less what surely lies outside the region. */
function clip(region: Region, patch: Patch, edges: readonly Prim[]): Point[] {
  let polygon: Point[] = [
    [patch.minX, patch.minY],
    [patch.maxX, patch.minY],
    [patch.maxX, patch.maxY],
    [patch.minX, patch.maxY],
  ];
  // One straight side alone in a patch divides it; in a convex region every straight side does.
  const straight = region.convex || edges.length === 1 ? edges.filter((e) => !e.arc) : [];
  for (const e of straight) polygon = clipLeft(polygon, e.x0, e.y0, e.x1, e.y1);
  const [only, ...others] = edges;
  return only?.arc && others.length === 0 ? clipByArc(polygon, patch, only) : polygon;
}

/**
 * Cuts off what one arc alone in a patch surely leaves outside: beyond the tangent of an arc that bulges outward; of one that bulges
 * inward, what lies nearer its centre than the lowest chord that the patch can see of it.
 */
function clipByArc(polygon: Point[], patch: Patch, e: Prim): Point[] {
  const [x, y] = [(patch.minX + patch.maxX) / 2 - e.cx, (patch.minY + patch.maxY) / 2 - e.cy];
  const away = Math.hypot(x, y);
  const half = Math.hypot(patch.maxX - patch.minX, patch.maxY - patch.minY) / 2;
  if (!(away > 2 * half)) return polygon;
  const [ux, uy] = [x / away, y / away];
  const bulgesOut = e.sweep > 0;
  const reach = bulgesOut ? e.radius : e.radius * Math.sqrt(1 - (half / away) ** 2);
  const [px, py] = [e.cx + ux * reach, e.cy + uy * reach];
  // What is kept lies on the left of the line: toward the centre of an arc that bulges outward, away from that of the other.
  const sense = bulgesOut ? 1 : -1;
  return clipLeft(polygon, px, py, px - sense * uy, py + sense * ux);
}

function withinOf({ circle }: Region, polygon: readonly Point[]): Within {
  if (circle === null) return null;
  return { x: circle.x, y: circle.y, radius: Math.min(circle.radius, farthest(polygon, circle.x, circle.y)) };
}

/** Points of the region tell how much is left at least. */
function tryPoints(search: Search, polygon: readonly Point[], near: readonly Piece[]): void {
  const [x, y] = middleOf(polygon);
  if (!isInside(search.region, x, y) || (search.except !== null && isInside(search.except, x, y))) return;
  const gap = Math.min(...near.map((piece) => pointToPrim(x, y, piece))) - search.radius;
  if (gap <= search.worst) return;
  search.worst = gap;
  search.place = [x, y];
}

function halves(patch: Patch): Patch[] {
  const [x, y] = [(patch.minX + patch.maxX) / 2, (patch.minY + patch.maxY) / 2];
  return patch.maxX - patch.minX > patch.maxY - patch.minY
    ? [
        { ...patch, maxX: x },
        { ...patch, minX: x },
      ]
    : [
        { ...patch, maxY: y },
        { ...patch, minY: y },
      ];
}
