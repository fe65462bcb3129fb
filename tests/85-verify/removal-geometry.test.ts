/** Distances, insides and spans in closed form against plain sampling and another library. */
import fc from 'fast-check';
import { union } from 'polyclip-ts';
import { describe, expect, it } from 'vitest';
import type { IntentRing } from '../../src/intent/types.ts';
import {
  lowestOver,
  newPiece,
  newSpan,
  type Piece,
  planLength,
  xAt,
  yAt,
  zAt,
} from '../../src/verify/removal/piece.ts';
import { boxOf, linePrim, type Prim, pointToPrim, primDistance } from '../../src/verify/removal/prim.ts';
import { edgesOf, isInside, regionOf, signedArea, signedDistance } from '../../src/verify/removal/rings.ts';
import { heightAt, highestUnderDisc } from '../../src/verify/removal/surface.ts';
import { circle, rectangle } from '../support/proofSamples.ts';

const SEED = { seed: 20260, numRuns: 300 };
const coordinate = fc.double({ min: -10, max: 10, noNaN: true });
const lines = fc
  .tuple(coordinate, coordinate, coordinate, coordinate)
  .map(([a, b, c, d]) => linePrim(a, b, c, d));
const arcs = fc
  .tuple(
    coordinate,
    coordinate,
    fc.double({ min: 0.1, max: 8, noNaN: true }),
    fc.double({ min: -3.1, max: 3.1, noNaN: true }),
    fc.double({ min: 0.05, max: 3.14, noNaN: true }),
    fc.boolean(),
  )
  .map(([cx, cy, radius, a0, turn, left]): Prim => {
    const sweep = left ? turn : -turn;
    const at = (a: number): [number, number] => [cx + radius * Math.cos(a), cy + radius * Math.sin(a)];
    const [x0, y0] = at(a0);
    const [x1, y1] = at(a0 + sweep);
    return { arc: true, x0, y0, x1, y1, cx, cy, radius, a0, sweep };
  });
const prims = fc.oneof(lines, arcs);

function pointsOf(p: Prim, count: number): [number, number][] {
  const piece = { ...newPiece(), ...p };
  return Array.from({ length: count + 1 }, (_, k) => [xAt(piece, k / count), yAt(piece, k / count)]);
}

describe('distances', () => {
  it('from a point to a line or arc are those of its nearest sample', () => {
    fc.assert(
      fc.property(prims, coordinate, coordinate, (p, x, y) => {
        const sampled = Math.min(...pointsOf(p, 2000).map(([a, b]) => Math.hypot(a - x, b - y)));
        const exact = pointToPrim(x, y, p);
        expect(exact).toBeLessThanOrEqual(sampled + 1e-9);
        expect(sampled - exact).toBeLessThan(0.03);
      }),
      SEED,
    );
  });

  it('between two lines or arcs are those of their nearest samples', () => {
    fc.assert(
      fc.property(prims, prims, (a, b) => {
        const sampled = Math.min(...pointsOf(a, 400).map(([x, y]) => pointToPrim(x, y, b)));
        const exact = primDistance(a, b);
        expect(exact).toBeLessThanOrEqual(sampled + 1e-9);
        expect(sampled - exact).toBeLessThan(0.08);
        expect(primDistance(b, a)).toBeCloseTo(exact, 9);
      }),
      SEED,
    );
  });

  it('boxes hold every sample and are touched on all sides', () => {
    fc.assert(
      fc.property(prims, (p) => {
        const box = boxOf(p);
        const xs = pointsOf(p, 3000).map((q) => q[0]);
        const ys = pointsOf(p, 3000).map((q) => q[1]);
        expect(Math.abs(Math.min(...xs) - box.minX)).toBeLessThan(1e-4);
        expect(Math.abs(Math.max(...xs) - box.maxX)).toBeLessThan(1e-4);
        expect(Math.abs(Math.min(...ys) - box.minY)).toBeLessThan(1e-4);
        expect(Math.abs(Math.max(...ys) - box.maxY)).toBeLessThan(1e-4);
      }),
      SEED,
    );
  });
});

describe('regions', () => {
  it('of a quarter bulge have the area of their circle', () => {
    expect(signedArea(edgesOf(circle(3, 4, 5)))).toBeCloseTo(Math.PI * 25, 9);
    const bulge = Math.tan(Math.PI / 8);
    const round: IntentRing = [
      [5, 0, bulge],
      [0, 5, bulge],
      [-5, 0, bulge],
      [0, -5, bulge],
    ];
    expect(signedArea(edgesOf(round))).toBeCloseTo(Math.PI * 25, 9);
    expect(regionOf([round]).circle).toMatchObject({ radius: 5 });
  });

  it('know inside from outside beside a circle and in a hole', () => {
    const ring = regionOf([
      circle(0, 0, 5),
      [...circle(1, 0, 2)].reverse().map(([x, y]) => [x, y, -1] as const),
    ]);
    fc.assert(
      fc.property(coordinate, coordinate, (x, y) => {
        const wanted = Math.hypot(x, y) < 5 && Math.hypot(x - 1, y) > 2;
        expect(isInside(ring, x, y)).toBe(wanted);
        const away = wanted ? Math.min(5 - Math.hypot(x, y), Math.hypot(x - 1, y) - 2) : null;
        if (away !== null) expect(signedDistance(ring, x, y, 100)).toBeCloseTo(away, 9);
      }),
      SEED,
    );
  });

  it('of many sides agree with another polygon library about what lies inside', () => {
    const star = Array.from({ length: 60 }, (_, k): [number, number] => {
      const r = k % 2 === 0 ? 9 : 4;
      return [r * Math.cos((k * Math.PI) / 30), r * Math.sin((k * Math.PI) / 30)];
    });
    const region = regionOf([star]);
    expect(region.index).not.toBeNull();
    fc.assert(
      fc.property(coordinate, coordinate, (x, y) => {
        const speck: [number, number][] = [
          [x - 1e-3, y - 1e-3],
          [x + 1e-3, y - 1e-3],
          [x, y + 1e-3],
        ];
        if (Math.abs(signedDistance(region, x, y, 1)) < 0.01) return;
        // A speck inside the star adds nothing to it: the union stays one polygon of the star's own corners.
        const joined = union([star], [speck]);
        const isWithin = joined.length === 1 && joined[0]?.[0]?.length === star.length + 1;
        expect(isInside(region, x, y)).toBe(isWithin);
      }),
      { ...SEED, numRuns: 100 },
    );
  });

  it('a rectangle is convex, an L is not', () => {
    expect(regionOf([rectangle(0, 0, 4, 3)]).convex).toBe(true);
    expect(
      regionOf([
        [
          [0, 0],
          [4, 0],
          [4, 1],
          [1, 1],
          [1, 3],
          [0, 3],
        ],
      ]).convex,
    ).toBe(false);
  });
});

describe('heights', () => {
  const cone = {
    kind: 'cone' as const,
    x: [0, 450] as const,
    R: [305, 406.4] as const,
    crest: 0.3,
    below: 2.2,
  };

  it('follow z = crest + sqrt(R(x)^2 - y^2) - R(x) - below', () => {
    const R = 305 + ((406.4 - 305) * 120) / 450;
    expect(heightAt(cone, 120, 25)).toBeCloseTo(0.3 + Math.sqrt(R * R - 625) - R - 2.2, 12);
  });

  it('under a disc the highest is that of the highest of its samples', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 450, noNaN: true }),
        fc.double({ min: -28, max: 28, noNaN: true }),
        fc.constantFrom(0.3, 1.5, 3),
        (x, y, r) => {
          const sampled = Array.from({ length: 720 }, (_, k) => (k * Math.PI) / 360).map((a) =>
            heightAt(cone, x + r * Math.cos(a), y + r * Math.sin(a)),
          );
          const highest =
            Math.abs(y) <= r ? heightAt(cone, x, 0) : Math.max(...sampled, heightAt(cone, x, y));
          expect(highestUnderDisc(cone, x, y, r)).toBeGreaterThanOrEqual(highest - 1e-9);
          expect(highestUnderDisc(cone, x, y, r)).toBeLessThan(highest + 1e-5);
        },
      ),
      SEED,
    );
  });
});

describe('pieces', () => {
  const upright = (): Piece => {
    // Over the hill of R 50 from y 5 to y 25, centre at (0, -50).
    const z = (y: number): number => Math.sqrt(2500 - y * y) - 50;
    return {
      ...newPiece(),
      x0: 3,
      x1: 3,
      y0: 5,
      y1: 25,
      z0: z(5),
      z1: z(25),
      upright: true,
      uc: 0,
      uz: -50,
      radius: 50,
    };
  };

  it('upright keep their circle between their ends', () => {
    const p = upright();
    for (const t of [0, 0.3, 0.5, 1])
      expect(zAt(p, t)).toBeCloseTo(Math.sqrt(2500 - yAt(p, t) ** 2) - 50, 12);
  });

  it('are lowest over a point at an end of the stretch that covers it', () => {
    const sloped = fc
      .tuple(prims, coordinate, coordinate)
      .map(([p, z0, z1]): Piece => ({ ...newPiece(), ...p, z0, z1 }));
    fc.assert(
      fc.property(
        sloped,
        coordinate,
        coordinate,
        fc.double({ min: 0.2, max: 6, noNaN: true }),
        (p, x, y, r) => {
          const steps = 4000;
          const near = Array.from({ length: steps + 1 }, (_, k) => k / steps).filter(
            (t) => Math.hypot(xAt(p, t) - x, yAt(p, t) - y) <= r,
          );
          const exact = lowestOver(p, x, y, r, newSpan());
          const sampled = Math.min(...near.map((t) => zAt(p, t)));
          if (near.length === 0) {
            // A stretch shorter than a step may be missed by the samples, never the other way round.
            expect(exact === Number.POSITIVE_INFINITY || planLength(p) > 0).toBe(true);
            return;
          }
          expect(exact).toBeLessThanOrEqual(sampled + 1e-9);
          expect(sampled - exact).toBeLessThan(0.02);
        },
      ),
      SEED,
    );
  });
});
