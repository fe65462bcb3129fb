import type { Vec } from './types.ts';
import { between, distance } from './vec.ts';

/** A closed chain of straight sides; the last point joins the first. */
export type Polygon = readonly Vec[];

/** A plane figure as polygons: outer ones counter-clockwise, holes clockwise. Empty: nothing. */
export type Area = readonly Polygon[];

/** A point of a polygon's boundary, and how far along the boundary from its first point it lies. */
export interface Foot {
  readonly at: Vec;
  readonly along: number;
  readonly distance: number;
}

/** Signed area of a polygon, counter-clockwise positive. */
export function polygonSize(polygon: Polygon): number {
  let twice = 0;
  polygon.forEach((p, i) => {
    const q = pointOf(polygon, i + 1);
    twice += p[0] * q[1] - q[0] * p[1];
  });
  return twice / 2;
}

/** Size of an area, its holes taken off. */
export function areaSize(area: Area): number {
  return area.reduce((sum, polygon) => sum + polygonSize(polygon), 0);
}

/** Length round a polygon. */
export function lengthRound(polygon: Polygon): number {
  return polygon.reduce((sum, p, i) => sum + distance(p, pointOf(polygon, i + 1)), 0);
}

/** Whether a point lies inside, by counting the sides to its right. */
export function isInArea(area: Area, [x, y]: Vec): boolean {
  let inside = false;
  for (const polygon of area) {
    let [px, py] = pointOf(polygon, -1);
    for (const [qx, qy] of polygon) {
      if (py > y !== qy > y && px + ((qx - px) * (y - py)) / (qy - py) > x) inside = !inside;
      px = qx;
      py = qy;
    }
  }
  return inside;
}

/** Distance from a point to a polygon's boundary. */
export function distanceToPolygon(polygon: Polygon, [x, y]: Vec): number {
  let least = Number.POSITIVE_INFINITY;
  let [px, py] = pointOf(polygon, -1);
  for (const [qx, qy] of polygon) {
    least = Math.min(least, squareToSide(x, y, px, py, qx, qy));
    px = qx;
    py = qy;
  }
  return Math.sqrt(least);
}

/** Distance from a point to an area's boundary; infinite when there is none. */
export function distanceToBoundary(area: Area, point: Vec): number {
  return area.reduce((least, p) => Math.min(least, distanceToPolygon(p, point)), Number.POSITIVE_INFINITY);
}

/** Distance from a point to an area: 0 inside. */
export function distanceToArea(area: Area, point: Vec): number {
  return isInArea(area, point) ? 0 : distanceToBoundary(area, point);
}

/** Whether a point is within a distance of an area: inside it or near its boundary. */
export function isNear(area: Area, point: Vec, most: number): boolean {
  return area.some((polygon) => isNearPolygon(polygon, point, most)) || isInArea(area, point);
}

/** Whether a point is within a distance of a polygon's boundary. */
export function isNearPolygon(polygon: Polygon, [x, y]: Vec, most: number): boolean {
  const square = most * most;
  let [px, py] = pointOf(polygon, -1);
  for (const [qx, qy] of polygon) {
    const [fromX, fromY] = [px, py];
    px = qx;
    py = qy;
    // Most sides are far away, which their box tells.
    if (fromX > x ? qx > x && Math.min(fromX, qx) - x > most : qx < x && x - Math.max(fromX, qx) > most)
      continue;
    if (fromY > y ? qy > y && Math.min(fromY, qy) - y > most : qy < y && y - Math.max(fromY, qy) > most)
      continue;
    if (squareToSide(x, y, fromX, fromY, qx, qy) <= square) return true;
  }
  return false;
}

function squareToSide(x: number, y: number, px: number, py: number, qx: number, qy: number): number {
  const [dx, dy] = [qx - px, qy - py];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - px) * dx + (y - py) * dy) / square));
  const [ex, ey] = [x - px - t * dx, y - py - t * dy];
  return ex * ex + ey * ey;
}

/** The point of a polygon's boundary that is nearest to a point. */
export function footOn(polygon: Polygon, point: Vec): Foot {
  let best: Foot = { at: pointOf(polygon, 0), along: 0, distance: Number.POSITIVE_INFINITY };
  let along = 0;
  polygon.forEach((p, i) => {
    const q = pointOf(polygon, i + 1);
    const length = distance(p, q);
    const dot = (point[0] - p[0]) * (q[0] - p[0]) + (point[1] - p[1]) * (q[1] - p[1]);
    const t = length === 0 ? 0 : Math.min(1, Math.max(0, dot / (length * length)));
    const at = between(p, q, t);
    const off = distance(at, point);
    if (off < best.distance) best = { at, along: along + t * length, distance: off };
    along += length;
  });
  return best;
}

/** The way along a polygon from one distance to a later one, both ends included; distances run on past a full turn. */
export function stretchOf(polygon: Polygon, from: number, to: number): Vec[] {
  const round = lengthRound(polygon);
  if (!(round > 0 && to >= from)) throw new Error(`a stretch from ${from} to ${to} of ${round}`);
  const turns = Math.floor(from / round);
  const points: Vec[] = [pointAt(polygon, from)];
  let along = turns * round;
  for (let i = 0; along < to; i += 1) {
    if (along > from + 1e-9 && along < to - 1e-9) points.push(pointOf(polygon, i));
    along += distance(pointOf(polygon, i), pointOf(polygon, i + 1));
  }
  points.push(pointAt(polygon, to));
  return points;
}

/** The point of a polygon at a distance along it, counted round and round. */
export function pointAt(polygon: Polygon, along: number): Vec {
  const round = lengthRound(polygon);
  let left = along - Math.floor(along / round) * round;
  for (let i = 0; i < polygon.length; i += 1) {
    const [p, q] = [pointOf(polygon, i), pointOf(polygon, i + 1)];
    const length = distance(p, q);
    if (left <= length) return length === 0 ? p : between(p, q, left / length);
    left -= length;
  }
  return pointOf(polygon, 0);
}

/** The same boundary with points no farther apart than `most`. */
export function divided(polygon: Polygon, most: number): Vec[] {
  return polygon.flatMap((p, i) => {
    const q = pointOf(polygon, i + 1);
    const count = Math.max(1, Math.ceil(distance(p, q) / most));
    return Array.from({ length: count }, (_, k) => between(p, q, k / count));
  });
}

/** Point by number, counted round and round. */
export function pointOf(polygon: Polygon, index: number): Vec {
  const point = polygon[((index % polygon.length) + polygon.length) % polygon.length];
  if (point === undefined) throw new Error(`point ${index} of a polygon of ${polygon.length}`);
  return point;
}

/** The separate figures of an area, each an outer polygon with the holes in it. */
export function figuresOf(area: Area): Area[] {
  const outers = area.filter((p) => polygonSize(p) > 0);
  const holes = area.filter((p) => polygonSize(p) < 0);
  const sizes = new Map(outers.map((p) => [p, polygonSize(p)] as const));
  const owners = holes.map((hole) => {
    const around = outers.filter((outer) => isInArea([outer], pointOf(hole, 0)));
    return around.sort((a, b) => (sizes.get(a) ?? 0) - (sizes.get(b) ?? 0))[0];
  });
  return outers.map((outer) => [outer, ...holes.filter((_, i) => owners[i] === outer)]);
}
