import { describe, expect, it } from 'vitest';
import { distanceToPolygon } from '../../src/geometry/area.ts';
import { fitWay } from '../../src/geometry/fit.ts';
import { circle, flatten, rectangle } from '../../src/geometry/ring.ts';
import { pointOn, segmentLength } from '../../src/geometry/segment.ts';
import type { Segment, Vec } from '../../src/geometry/types.ts';
import { roundedSquare, SHAPES } from '../support/pocketShapes.ts';

const closed = (points: readonly Vec[]): Vec[] => [...points, ...points.slice(0, 1)];

function farthestFrom(points: readonly Vec[], sides: readonly Segment[]): number {
  const path = sides.flatMap((s) => Array.from({ length: 200 }, (_, i) => pointOn(s, i / 200)));
  return Math.max(...points.map((p) => distanceToPolygon(path, p)));
}

describe('a way fitted with lines and arcs', () => {
  it('gives a circle back as a few arcs of its radius', () => {
    const sides = fitWay(closed(flatten(circle([3, 4], 5), 0.0005)), 0.001);
    expect(sides.length).toBeLessThanOrEqual(4);
    for (const side of sides) expect(side.kind === 'arc' ? side.radius : 0).toBeCloseTo(5, 3);
    expect(sides.reduce((sum, s) => sum + segmentLength(s), 0)).toBeCloseTo(10 * Math.PI, 2);
  });

  it('keeps corners sharp and straight sides straight', () => {
    const sides = fitWay(closed(flatten(rectangle({ x: [0, 4], y: [0, 3] }), 0.001)), 0.01);
    expect(sides.map((s) => s.kind)).toEqual(['line', 'line', 'line', 'line']);
  });

  it('joins straight pieces and finds the fillets between them', () => {
    const sides = fitWay(closed(flatten(roundedSquare(20, 3), 0.0005)), 0.001);
    expect(sides.filter((s) => s.kind === 'arc')).toHaveLength(4);
    expect(sides.filter((s) => s.kind === 'line')).toHaveLength(4);
  });

  it('leaves the points of a free form by no more than it may, with far fewer pieces', () => {
    const points = closed(flatten(SHAPES['free form'].outer, 0.0005));
    const sides = fitWay(points, 0.004);
    expect(sides.length).toBeLessThan(points.length / 4);
    expect(farthestFrom(points, sides)).toBeLessThanOrEqual(0.0045);
  });

  it('runs on without a gap, and every arc has one radius at both its ends', () => {
    const sides = fitWay(closed(flatten(SHAPES['free form'].outer, 0.0005)), 0.004);
    sides.forEach((side, i) => {
      const before = sides[i - 1];
      if (before !== undefined) expect(side.from).toEqual(before.to);
      if (side.kind !== 'arc') return;
      const radii = [side.from, side.to].map((p) => Math.hypot(p[0] - side.centre[0], p[1] - side.centre[1]));
      expect(Math.abs((radii[0] ?? 0) - (radii[1] ?? 1))).toBeLessThan(1e-9);
    });
  });
});
