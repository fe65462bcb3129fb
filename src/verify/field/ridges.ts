/**
 * How high the wood left on a surface stands, bounded from above and from below.
 *
 * The lowest height of one stroke less a floor that curves downward is a convex function, so over a patch with straight sides it is
 * greatest at a corner; what is left is no more than the least of these greatest values over all strokes. Patches are halved
 * until that bound is as good as the height found in their middles: a ridge between two long passes needs few of them.
 * Patches spread as the passes of a ball over a cone do, so that ridges run along their sides.
 */
import type { Surface } from '../../intent/types.ts';
import type { Prim } from '../removal/prim.ts';
import { isInside, pointToBoundary, type Region } from '../removal/rings.ts';
import { heightAt, squareShare } from '../removal/surface.ts';
import type { Stroke } from './stroke.ts';

/** A patch is let be when it can add no more than this to what was found. Millimetres. */
const ENOUGH = 0.0002;
/** Smaller patches are taken at their bound. Millimetres. */
const SMALLEST = 0.001;
/** More patches than this are not looked at: the rest is taken at its bound. */
const MOST_PATCHES = 400_000;

export interface Ridges {
  /** Never less than the highest that is left. */
  readonly value: number;
  readonly place: readonly [x: number, y: number];
  readonly seen: number;
}

export interface Ground {
  readonly region: Region;
  readonly floor: Surface;
  /** No wood stands higher. */
  readonly top: number;
  /** Measured square to the floor, or upright. */
  readonly isSquare: boolean;
  readonly limit: number;
  /** A patch whose bound is below this share of the limit is good. */
  readonly good: number;
  /** Passes spread from y = 0 in this proportion, positive and linear in x between knots; 1 everywhere where they run along x. */
  readonly spread: (x: number) => number;
  /** Stations within the region at which the spread may bend. */
  readonly knots: readonly number[];
}

/** Between two stations, and between two lines y = v spread(x). */
interface Patch {
  readonly minX: number;
  readonly maxX: number;
  readonly minV: number;
  readonly maxV: number;
  readonly strokes: readonly Stroke[];
}

interface Corner {
  readonly x: number;
  readonly y: number;
  readonly floor: number;
}

/** Highest wood left over a region, above its floor. */
export function ridgesOn(ground: Ground, strokes: readonly Stroke[]): Ridges {
  const first = ground.region.box.minX;
  let found = { value: Number.NEGATIVE_INFINITY, place: [first, 0] as readonly [number, number] };
  let bound = Number.NEGATIVE_INFINITY;
  let seen = 0;
  const stack: Patch[] = firstPatches(ground, strokes);
  for (let patch = stack.pop(); patch !== undefined; patch = stack.pop()) {
    const corners = cornersOf(ground, patch);
    if (isOutside(ground, patch, corners)) continue;
    seen += 1;
    const middle = middleOf(ground, patch);
    if (middle !== null && !(middle.value <= found.value)) found = middle;
    const { most, alongX } = boundOf(ground, patch, corners);
    const enough = Math.max(found.value + ENOUGH, ground.good * ground.limit);
    if (most <= enough || isSmall(patch) || seen > MOST_PATCHES) bound = Math.max(bound, most);
    else stack.push(...halves(ground, patch, alongX));
  }
  return { value: Math.max(found.value, bound), place: found.place, seen };
}

/** One between each two knots, so that the sides of every patch are straight. */
function firstPatches({ region: { box }, spread, knots }: Ground, strokes: readonly Stroke[]): Patch[] {
  const stations = [box.minX, ...knots.filter((x) => x > box.minX && x < box.maxX), box.maxX];
  const edges = stations.flatMap((x) => [box.minY / spread(x), box.maxY / spread(x)]);
  const [minV, maxV] = [Math.min(...edges), Math.max(...edges)];
  return stations.slice(1).map((maxX, i) => ({ minX: stations[i] ?? maxX, maxX, minV, maxV, strokes }));
}

/** Lower left, lower right, upper left, upper right. */
function cornersOf({ floor, spread }: Ground, { minX, maxX, minV, maxV }: Patch): readonly Corner[] {
  const [left, right] = [spread(minX), spread(maxX)];
  return [
    corner(floor, minX, minV * left),
    corner(floor, maxX, minV * right),
    corner(floor, minX, maxV * left),
    corner(floor, maxX, maxV * right),
  ];
}

function corner(floor: Surface, x: number, y: number): Corner {
  return { x, y, floor: heightAt(floor, x, y) };
}

function isSmall({ minX, maxX, minV, maxV }: Patch): boolean {
  return Math.max(maxX - minX, maxV - minV) < SMALLEST;
}

function isOutside({ region, spread }: Ground, patch: Patch, corners: readonly Corner[]): boolean {
  const [x, y] = centreOf(patch, spread);
  if (isInside(region, x, y)) return false;
  // Long thin patches beside a straight edge would have to be divided very often before a circle about them is clear of it.
  if (region.convex && region.edges.some((edge) => isBeyond(edge, corners))) return true;
  const half = Math.max(...corners.map((c) => Math.hypot(c.x - x, c.y - y)));
  return pointToBoundary(region, x, y, half + 1) > half;
}

/** All of a patch lies on the outer side of a straight edge of a convex region. */
function isBeyond(edge: Prim, corners: readonly Corner[]): boolean {
  if (edge.arc) return false;
  const [dx, dy] = [edge.x1 - edge.x0, edge.y1 - edge.y0];
  return corners.every((c) => dx * (c.y - edge.y0) - dy * (c.x - edge.x0) <= 0);
}

function centreOf({ minX, maxX, minV, maxV }: Patch, spread: Ground['spread']): [number, number] {
  const x = (minX + maxX) / 2;
  return [x, ((minV + maxV) / 2) * spread(x)];
}

/** What is left in the middle of a patch; null when that lies outside the region. */
function middleOf(ground: Ground, patch: Patch): { value: number; place: readonly [number, number] } | null {
  const [x, y] = centreOf(patch, ground.spread);
  if (!isInside(ground.region, x, y)) return null;
  let height = ground.top;
  for (const stroke of patch.strokes) height = Math.min(height, stroke.over(x, y));
  const upright = height - heightAt(ground.floor, x, y);
  return { value: ground.isSquare ? upright * squareShare(ground.floor, x, y) : upright, place: [x, y] };
}

interface Bound {
  /** No point of the patch is left higher above the floor. */
  readonly most: number;
  /** Which way to halve: across x, or across y. */
  readonly alongX: boolean;
}

function boundOf(ground: Ground, { strokes }: Patch, corners: readonly Corner[]): Bound {
  const heights = new Float64Array(4);
  let most = ground.top - Math.min(...corners.map((c) => c.floor));
  let alongX: boolean | null = null;
  let isHalf = false;
  for (const { over } of strokes) {
    let here = Number.NEGATIVE_INFINITY;
    corners.forEach((c, k) => {
      heights[k] = over(c.x, c.y) - c.floor;
      here = Math.max(here, heights[k] ?? Number.NaN);
    });
    isHalf ||= coversOneEnd(heights, ground.limit);
    if (!(here < most)) continue;
    most = here;
    alongX = changesAlongX(heights);
  }
  return {
    most: ground.isSquare ? most * leastSlope(ground, corners) : most,
    alongX: isHalf || (alongX ?? isAcross(strokes, corners)),
  };
}

/** A stroke that does one end of the patch and never comes over the other: it ends within it, or leaves it sideways. */
function coversOneEnd([a = 0, b = 0, c = 0, d = 0]: Float64Array, limit: number): boolean {
  const [left, right] = [Math.max(a, c), Math.max(b, d)];
  return Math.min(left, right) <= limit && Math.max(left, right) === Number.POSITIVE_INFINITY;
}

function changesAlongX([a = 0, b = 0, c = 0, d = 0]: Float64Array): boolean {
  return Math.max(Math.abs(a - b), Math.abs(c - d)) > Math.max(Math.abs(a - c), Math.abs(b - d));
}

/** Which way to halve a patch that no stroke covers: not across strokes that run right through it. */
function isAcross(strokes: readonly Stroke[], corners: readonly Corner[]): boolean {
  const { minX, maxX, minY, maxY } = boxOf(corners);
  if (strokes.some((s) => s.minX <= minX && s.maxX >= maxX)) return false;
  if (strokes.some((s) => s.minY <= minY && s.maxY >= maxY)) return true;
  return maxX - minX > maxY - minY;
}

function boxOf(corners: readonly Corner[]): { minX: number; maxX: number; minY: number; maxY: number } {
  const [xs, ys] = [corners.map((c) => c.x), corners.map((c) => c.y)];
  return { minX: Math.min(...xs), maxX: Math.max(...xs), minY: Math.min(...ys), maxY: Math.max(...ys) };
}

/** The share of an upright height that lies square to the floor, where the floor of the patch is least steep. */
function leastSlope({ floor }: Ground, corners: readonly Corner[]): number {
  const { minX, maxX, minY, maxY } = boxOf(corners);
  const y = minY <= 0 && maxY >= 0 ? 0 : Math.min(Math.abs(minY), Math.abs(maxY));
  return Math.max(squareShare(floor, minX, y), squareShare(floor, maxX, y));
}

function halves(ground: Ground, patch: Patch, alongX: boolean): Patch[] {
  const wide = alongX ? patch.maxX - patch.minX : patch.maxV - patch.minV;
  if (wide < SMALLEST) return halves(ground, patch, !alongX);
  const middle = alongX ? (patch.minX + patch.maxX) / 2 : (patch.minV + patch.maxV) / 2;
  const two = alongX
    ? [
        { ...patch, maxX: middle },
        { ...patch, minX: middle },
      ]
    : [
        { ...patch, maxV: middle },
        { ...patch, minV: middle },
      ];
  return two.map((half) => ({ ...half, strokes: strokesOver(ground, half) }));
}

function strokesOver(ground: Ground, patch: Patch): Stroke[] {
  const { minX, maxX, minY, maxY } = boxOf(cornersOf(ground, patch));
  return patch.strokes.filter((s) => s.minX <= maxX && s.maxX >= minX && s.minY <= maxY && s.maxY >= minY);
}
