/**
 * How high the wood left on a surface stands, bounded from above and from below.
 *
 * The lowest height of one stroke less a floor that curves downward is a convex function, so over a patch with straight sides it is
 * greatest at a corner; what is left is no more than the least of these greatest values over all strokes. Patches are halved
 * until that bound is as good as the height found in their middles: a ridge between two long passes needs few of them. Of a floor
 * that is the highest of several such sheets the best bound over all sheets counts; what a sheet bends upward along a patch is added.
 * Patches spread as the passes of a ball over a cone do, so that ridges run along their sides.
 */
import type { Surface } from '../../intent/types.ts';
import type { Prim } from '../removal/prim.ts';
import { isInside, pointToBoundary, type Region } from '../removal/rings.ts';
import { sheetsOfFloor } from '../removal/surface.ts';
import { boxOf, type Corner, centreOf, type Land, middleOf, newPatch, type Patch } from './patch.ts';
import type { Stroke } from './stroke.ts';

/** A patch is let be when it can add no more than this to what was found. Millimetres. */
const ENOUGH = 0.0002;
/** Smaller patches are taken at their bound. Millimetres. */
const SMALLEST = 0.001;
/** More patches than this are not looked at: the rest is taken at its bound. */
const MOST_PATCHES = 400_000;
/** How long for its width a patch is left under strokes of which nothing else is known than that they run aslant. */
const ASLANT = 30;

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
  /** Stations within the region at which the spread may bend, or `except` ends. */
  readonly knots: readonly number[];
  /** Convex places within the region that are not looked at. */
  readonly except: readonly Region[];
}

/** Highest wood left over a region, above its floor. */
export function ridgesOn(ground: Ground, strokes: readonly Stroke[]): Ridges {
  const land: Land = { ...ground, sheets: sheetsOfFloor(ground.floor) };
  const first = ground.region.box.minX;
  let found = { value: Number.NEGATIVE_INFINITY, place: [first, 0] as readonly [number, number] };
  let bound = Number.NEGATIVE_INFINITY;
  let seen = 0;
  const stack = firstPatches(ground, land, strokes, ground.good * ground.limit);
  for (let patch = stack.pop(); patch !== undefined; patch = stack.pop()) {
    if (isOutside(ground, patch)) continue;
    seen += 1;
    if (isInside(ground.region, ...centreOf(patch, ground.spread))) {
      const middle = middleOf(land, patch);
      if (!(middle.value <= found.value)) found = middle;
    }
    const { most } = patch;
    const enough = Math.max(found.value + ENOUGH, ground.good * ground.limit);
    if (most <= enough || isSmall(patch) || seen > MOST_PATCHES) bound = Math.max(bound, most);
    else stack.push(...halves(land, patch, enough));
  }
  return { value: Math.max(found.value, bound), place: found.place, seen };
}

/** One between each two knots, so that the sides of every patch are straight. */
function firstPatches(
  { region: { box }, spread, knots }: Ground,
  land: Land,
  strokes: readonly Stroke[],
  enough: number,
): Patch[] {
  const stations = [box.minX, ...knots.filter((x) => x > box.minX && x < box.maxX), box.maxX];
  const edges = stations.flatMap((x) => [box.minY / spread(x), box.maxY / spread(x)]);
  const [minV, maxV] = [Math.min(...edges), Math.max(...edges)];
  return stations
    .slice(1)
    .map((maxX, i) => newPatch(land, { minX: stations[i] ?? maxX, maxX, minV, maxV }, strokes, enough));
}

function isSmall({ minX, maxX, minV, maxV }: Patch): boolean {
  return Math.max(maxX - minX, maxV - minV) < SMALLEST;
}

function isOutside({ region, spread, except }: Ground, patch: Patch): boolean {
  const { corners } = patch;
  if (except.some((place) => isWithin(place, corners))) return true;
  const [x, y] = centreOf(patch, spread);
  if (isInside(region, x, y)) return false;
  // Long thin patches beside a straight edge would have to be divided very often before a circle about them is clear of it.
  if (region.convex && region.edges.some((edge) => isBeyond(edge, corners))) return true;
  const half = Math.max(...corners.map((c) => Math.hypot(c.x - x, c.y - y)));
  return pointToBoundary(region, x, y, half + 1) > half;
}

/** A hair that a corner may lie out of a place that it lies in. */
const HAIR = 1e-9;

/** All of a patch lies in a convex place with straight sides. */
function isWithin({ convex, edges }: Region, corners: readonly Corner[]): boolean {
  return (
    convex &&
    edges.every(
      ({ arc, x0, y0, x1, y1 }) =>
        !arc && corners.every((c) => (x1 - x0) * (c.y - y0) - (y1 - y0) * (c.x - x0) >= -HAIR),
    )
  );
}

/** All of a patch lies on the outer side of a straight edge of a convex region. */
function isBeyond(edge: Prim, corners: readonly Corner[]): boolean {
  if (edge.arc) return false;
  const [dx, dy] = [edge.x1 - edge.x0, edge.y1 - edge.y0];
  return corners.every((c) => dx * (c.y - edge.y0) - dy * (c.x - edge.x0) <= 0);
}

/** A patch in two, across x or across y. */
function halves(land: Land, patch: Patch, enough: number): Patch[] {
  const { minX, maxX, minV, maxV, strokes } = patch;
  if (halvesAlongX(patch)) {
    const x = (minX + maxX) / 2;
    return [
      newPatch(land, { minX, maxX: x, minV, maxV }, strokes, enough),
      newPatch(land, { minX: x, maxX, minV, maxV }, strokes, enough),
    ];
  }
  const v = (minV + maxV) / 2;
  return [
    newPatch(land, { minX, maxX, minV, maxV: v }, strokes, enough),
    newPatch(land, { minX, maxX, minV: v, maxV }, strokes, enough),
  ];
}

/**
 * Which way to halve: where strokes do enough at one end of a patch and not at the other, across x; where at one of its sides, across
 * y; where at a corner or three they run aslant, and the patch is to become as long for its width as they do.
 */
function halvesAlongX(patch: Patch): boolean {
  const { minX, maxX, minV, maxV, partly } = patch;
  if (maxV - minV < SMALLEST) return true;
  if (maxX - minX < SMALLEST) return false;
  const { ends, sides, corners } = partly;
  if (ends + sides + corners === 0) return isAcross(patch);
  if (ends + corners === 0) return false;
  if (sides + corners === 0) return true;
  return maxX - minX > ASLANT * (maxV - minV);
}

/** Which way to halve a patch that no stroke covers half of: not across strokes that run right through it. */
function isAcross({ strokes, corners }: Patch): boolean {
  const { minX, maxX, minY, maxY } = boxOf(corners);
  if (strokes.some((s) => s.minX <= minX && s.maxX >= maxX)) return false;
  if (strokes.some((s) => s.minY <= minY && s.maxY >= maxY)) return true;
  return maxX - minX > maxY - minY;
}
