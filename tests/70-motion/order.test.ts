import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Vec } from '../../src/geometry/types.ts';
import { distance } from '../../src/geometry/vec.ts';
import { shortTravel } from '../../src/motion/order.ts';

function travel(points: readonly Vec[]): number {
  return points.reduce((sum, p, i) => sum + distance(points[i - 1] ?? [0, 0], p), 0);
}

function permutations<T>(list: readonly T[]): T[][] {
  if (list.length <= 1) return [[...list]];
  return list.flatMap((item, i) =>
    permutations([...list.slice(0, i), ...list.slice(i + 1)]).map((rest) => [item, ...rest]),
  );
}

describe('shortTravel', () => {
  it('keeps every stop, and stays within a quarter of the best of all orders', () => {
    const coordinate = fc.integer({ min: 0, max: 400 });
    fc.assert(
      fc.property(fc.array(fc.tuple(coordinate, coordinate), { minLength: 1, maxLength: 6 }), (points) => {
        const tour = shortTravel(points as Vec[], (p) => p, [0, 0]);
        expect([...tour].sort()).toEqual([...points].sort());
        const best = Math.min(...permutations(points as Vec[]).map(travel));
        expect(travel(tour)).toBeLessThanOrEqual(best * 1.25 + 1e-9);
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});
