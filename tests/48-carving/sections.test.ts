import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { monotone, sectionsAlong } from '../../src/carving/along.ts';
import { FIRST, facetEdges, SECOND } from '../../src/carving/facets.ts';
import { backHeight, facetAt, sectionChain, sectionPoint, touchAt } from '../../src/carving/section.ts';
import type { Section } from '../../src/carving/types.ts';

/** De Casteljau's construction: the same curve by repeated halving of its control polygon, no formula shared with the code. */
function byConstruction(
  { halfWidth: w, depth: d, shoulder: s, back: b }: Section,
  t: number,
): [number, number] {
  let points: [number, number][] = [
    [w, 0],
    [w, -s * d],
    [b * w, -d],
    [0, -d],
  ];
  while (points.length > 1) {
    points = points.slice(1).map(([y, z], i) => {
      const [y0, z0] = points[i] ?? [Number.NaN, Number.NaN];
      return [y0 + (y - y0) * t, z0 + (z - z0) * t];
    });
  }
  return points[0] ?? [Number.NaN, Number.NaN];
}

const sections = fc.record({
  halfWidth: fc.double({ min: 12, max: 45, noNaN: true }),
  depth: fc.double({ min: 8, max: 30, noNaN: true }),
  shoulder: fc.double({ min: 0.1, max: 0.95, noNaN: true }),
  back: fc.double({ min: 0.1, max: 0.95, noNaN: true }),
});

const samples = (count: number): number[] => Array.from({ length: count + 1 }, (_, i) => i / count);

describe('a section of the neck', () => {
  it('is the curve of its control polygon', () => {
    fc.assert(
      fc.property(sections, fc.double({ min: 0, max: 1, noNaN: true }), (section, t) => {
        const [y, z] = sectionPoint(section, t);
        const [y0, z0] = byConstruction(section, t);
        expect(Math.hypot(y - y0, z - z0)).toBeLessThan(1e-12 * 100);
      }),
    );
  });

  it('is within 0.03 % of an ellipse where both shares are 0.5523', () => {
    const section = { halfWidth: 24, depth: 15, shoulder: 0.5523, back: 0.5523 };
    for (const t of samples(50)) {
      const [y, z] = sectionPoint(section, t);
      expect(Math.abs(Math.hypot(y / 24, z / 15) - 1)).toBeLessThan(3e-4);
    }
  });

  it('touches a line of any direction where no other point of it reaches farther', () => {
    fc.assert(
      fc.property(sections, fc.double({ min: 0, max: Math.PI / 2, noNaN: true }), (section, angle) => {
        const { reach } = facetAt(section, angle);
        const reached = samples(400).map((t) => {
          const [y, z] = byConstruction(section, t);
          return y * Math.cos(angle) - z * Math.sin(angle);
        });
        const most = Math.max(...reached);
        expect(reach).toBeGreaterThanOrEqual(most - 1e-9);
        expect(reach - most).toBeLessThan(0.002);
        expect(touchAt(section, angle)).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it('has one height for each distance from the centreline', () => {
    fc.assert(
      fc.property(sections, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (section, t) => {
        const [y, z] = byConstruction(section, t);
        expect(backHeight(section, y)).toBeCloseTo(z, 6);
        expect(backHeight(section, -y)).toBeCloseTo(z, 6);
      }),
    );
    expect(backHeight({ halfWidth: 20, depth: 14, shoulder: 0.5, back: 0.5 }, 20)).toBe(0);
  });

  it('is given in chords that leave it by no more than is allowed', () => {
    fc.assert(
      fc.property(sections, (section) => {
        const chain = sectionChain(section, 0.002);
        for (const t of samples(300)) {
          const [y, z] = byConstruction(section, t);
          const near = Math.min(
            ...chain.slice(1).map((b, i) => {
              const a = chain[i] ?? b;
              const [dy, dz] = [b[0] - a[0], b[1] - a[1]];
              const share = Math.min(
                1,
                Math.max(0, ((y - a[0]) * dy + (z - a[1]) * dz) / (dy * dy + dz * dz)),
              );
              return Math.hypot(y - a[0] - share * dy, z - a[1] - share * dz);
            }),
          );
          expect(near).toBeLessThan(0.0021);
        }
        expect(chain[0]?.[0]).toBe(section.halfWidth);
        expect(chain[chain.length - 1]?.[0]).toBe(-section.halfWidth);
      }),
      { numRuns: 30 },
    );
  });
});

describe('facets on the square blank', () => {
  it('lie outside the finished section and touch it: walked along their drawn edges', () => {
    fc.assert(
      fc.property(sections, (section) => {
        const { halfWidth: w, depth: d } = section;
        const { first, second } = facetEdges(0, section);
        const side: [number, number] = [w, -first.onSide];
        const back: [number, number] = [first.onBack, -d];
        const long = Math.hypot(side[0] - back[0], side[1] - back[1]);
        const along = (from: [number, number], to: [number, number], by: number): [number, number] => [
          from[0] + ((to[0] - from[0]) * by) / long,
          from[1] + ((to[1] - from[1]) * by) / long,
        ];
        const flats: [[number, number], [number, number]][] = [
          [side, back],
          [[w, -second.onSide], along(side, back, second.fromSideEdge)],
          [along(back, side, second.fromBackEdge), [second.onBack, -d]],
        ];
        for (const [a, b] of flats) {
          const [dy, dz] = [b[0] - a[0], b[1] - a[1]];
          const size = Math.hypot(dy, dz);
          // Signed distance of the section from the flat, positive on the wood that goes.
          const off = samples(400).map((t) => {
            const [y, z] = byConstruction(section, t);
            return (dy * (z - a[1]) - dz * (y - a[0])) / size;
          });
          const sign = Math.sign(-dz * (0 - a[0]) + dy * (0 - a[1]));
          const inside = off.map((value) => value * sign);
          expect(Math.min(...inside)).toBeGreaterThan(-1e-9);
          expect(Math.min(...inside)).toBeLessThan(0.002);
        }
      }),
    );
  });

  it('come in order down the side and across the back', () => {
    fc.assert(
      fc.property(sections, (section) => {
        const { first, second } = facetEdges(0, section);
        expect(second.onSide).toBeGreaterThanOrEqual(0);
        expect(second.onSide).toBeLessThan(first.onSide);
        expect(first.onSide).toBeLessThan(section.depth);
        expect(second.onBack).toBeGreaterThanOrEqual(0);
        expect(second.onBack).toBeLessThan(first.onBack);
        expect(first.onBack).toBeLessThan(section.halfWidth);
      }),
      { numRuns: 500 },
    );
  });

  it('have their directions between the side and the back', () => {
    expect([SECOND[0], FIRST, SECOND[1]]).toEqual([...[SECOND[0], FIRST, SECOND[1]]].sort((a, b) => a - b));
  });
});

describe('sections along the neck', () => {
  it('go straight between two stations, and on past them', () => {
    const at = sectionsAlong(
      [
        { x: 35, depth: 14, shoulder: 0.5, back: 0.6 },
        { x: 255, depth: 16.2, shoulder: 0.6, back: 0.5 },
      ],
      (x) => 23 + x / 60,
    );
    expect(at(145).depth).toBeCloseTo(15.1, 12);
    expect(at(0).depth).toBeCloseTo(14 - 2.2 * (35 / 220), 12);
    expect(at(300).back).toBeCloseTo(0.5 - 0.1 * (45 / 220), 12);
    expect(at(60).halfWidth).toBe(24);
  });

  it('never swing past a station, and meet each of them (Fritsch and Carlson 1980)', () => {
    const rising = fc.array(fc.double({ min: 0.1, max: 50, noNaN: true }), { minLength: 2, maxLength: 8 });
    fc.assert(
      fc.property(
        rising,
        fc.array(
          fc.integer({ min: -500, max: 500 }).map((n) => n / 100),
          { minLength: 8, maxLength: 8 },
        ),
        (steps, ys) => {
          const xs = steps.map((_, i) => steps.slice(0, i + 1).reduce((a, b) => a + b, 0));
          const heights = ys.slice(0, xs.length);
          const curve = monotone(xs, heights);
          for (const [i, x] of xs.entries()) expect(curve(x)).toBeCloseTo(heights[i] ?? Number.NaN, 9);
          for (let i = 0; i + 1 < xs.length; i += 1) {
            const [a, b] = [heights[i] ?? 0, heights[i + 1] ?? 0];
            const inner = samples(20).map((s) => curve((xs[i] ?? 0) + ((xs[i + 1] ?? 0) - (xs[i] ?? 0)) * s));
            for (const [k, value] of inner.entries()) {
              expect(value).toBeGreaterThan(Math.min(a, b) - 1e-9);
              expect(value).toBeLessThan(Math.max(a, b) + 1e-9);
              const before = inner[k - 1];
              if (before !== undefined) expect((value - before) * Math.sign(b - a)).toBeGreaterThan(-1e-9);
            }
          }
        },
      ),
    );
  });
});
