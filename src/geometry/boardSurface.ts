/**
 * A fingerboard's playing surface, 0 along its crest, which is the line y = 0: flat, or in every section across it a circle whose
 * radius runs evenly along x between two stations (a cylinder where both are the same, else a cone). Millimetres.
 */
import { coneHeight, coneRadius } from './coneSurface.ts';
import type { Vec } from './types.ts';

export type BoardSurface =
  | { readonly kind: 'flat' }
  | {
      readonly kind: 'cone';
      readonly x: readonly [number, number];
      readonly R: readonly [number, number];
    };

/** Height at a point: z = sqrt(R(x)^2 - y^2) - R(x), never above 0. */
export function boardHeight(surface: BoardSurface, x: number, y: number): number {
  return surface.kind === 'flat' ? 0 : coneHeight({ ...surface, crest: 0, below: 0 }, x, y);
}

/** Radius of the section at x; infinite where the board is flat. */
export function boardRadius(surface: BoardSurface, x: number): number {
  return surface.kind === 'flat'
    ? Number.POSITIVE_INFINITY
    : coneRadius({ ...surface, crest: 0, below: 0 }, x);
}

/** Looked at this many places before the farthest is closed in on. */
const PLACES = 64;

/**
 * How far the surface under the straight line in plan from one point to another leaves the straight line in space between the
 * surface's heights at both: of greatest size, positive where the board stands higher. 0 along a ruling.
 *
 * @example errorAlong({ kind: 'flat' }, [0, 18], [460, 24]) // 0
 */
export function errorAlong(surface: BoardSurface, from: Vec, to: Vec): number {
  const height = (t: number): number =>
    boardHeight(surface, from[0] + (to[0] - from[0]) * t, from[1] + (to[1] - from[1]) * t);
  const [first, last] = [height(0), height(1)];
  const error = (t: number): number => height(t) - first - (last - first) * t;
  let best = 0;
  for (let k = 1; k < PLACES; k += 1) {
    if (Math.abs(error(k / PLACES)) > Math.abs(error(best))) best = k / PLACES;
  }
  return closeIn(error, best);
}

/** The extreme value near a place: the interval about it is narrowed by thirds. */
function closeIn(error: (t: number) => number, place: number): number {
  let [low, high] = [Math.max(0, place - 1 / PLACES), Math.min(1, place + 1 / PLACES)];
  for (let round = 0; round < 40; round += 1) {
    const third = (high - low) / 3;
    if (Math.abs(error(low + third)) < Math.abs(error(high - third))) low += third;
    else high -= third;
  }
  return error((low + high) / 2);
}
