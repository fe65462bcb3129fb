import { difference, type Geom, intersection, union } from 'polyclip-ts';
import { describe, expect, it } from 'vitest';
import {
  type Area,
  areaSize,
  distanceToArea,
  divided,
  figuresOf,
  footOn,
  isInArea,
  isNear,
  lengthRound,
  pointAt,
  stretchOf,
} from '../../src/geometry/area.ts';
import { areaOf, common, grown, less, opened, united } from '../../src/geometry/kernel/area.ts';
import { circle, rectangle, reverse, ringFromPoints } from '../../src/geometry/ring.ts';
import { SHAPES } from '../support/pocketShapes.ts';

const square: Area = areaOf({ outer: rectangle({ x: [0, 10], y: [0, 10] }), holes: [] });
const disc: Area = areaOf({ outer: circle([8, 6], 5), holes: [] });

/** Another polygon library, as a referee. */
const asGeom = (area: Area): Geom => area.map((polygon) => [polygon.map(([x, y]) => [x, y])]) as Geom;
const sizeOf = (geom: ReturnType<typeof union>): number =>
  geom.reduce(
    (sum, polygon) => sum + polygon.reduce((s, ring, i) => s + (i === 0 ? 1 : -1) * ringSize(ring), 0),
    0,
  );
const ringSize = (ring: readonly (readonly number[])[]): number =>
  Math.abs(
    ring.reduce((sum, p, i) => {
      const q = ring[(i + 1) % ring.length] ?? p;
      return sum + ((p[0] ?? 0) * (q[1] ?? 0) - (q[0] ?? 0) * (p[1] ?? 0)) / 2;
    }, 0),
  );

describe('areas', () => {
  it('have the size of their outline, holes taken off', () => {
    const ring = areaOf(SHAPES['ring with an island']);
    expect(areaSize(ring)).toBeCloseTo(Math.PI * (400 - 64), 1);
    expect(figuresOf(ring)).toHaveLength(1);
    expect(isInArea(ring, [30, 30])).toBe(false);
    expect(isInArea(ring, [44, 30])).toBe(true);
    expect(distanceToArea(ring, [30, 30])).toBeCloseTo(8, 2);
  });

  it('take holes whichever way they were drawn', () => {
    const outer = circle([0, 0], 10);
    const hole = circle([0, 0], 4);
    const sizes = [hole, reverse(hole)].map((h) => areaSize(areaOf({ outer, holes: [h] })));
    expect(sizes[0]).toBeCloseTo(sizes[1] ?? 0, 9);
  });

  // Unions, differences and intersections against polyclip-ts, which shares no code with the planner's library.
  it('agree with another polygon library', () => {
    const cases = [
      [united(square, disc), union(asGeom(square), asGeom(disc))],
      [less(square, disc), difference(asGeom(square), asGeom(disc))],
      [common(square, disc), intersection(asGeom(square), asGeom(disc))],
    ] as const;
    for (const [mine, theirs] of cases) expect(areaSize(mine)).toBeCloseTo(sizeOf(theirs), 2);
  });

  // Steiner's formula for convex sets: area of the outer parallel set = A + P d + pi d^2.
  it('grow by Steiner’s formula and shrink to what is left of a square', () => {
    expect(areaSize(grown(square, 2))).toBeCloseTo(100 + 40 * 2 + Math.PI * 4, 1);
    expect(areaSize(grown(square, -2))).toBeCloseTo(36, 6);
    expect(grown(square, -5.01)).toEqual([]);
  });

  // Four corners, each a square less a quarter disc: (4 - pi) r^2.
  it('lose their corners when opened, and nothing else', () => {
    expect(areaSize(square) - areaSize(opened(square, 2))).toBeCloseTo((4 - Math.PI) * 4, 1);
  });

  it('find the nearest place, lengths and stretches along a boundary', () => {
    const way = square[0] ?? [];
    expect(lengthRound(way)).toBe(40);
    const foot = footOn(way, [3, -1]);
    expect(foot.distance).toBeCloseTo(1, 12);
    expect(pointAt(way, foot.along)).toEqual(foot.at);
    const stretch = stretchOf(way, foot.along, foot.along + 50);
    const length = stretch.slice(1).reduce((sum, p, i) => {
      const q = stretch[i] ?? p;
      return sum + Math.hypot(p[0] - q[0], p[1] - q[1]);
    }, 0);
    expect(length).toBeCloseTo(50, 9);
    expect(divided(way, 3)).toHaveLength(16);
  });

  it('tell near from far as the distance does', () => {
    const area = areaOf(SHAPES.star);
    for (let i = 0; i < 400; i += 1) {
      const p = [10 + (i % 20) * 2.03, 10 + Math.floor(i / 20) * 2.03] as const;
      for (const most of [0.01, 0.7, 3]) expect(isNear(area, p, most)).toBe(distanceToArea(area, p) <= most);
    }
  });

  it('fall into separate figures, each with its own holes', () => {
    const far = areaOf({ outer: circle([40, 0], 6), holes: [circle([40, 0], 2)] });
    const figures = figuresOf([...square, ...far]);
    expect(figures.map((f) => f.length).sort()).toEqual([1, 2]);
    expect(
      areaOf({
        outer: ringFromPoints([
          [0, 0],
          [1, 0],
          [0, 1],
        ]),
        holes: [],
      }),
    ).toHaveLength(1);
  });
});
