import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Area, isNear } from '../../src/geometry/area.ts';
import { areaOf } from '../../src/geometry/kernel/area.ts';
import { offsetRing } from '../../src/geometry/kernel/offset.ts';
import { nearnessTo } from '../../src/geometry/nearness.ts';
import { parallelRing } from '../../src/geometry/parallel.ts';
import { circle, rectangle, ringFromPoints, segments } from '../../src/geometry/ring.ts';
import { segmentLength } from '../../src/geometry/segment.ts';
import type { Ring } from '../../src/geometry/types.ts';
import { roundedSquare, SHAPES } from '../support/pocketShapes.ts';

describe('nearness by a grid', () => {
  it('is that of looking at every side, for any area, point and distance', () => {
    const names = Object.keys(SHAPES) as (keyof typeof SHAPES)[];
    const areas = new Map<string, Area>(names.map((name) => [name, areaOf(SHAPES[name])]));
    const place = fc.integer({ min: -5_000, max: 65_000 }).map((n) => n / 1000);
    let inside = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...names),
        fc.integer({ min: 1, max: 12_000 }).map((n) => n / 1000),
        fc.array(fc.tuple(place, place), { minLength: 20, maxLength: 20 }),
        (name, most, points) => {
          const area = areas.get(name) ?? [];
          const near = nearnessTo(area, most);
          for (const p of points) {
            expect(near(p)).toBe(isNear(area, p, most));
            inside += near(p) ? 1 : 0;
          }
        },
      ),
      { seed: 5, numRuns: 100 },
    );
    expect(inside).toBeGreaterThan(100);
  });

  it('is nothing to an empty area', () => {
    expect(nearnessTo([], 5)([0, 0])).toBe(false);
  });
});

const lengthOf = (ring: Ring): number => segments(ring).reduce((sum, side) => sum + segmentLength(side), 0);

// Maker.js offsets the same rings on its own.
describe('a ring beside another', () => {
  it.each([
    ['a circle', circle([3, 4], 5), 1.5],
    ['a square', rectangle({ x: [0, 20], y: [0, 20] }), 1.5],
    ['a rounded square', roundedSquare(30, 4), 1.5],
    ['a rounded square whose arcs are as wide as the cutter but for a hair', roundedSquare(30, 1.6), 1.59],
  ] as const)('of %s is what an outside kernel makes of it', (_, ring, by) => {
    const found = parallelRing(ring, by);
    const [other] = offsetRing(ring, -by);
    expect(lengthOf(found ?? [])).toBeCloseTo(lengthOf(other ?? []), 5);
  });

  it('is not made where its sides do not simply meet', () => {
    expect(parallelRing(circle([0, 0], 1), 1.2)).toBeNull();
    // An outer corner, which the cutter rounds.
    const notched = ringFromPoints([
      [0, 0],
      [20, 0],
      [10, 5],
      [20, 20],
      [0, 20],
    ]);
    expect(parallelRing(notched, 1)).toBeNull();
  });
});
