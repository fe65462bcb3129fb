/** Small convex polygons of the plan, as lists of points. */
export type Point = readonly [number, number];

/** What lies on the left of the line through two points. */
export function clipLeft(polygon: readonly Point[], x0: number, y0: number, x1: number, y1: number): Point[] {
  const side = ([x, y]: Point): number => (x1 - x0) * (y - y0) - (y1 - y0) * (x - x0);
  return polygon.flatMap((point, i) => {
    const next = polygon[(i + 1) % polygon.length] ?? point;
    const [a, b] = [side(point), side(next)];
    const kept: Point[] = a >= 0 ? [point] : [];
    if ((a > 0 && b < 0) || (a < 0 && b > 0)) {
      const t = a / (a - b);
      kept.push([point[0] + (next[0] - point[0]) * t, point[1] + (next[1] - point[1]) * t]);
    }
    return kept;
  });
}

/** Mean of the corners: inside a convex polygon. */
export function middleOf(polygon: readonly Point[]): Point {
  let [x, y] = [0, 0];
  for (const p of polygon) {
    x += p[0];
    y += p[1];
  }
  return [x / polygon.length, y / polygon.length];
}

/** Farthest corner from a point. */
export function farthest(polygon: readonly Point[], x: number, y: number): number {
  let most = 0;
  for (const p of polygon) most = Math.max(most, Math.hypot(p[0] - x, p[1] - y));
  return most;
}
