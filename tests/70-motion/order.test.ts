import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { circle, rectangle, reverse } from '../../src/geometry/ring.ts';
import type { Vec } from '../../src/geometry/types.ts';
import { distance } from '../../src/geometry/vec.ts';
import { innerFirst } from '../../src/motion/nesting.ts';
import { type Stop, shortTravel, shortWays, type Visit } from '../../src/motion/order.ts';
import { instances, roundedLength } from '../support/tours.ts';

function stopAt(point: Vec): Stop<Vec> {
  return { thing: point, ways: [{ from: point, to: point }] };
}

/** Length of the travel between stops, from a start, and on to a home where there is one. */
function travel(
  stops: readonly Stop<number>[],
  visits: readonly Visit<number>[],
  start: Vec,
  home: Vec | null,
) {
  let here = start;
  let sum = 0;
  for (const { thing, way } of visits) {
    const taken = stops.find((s) => s.thing === thing)?.ways[way];
    if (taken === undefined) throw new Error(`${thing} has no way ${way}`);
    sum += distance(here, taken.from);
    here = taken.to;
  }
  return sum + (home === null ? 0 : distance(here, home));
}

function permutations<T>(list: readonly T[]): T[][] {
  if (list.length <= 1) return [[...list]];
  return list.flatMap((item, i) =>
    permutations([...list.slice(0, i), ...list.slice(i + 1)]).map((rest) => [item, ...rest]),
  );
}

/** Every choice of a way for each stop. */
function choices(stops: readonly Stop<number>[]): Visit<number>[][] {
  return stops.reduce<Visit<number>[][]>(
    (all, { thing, ways }) => all.flatMap((done) => ways.map((_, way) => [...done, { thing, way }])),
    [[]],
  );
}

function bestOf(stops: readonly Stop<number>[], start: Vec, home: Vec | null): number {
  const all = permutations(stops).flatMap(choices);
  return Math.min(...all.map((visits) => travel(stops, visits, start, home)));
}

const coordinate = fc.integer({ min: 0, max: 400 });
const place = fc.tuple(coordinate, coordinate);
const home = fc.option(place, { nil: null });
/**
 * A point; a stroke that may be run either way; or a stroke that comes back to where it started, from either
 * end.
 */
const shape = fc.tuple(fc.constantFrom('point', 'stroke', 'there and back'), place, place);

const pointOrStroke = fc.tuple(fc.constantFrom('point', 'stroke'), place, place);

function stopOf([kind, a, b]: readonly [string, Vec, Vec], thing: number): Stop<number> {
  if (kind === 'point') return { thing, ways: [{ from: a, to: a }] };
  const there = kind === 'stroke';
  return {
    thing,
    ways: [
      { from: a, to: there ? b : a },
      { from: b, to: there ? a : b },
    ],
  };
}

describe('shortTravel', () => {
  it('finds the best of all orders of up to six points, open or on to a home', () => {
    const points = fc.array(place, { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(points, place, home, (list, start, to) => {
        const stops = list.map((p, i) => stopOf(['point', p as Vec, p as Vec], i));
        const visits = shortTravel([stops], start as Vec, to as Vec | null);
        expect(visits.map((v) => v.thing).sort()).toEqual(stops.map((s) => s.thing));
        expect(travel(stops, visits, start as Vec, to as Vec | null)).toBeCloseTo(
          bestOf(stops, start as Vec, to as Vec | null),
          6,
        );
      }),
      { seed: 7, numRuns: 150 },
    );
  });

  it('runs strokes from either end, within a twentieth of the best of all orders and ends', () => {
    const shapes = fc.array(pointOrStroke, { minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(shapes, place, home, (list, start, to) => {
        const stops = list.map((s, i) => stopOf(s as readonly [string, Vec, Vec], i));
        const visits = shortTravel([stops], start as Vec, to as Vec | null);
        expect(new Set(visits.map((v) => v.thing)).size).toBe(stops.length);
        expect(travel(stops, visits, start as Vec, to as Vec | null)).toBeLessThanOrEqual(
          bestOf(stops, start as Vec, to as Vec | null) * 1.05 + 1e-6,
        );
      }),
      { seed: 11, numRuns: 150 },
    );
  });

  it('finishes a group before it begins the next, and leads toward it', () => {
    const near = [stopAt([10, 0]), stopAt([20, 0]), stopAt([30, 0])];
    const far = [stopAt([0, 10]), stopAt([-40, 10])];
    const order = shortTravel([near, [], far], [15, 0]).map((v) => v.thing);
    // Left to itself the first group would end at 30: the second lies the other way.
    expect(order).toEqual(
      [
        [30, 0],
        [20, 0],
        [10, 0],
        [0, 10],
        [-40, 10],
      ].map((p) => p),
    );
  });

  it('gives the same tour for the same stops, and no tour for none', () => {
    const points = instances.berlin52.points.map(stopAt);
    expect(shortTravel([points], [0, 0])).toEqual(shortTravel([points], [0, 0]));
    expect(shortTravel([], [0, 0])).toEqual([]);
  });

  it('takes places that coincide and places in a row', () => {
    const row = Array.from({ length: 40 }, (_, i) => stopAt([(i * 7) % 20, 0]));
    const order = shortTravel([row], [0, 0]).map((v) => v.thing[0]);
    expect(order).toEqual([...order].sort((a, b) => a - b));
  });
});

describe('shortTravel on published instances', () => {
  it.each(Object.entries(instances))(
    '%s comes within 1.5 % of the best round there is',
    (_, { points, best }) => {
      const [first, ...rest] = points;
      if (first === undefined) throw new Error('no points');
      const order = shortTravel([rest.map(stopAt)], first, first).map((v) => v.thing);
      expect(new Set(order).size).toBe(rest.length);
      const length = roundedLength([first, ...order]);
      expect(length).toBeGreaterThanOrEqual(best);
      expect(length).toBeLessThanOrEqual(best * 1.015);
    },
  );

  it('a thousand points of a grid come within 1.5 % of a step each, which is the least there can be', () => {
    // Taken in an order that has nothing to do with the grid: 371 and 1000 have no common divisor.
    const points = Array.from({ length: 1000 }, (_, i): Vec => {
      const k = (i * 371) % 1000;
      return [(k % 40) * 10, Math.floor(k / 40) * 10];
    });
    const [first, ...rest] = points;
    if (first === undefined) throw new Error('no points');
    const order = shortTravel([rest.map(stopAt)], first, first).map((v) => v.thing);
    const tour = [first, ...order, first];
    const length = tour.slice(1).reduce((sum, p, i) => sum + distance(tour[i] ?? p, p), 0);
    expect(length).toBeGreaterThanOrEqual(10_000 - 1e-6);
    expect(length).toBeLessThanOrEqual(10_150);
  });
});

describe('shortWays', () => {
  it('finds the best ends of strokes in a given order', () => {
    const shapes = fc.array(shape, { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(shapes, place, home, (list, start, to) => {
        const stops = list.map((s, i) => stopOf(s as readonly [string, Vec, Vec], i));
        const { visits, length, end } = shortWays(stops, start as Vec, to === null ? [] : [to as Vec]);
        expect(visits.map((v) => v.thing)).toEqual(stops.map((s) => s.thing));
        const best = Math.min(...choices(stops).map((v) => travel(stops, v, start as Vec, to as Vec | null)));
        expect(length).toBeCloseTo(best, 6);
        expect(travel(stops, visits, start as Vec, to as Vec | null)).toBeCloseTo(length, 6);
        const last = visits.at(-1);
        expect(stops.at(-1)?.ways[last?.way ?? -1]?.to).toEqual(end);
      }),
      { seed: 13, numRuns: 150 },
    );
  });
});

describe('innerFirst', () => {
  it('puts what lies within most outlines first', () => {
    const rings = {
      plate: rectangle({ x: [0, 100], y: [0, 60] }),
      window: reverse(rectangle({ x: [20, 80], y: [20, 50] })),
      hole: reverse(circle([10, 10], 3)),
      inlay: circle([50, 35], 8),
      other: rectangle({ x: [120, 160], y: [0, 60] }),
    };
    const names = Object.keys(rings) as (keyof typeof rings)[];
    expect(innerFirst(names, (name) => rings[name])).toEqual([
      ['inlay'],
      ['window', 'hole'],
      ['plate', 'other'],
    ]);
    expect(innerFirst([], () => [])).toEqual([]);
  });
});
