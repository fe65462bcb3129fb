import fc from 'fast-check';
import makerjs from 'makerjs';
import { describe, expect, it } from 'vitest';
import { bulgedOut } from '../../src/geometry/bulgedOut.ts';
import { distanceToRing } from '../../src/geometry/distance.ts';
import { area, circle, perimeter, rectangle, segments } from '../../src/geometry/ring.ts';
import { pointOn } from '../../src/geometry/segment.ts';
import type { Ring } from '../../src/geometry/types.ts';

/** A plate with one hollow side, as of a gauge, 64 mm long. */
const hollow = (bulge: number): Ring => [
  { x: 0, y: 0, bulge: -bulge },
  { x: 64, y: 0, bulge: 0 },
  { x: 64, y: 40, bulge: 0 },
  { x: 0, y: 40, bulge: 0 },
];
/** Corners on a circle are convex in their order; some sides are rounded, but none beyond that circle. */
const convexRing = fc
  .array(fc.record({ gap: fc.double({ min: 0.3, max: 1, noNaN: true }), round: fc.boolean() }), {
    minLength: 3,
    maxLength: 7,
  })
  .map((corners): Ring => {
    const whole = corners.reduce((sum, c) => sum + c.gap, 0);
    let angle = 0;
    return corners.map(({ gap, round }) => {
      const at = angle;
      const turn = (gap / whole) * 2 * Math.PI;
      angle += turn;
      return { x: 50 * Math.cos(at), y: 50 * Math.sin(at), bulge: round ? Math.tan(turn / 8) : 0 };
    });
  });

describe('bulgedOut', () => {
  it('grows convex rings by the formulas of Steiner: P + 2 pi d, and A + P d + pi d^2', () => {
    fc.assert(
      fc.property(convexRing, fc.double({ min: 0.01, max: 10, noNaN: true }), (ring, by) => {
        const grown = bulgedOut(ring, by) ?? [];
        expect(perimeter(grown)).toBeCloseTo(perimeter(ring) + 2 * Math.PI * by, 8);
        expect(area(grown)).toBeCloseTo(area(ring) + perimeter(ring) * by + Math.PI * by * by, 7);
      }),
    );
  });

  it.each([0.04, 0.2, 0.41])('lies everywhere at the distance asked from a ring hollowed by %f', (bulge) => {
    const grown = bulgedOut(hollow(bulge), 1.5);
    expect(grown).not.toBeNull();
    for (const side of segments(grown ?? []))
      for (const share of [0, 0.2, 0.5, 0.9])
        expect(distanceToRing(hollow(bulge), pointOn(side, share))).toBeCloseTo(1.5, 9);
  });

  it('is the outline that Maker.js draws', () => {
    for (const [ring, by] of [
      [rectangle({ x: [0, 40], y: [0, 81] }), 0.09],
      [rectangle({ x: [0, 40], y: [0, 81] }), 3],
    ] as const) {
      const drawn = makerjs.measure.modelExtents(
        makerjs.model.outline(new makerjs.models.Rectangle(40, 81), by),
      );
      const { high, low } = drawn ?? { high: [], low: [] };
      const grown = bulgedOut(ring, by) ?? [];
      expect(Math.max(...grown.map((v) => v.x))).toBeCloseTo(high[0] ?? Number.NaN, 6);
      expect(Math.min(...grown.map((v) => v.y))).toBeCloseTo(low[1] ?? Number.NaN, 6);
      expect(grown).toHaveLength(8);
    }
  });

  it.each<[string, Ring, number]>([
    ['inward', rectangle({ x: [0, 10], y: [0, 10] }), -1],
    ['clockwise', [...rectangle({ x: [0, 10], y: [0, 10] })].reverse(), 1],
    [
      'an inner corner',
      [
        { x: 0, y: 0, bulge: 0 },
        { x: 10, y: 0, bulge: 0 },
        { x: 2, y: 2, bulge: 0 },
        { x: 0, y: 10, bulge: 0 },
      ],
      1,
    ],
    ['a hollow narrower than two offsets', hollow(0.2), 32],
    ['a hollow whose radius is smaller than the offset', hollow(0.9), 32.1],
    [
      'two hollow sides',
      [
        { x: 0, y: 0, bulge: -0.1 },
        { x: 64, y: 0, bulge: 0 },
        { x: 64, y: 40, bulge: -0.1 },
        { x: 0, y: 40, bulge: 0 },
      ],
      1,
    ],
    [
      'a star run through twice round',
      [0, 2, 4, 1, 3].map((k) => ({
        x: Math.cos((k * 2 * Math.PI) / 5),
        y: Math.sin((k * 2 * Math.PI) / 5),
        bulge: 0,
      })),
      0.1,
    ],
  ])('leaves other rings to the kernel: %s', (_name, ring, by) => {
    expect(bulgedOut(ring, by)).toBeNull();
  });

  it('takes a circle of two arcs as it is, only larger', () => {
    const grown = bulgedOut(circle([3, 4], 5), 2) ?? [];
    expect(grown).toHaveLength(2);
    expect(area(grown)).toBeCloseTo(Math.PI * 49, 9);
  });
});
