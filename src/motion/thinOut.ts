import type { Point } from './types.ts';

/** The points of a path that are needed to keep every other one within `most` of it (Ramer 1972, Douglas and Peucker 1973). */
export function thinOut(path: readonly Point[], most: number): Point[] {
  const keep = new Set([0, path.length - 1]);
  const stack: (readonly [number, number])[] = [[0, path.length - 1]];
  for (let part = stack.pop(); part !== undefined; part = stack.pop()) {
    const [from, to] = part;
    const [a, b] = [pointOf(path, from), pointOf(path, to)];
    let [farthest, off] = [from, most];
    for (let i = from + 1; i < to; i += 1) {
      const away = awayFrom(pointOf(path, i), a, b);
      if (away > off) [farthest, off] = [i, away];
    }
    if (farthest === from) continue;
    keep.add(farthest);
    stack.push([from, farthest], [farthest, to]);
  }
  return path.filter((_, i) => keep.has(i));
}

function pointOf(path: readonly Point[], i: number): Point {
  const point = path[i];
  if (point === undefined) throw new Error(`point ${i} of ${path.length}`);
  return point;
}

/** Distance of a point from the straight line between two others. */
function awayFrom(p: Point, a: Point, b: Point): number {
  const [dx, dy, dz] = [b.x - a.x, b.y - a.y, b.z - a.z];
  const square = dx * dx + dy * dy + dz * dz;
  const along = (p.x - a.x) * dx + (p.y - a.y) * dy + (p.z - a.z) * dz;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, along / square));
  return Math.hypot(p.x - a.x - t * dx, p.y - a.y - t * dy, p.z - a.z - t * dz);
}
