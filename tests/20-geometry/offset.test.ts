import { describe, expect, it } from 'vitest';
import { offsetRing } from '../../src/geometry/kernel/offset.ts';
import { area, circle, flatten, perimeter, rectangle, segments } from '../../src/geometry/ring.ts';
import { pointOn } from '../../src/geometry/segment.ts';
import type { Ring, Vec } from '../../src/geometry/types.ts';

// Maker.js rounds its results to about 1e-7; a wall tolerance is 0.01.
const KERNEL = 2e-6;

const taper: Ring = [
  { x: 0, y: -22, bulge: 0 },
  { x: 440, y: -30, bulge: 0.2 },
  { x: 450, y: -20, bulge: 0 },
  { x: 450, y: 20, bulge: 0.2 },
  { x: 440, y: 30, bulge: 0 },
  { x: 0, y: 22, bulge: 0 },
];
const plate: Ring = [
  { x: -35, y: 0, bulge: -0.05 },
  { x: 35, y: 0, bulge: 0 },
  { x: 35, y: 40, bulge: 0 },
  { x: -35, y: 40, bulge: 0 },
];

/** Distance from a point to a ring by brute force over fine chords: another route than the kernel's. */
function distanceTo(ring: Ring, [px, py]: Vec): number {
  const points = flatten(ring, 1e-7);
  return points.reduce((least, [ax, ay], i) => {
    const [bx, by] = points[(i + 1) % points.length] ?? [ax, ay];
    const t = Math.max(
      0,
      Math.min(1, ((px - ax) * (bx - ax) + (py - ay) * (by - ay)) / ((bx - ax) ** 2 + (by - ay) ** 2)),
    );
    return Math.min(least, Math.hypot(px - ax - t * (bx - ax), py - ay - t * (by - ay)));
  }, Infinity);
}

describe('offsetRing', () => {
  it.each<[string, Ring, number]>([
    ['tapered board', taper, 1.5875],
    ['tapered board', taper, -1.5875],
    ['tapered board', taper, 0.075],
    ['plate with a hollow edge', plate, 0.1],
    ['plate with a hollow edge', plate, -0.1],
    ['plate with a hollow edge', plate, 3],
  ])('every side of a %s lies at the distance asked', (_name, ring, by) => {
    const [result, ...more] = offsetRing(ring, by);
    expect(more).toEqual([]);
    const sides = segments(result ?? []);
    expect(sides.length).toBeGreaterThanOrEqual(ring.length);
    for (const side of sides)
      for (const t of [0, 0.25, 0.5, 0.75])
        expect(distanceTo(ring, pointOn(side, t))).toBeCloseTo(Math.abs(by), 5);
  });

  it('grows a rectangle by the formula of Steiner: A + P d + pi d^2', () => {
    const ring = rectangle({ x: [0, 100], y: [0, 40] });
    const [grown] = offsetRing(ring, 2);
    expect(area(grown ?? [])).toBeCloseTo(4000 + 280 * 2 + Math.PI * 4, 4);
    expect(perimeter(grown ?? [])).toBeCloseTo(280 + 2 * Math.PI * 2, 5);
  });

  it('keeps circles circles, and leaves nothing of a circle smaller than the offset', () => {
    expect(offsetRing(circle([3, 4], 2), 0.5)).toEqual([circle([3, 4], 2.5)]);
    expect(offsetRing(circle([3, 4], 2), -2.5)).toEqual([]);
  });

  it('leaves nothing inside a strip thinner than twice the offset', () => {
    expect(offsetRing(rectangle({ x: [0, 100], y: [0, 3] }), -1.6)).toEqual([]);
  });

  it('refuses a distance that is not a number', () => {
    expect(() => offsetRing(taper, Number.NaN)).toThrow('offset by NaN');
  });

  it('keeps its accuracy at large coordinates', () => {
    const far = taper.map((v) => ({ ...v, x: v.x + 1000 }));
    const [ring] = offsetRing(far, 1);
    for (const side of segments(ring ?? []))
      expect(Math.abs(distanceTo(far, side.from) - 1)).toBeLessThan(KERNEL);
  });
});
