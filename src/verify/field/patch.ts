/** A patch of a surface between two stations and two lines of passes, and a bound of the wood left on it. */
import type { Surface } from '../../intent/types.ts';
import { heightAt, squareShare } from '../removal/surface.ts';
import type { Stroke } from './stroke.ts';

/** Height of one sheet of a floor. */
export type Sheet = (x: number, y: number) => number;

/** What patches lie on. */
export interface Land {
  readonly floor: Surface;
  /** Of the floor: each curves downward across y, and the floor is the highest of them. */
  readonly sheets: readonly Sheet[];
  /** No wood stands higher. */
  readonly top: number;
  /** Measured square to the floor, or upright. */
  readonly isSquare: boolean;
  /** Passes spread from y = 0 in this proportion. */
  readonly spread: (x: number) => number;
}

/** Between two stations, and between two lines y = v spread(x). */
export interface Sides {
  readonly minX: number;
  readonly maxX: number;
  readonly minV: number;
  readonly maxV: number;
}

export interface Corner {
  readonly x: number;
  readonly y: number;
  /** Height of each sheet of the floor. */
  readonly floors: readonly number[];
}

export interface Patch extends Sides {
  /** Lower left, lower right, upper left, upper right. */
  readonly corners: readonly Corner[];
  /** Those that come over it. */
  readonly strokes: readonly Stroke[];
  /** No point of the patch is left higher above the floor. */
  readonly most: number;
  /** Strokes that do enough on one side only: at the corners of one end, of one side, or at one corner or three. */
  readonly partly: Partly;
}

interface Partly {
  readonly ends: number;
  readonly sides: number;
  readonly corners: number;
}

/** A patch with the strokes of a list that come over it; what is left at a corner is good up to `enough`. */
export function newPatch(land: Land, sides: Sides, strokes: readonly Stroke[], enough: number): Patch {
  const corners = cornersOf(land, sides);
  const { minX, maxX, minY, maxY } = boxOf(corners);
  const over = strokes.filter((s) => s.minX <= maxX && s.maxX >= minX && s.minY <= maxY && s.maxY >= minY);
  return { ...sides, corners, strokes: over, ...boundOf(land, corners, over, enough) };
}

function cornersOf({ sheets, spread }: Land, { minX, maxX, minV, maxV }: Sides): readonly Corner[] {
  const [left, right] = [spread(minX), spread(maxX)];
  const corner = (x: number, y: number): Corner => ({ x, y, floors: sheets.map((sheet) => sheet(x, y)) });
  return [
    corner(minX, minV * left),
    corner(maxX, minV * right),
    corner(minX, maxV * left),
    corner(maxX, maxV * right),
  ];
}

/**
 * The lowest height of one stroke less a sheet of the floor is greatest at a corner; of all strokes and sheets the best bound counts,
 * with what a sheet dips between the corners.
 */
function boundOf(
  land: Land,
  corners: readonly Corner[],
  strokes: readonly Stroke[],
  enough: number,
): Pick<Patch, 'most' | 'partly'> {
  const dips = dipsOf(land, corners);
  const share = land.isSquare ? leastShare(land, corners) : 1;
  const floors = corners.map((c) => Math.max(...c.floors));
  const overs = new Float64Array(4).fill(land.top);
  const partly = { ends: 0, sides: 0, corners: 0 };
  let most = leastAbove(overs, corners, dips);
  for (const { over } of strokes) {
    let good = 0;
    for (let k = 0; k < 4; k += 1) {
      const corner = cornerAt(corners, k);
      const height = over(corner.x, corner.y);
      overs[k] = height;
      if ((height - (floors[k] ?? Number.NaN)) * share <= enough) good |= 1 << k;
    }
    most = Math.min(most, leastAbove(overs, corners, dips));
    const side = SIDES[good];
    if (side !== undefined) partly[side] += 1;
  }
  return { most: most * share, partly };
}

/** What the corners that a stroke does enough at are called: bits in the order of the corners. None and all of them are nothing. */
const SIDES: readonly (keyof Partly | undefined)[] = Array.from({ length: 16 }, (_, good) => {
  if (good === 0b0101 || good === 0b1010) return 'ends';
  if (good === 0b0011 || good === 0b1100) return 'sides';
  return good === 0 || good === 0b1111 ? undefined : 'corners';
});

/** How high one stroke leaves wood above the sheet that it is bounded best over. */
function leastAbove(overs: Float64Array, corners: readonly Corner[], dips: readonly number[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < dips.length; i += 1) {
    let here = Number.NEGATIVE_INFINITY;
    for (let k = 0; k < 4; k += 1) {
      here = Math.max(here, (overs[k] ?? Number.NaN) - (corners[k]?.floors[i] ?? Number.NaN));
    }
    least = Math.min(least, here + (dips[i] ?? Number.NaN));
  }
  return least;
}

/**
 * How far each sheet may lie below the straight lines between a patch's corners: it curves downward across y, and along the two sides a
 * parabola that bends upward dips by half of what its middle lies below their ends' mean, doubled for what is no parabola. A cone's
 * sheet does not bend upward.
 */
function dipsOf({ floor, sheets }: Land, corners: readonly Corner[]): readonly number[] {
  if (floor.kind !== 'shaft') return sheets.map(() => 0);
  return sheets.map((sheet, i) => {
    const dips = [0, 2].map((k) => {
      const [from, to] = [cornerAt(corners, k), cornerAt(corners, k + 1)];
      const middle = sheet((from.x + to.x) / 2, (from.y + to.y) / 2);
      return (from.floors[i] ?? Number.NaN) + (to.floors[i] ?? Number.NaN) - 2 * middle;
    });
    return Math.max(0, ...dips);
  });
}

function cornerAt(corners: readonly Corner[], k: number): Corner {
  const found = corners[k];
  if (found === undefined) throw new Error(`corner ${k} of ${corners.length}`);
  return found;
}

/** The share of an upright height that lies square to the floor, where the floor of the patch is least steep. */
function leastShare({ floor }: Land, corners: readonly Corner[]): number {
  const { minX, maxX, minY, maxY } = boxOf(corners);
  const y = minY <= 0 && maxY >= 0 ? 0 : Math.min(Math.abs(minY), Math.abs(maxY));
  return Math.max(squareShare(floor, minX, y), squareShare(floor, maxX, y));
}

/** What is left at the middle of a patch. */
export function middleOf(
  { floor, top, isSquare, spread }: Land,
  patch: Patch,
): { value: number; place: readonly [number, number] } {
  const [x, y] = centreOf(patch, spread);
  let height = top;
  for (const stroke of patch.strokes) height = Math.min(height, stroke.over(x, y));
  const upright = height - heightAt(floor, x, y);
  return { value: isSquare ? upright * squareShare(floor, x, y) : upright, place: [x, y] };
}

export function centreOf({ minX, maxX, minV, maxV }: Sides, spread: Land['spread']): [number, number] {
  const x = (minX + maxX) / 2;
  return [x, ((minV + maxV) / 2) * spread(x)];
}

export function boxOf(corners: readonly Corner[]): {
  minX: number;
  maxX: number;
  minY: number;
  maxY: number;
} {
  const [xs, ys] = [corners.map((c) => c.x), corners.map((c) => c.y)];
  return { minX: Math.min(...xs), maxX: Math.max(...xs), minY: Math.min(...ys), maxY: Math.max(...ys) };
}
