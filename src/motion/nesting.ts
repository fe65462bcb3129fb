import { flatten } from '../geometry/ring.ts';
import type { Ring, Vec } from '../geometry/types.ts';

/** Fine enough to tell whether one outline lies within another, mm. */
const SAGITTA = 0.05;

/**
 * Things with rings that do not cross, in groups: those within most others first, so that inner is cut before
 * outer.
 */
export function innerFirst<T>(things: readonly T[], ringOf: (thing: T) => Ring): T[][] {
  const polygons = things.map((thing) => flatten(ringOf(thing), SAGITTA));
  const depths = polygons.map(
    (inner) => polygons.filter((outer) => outer !== inner && isWithin(inner, outer)).length,
  );
  const levels = [...new Set(depths)].sort((a, b) => b - a);
  return levels.map((level) => things.filter((_, i) => depths[i] === level));
}

function isWithin(inner: readonly Vec[], outer: readonly Vec[]): boolean {
  const [point] = inner;
  return point !== undefined && holds(outer, point);
}

/** Counts the sides that a ray toward +x crosses. */
function holds(polygon: readonly Vec[], [x, y]: Vec): boolean {
  const crossings = polygon.filter((from, i) => {
    const to = polygon[(i + 1) % polygon.length] ?? from;
    if (from[1] > y === to[1] > y) return false;
    return from[0] + ((to[0] - from[0]) * (y - from[1])) / (to[1] - from[1]) > x;
  });
  return crossings.length % 2 === 1;
}
