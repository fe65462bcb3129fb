import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clearanceBetween } from '../../src/geometry/clearance.ts';
import { circle, flatten } from '../../src/geometry/ring.ts';
import type { Vec } from '../../src/geometry/types.ts';

const box = (x: number, y: number, w: number, h: number): Vec[] => [
  [x, y],
  [x + w, y],
  [x + w, y + h],
  [x, y + h],
];

describe('the least distance between two figures', () => {
  it('is that of corners, sides and both', () => {
    expect(clearanceBetween(box(0, 0, 1, 1), box(4, 5, 1, 1))).toEqual({ distance: 5, at: [2.5, 3] });
    expect(clearanceBetween(box(0, 0, 4, 1), box(1, 3, 1, 1)).distance).toBe(2);
    expect(
      clearanceBetween(box(0, 0, 4, 1), [
        [2, 3],
        [5, 6],
        [2, 9],
      ]).distance,
    ).toBe(2);
  });

  it('is 0 where they cross, touch, or one lies in the other', () => {
    expect(clearanceBetween(box(0, 0, 4, 1), box(1, -2, 1, 9)).distance).toBe(0);
    expect(clearanceBetween(box(0, 0, 1, 1), box(1, 0, 1, 1)).distance).toBe(0);
    expect(clearanceBetween(box(0, 0, 9, 9), box(3, 3, 1, 1)).distance).toBe(0);
    expect(clearanceBetween(box(3, 3, 1, 1), box(0, 0, 9, 9)).distance).toBe(0);
  });

  // Closed form: circles, whose distance is that of their centres less both radii.
  it('agrees with circles wherever they lie', () => {
    const real = (least: number, most: number) => fc.double({ min: least, max: most, noNaN: true });
    fc.assert(
      fc.property(real(-9, 9), real(-9, 9), real(0.5, 4), real(0.5, 4), (x, y, a, b) => {
        const expected = Math.max(0, Math.hypot(x, y) - a - b);
        const found = clearanceBetween(
          flatten(circle([0, 0], a), 1e-4),
          flatten(circle([x, y], b), 1e-4),
        ).distance;
        // Chords lie inside their circles.
        expect(found).toBeGreaterThanOrEqual(expected - 1e-9);
        expect(found).toBeLessThanOrEqual(expected + 2.1e-4);
      }),
      { seed: 4, numRuns: 300 },
    );
  });
});
