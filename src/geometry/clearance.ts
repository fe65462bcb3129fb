import { isInArea, type Polygon, pointOf } from './area.ts';
import type { Vec } from './types.ts';
import { between, distance } from './vec.ts';

/** The least distance between two figures, and the middle of the gap there. */
export interface Clearance {
  /** 0 where they touch or overlap. */
  readonly distance: number;
  readonly at: Vec;
}

/** Least distance between two polygons, sides included; 0 when they cross or one lies inside the other. */
export function clearanceBetween(a: Polygon, b: Polygon): Clearance {
  const [first, other] = [pointOf(a, 0), pointOf(b, 0)];
  if (isInArea([b], first)) return { distance: 0, at: first };
  if (isInArea([a], other)) return { distance: 0, at: other };
  return clearanceOfBoundaries(a, b);
}

/** Least distance between the boundaries of two polygons, wherever they lie. */
export function clearanceOfBoundaries(a: Polygon, b: Polygon): Clearance {
  let best: Clearance = { distance: Number.POSITIVE_INFINITY, at: pointOf(a, 0) };
  a.forEach((from, i) => {
    const to = pointOf(a, i + 1);
    b.forEach((start, k) => {
      const gap = clearanceOfSides([from, to], [start, pointOf(b, k + 1)]);
      if (gap.distance < best.distance) best = gap;
    });
  });
  return best;
}

type Side = readonly [Vec, Vec];

function clearanceOfSides(p: Side, q: Side): Clearance {
  const crossing = crossingOf(p, q);
  if (crossing !== null) return { distance: 0, at: crossing };
  const gaps = [toSide(p[0], q), toSide(p[1], q), toSide(q[0], p), toSide(q[1], p)];
  return gaps.reduce((least, gap) => (gap.distance < least.distance ? gap : least));
}

function toSide(point: Vec, [from, to]: Side): Clearance {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const square = dx * dx + dy * dy;
  const along = (point[0] - from[0]) * dx + (point[1] - from[1]) * dy;
  const foot = between(from, to, square === 0 ? 0 : Math.min(1, Math.max(0, along / square)));
  return { distance: distance(point, foot), at: between(point, foot, 0.5) };
}

function crossingOf([a, b]: Side, [c, d]: Side): Vec | null {
  const [ux, uy] = [b[0] - a[0], b[1] - a[1]];
  const [vx, vy] = [d[0] - c[0], d[1] - c[1]];
  const turn = ux * vy - uy * vx;
  if (turn === 0) return null;
  const t = ((c[0] - a[0]) * vy - (c[1] - a[1]) * vx) / turn;
  const s = ((c[0] - a[0]) * uy - (c[1] - a[1]) * ux) / turn;
  return t >= 0 && t <= 1 && s >= 0 && s <= 1 ? between(a, b, t) : null;
}
