import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitSection } from '../../src/carving/fitSection.ts';
import { gaugeRing, gaugeSize } from '../../src/carving/gauge.ts';
import { backHeight, sectionPoint } from '../../src/carving/section.ts';
import { flatten } from '../../src/geometry/ring.ts';

const shares = fc.double({ min: 0.15, max: 0.85, noNaN: true });
const sections = fc.record({
  halfWidth: fc.double({ min: 15, max: 40, noNaN: true }),
  depth: fc.double({ min: 10, max: 25, noNaN: true }),
  shoulder: shares,
  back: shares,
});
const places = Array.from({ length: 200 }, (_, i) => i / 199);

describe('a gauge for the back', () => {
  it('is open by the section: nowhere wider or narrower than 0.005 mm', () => {
    fc.assert(
      fc.property(sections, (section) => {
        const wall = 8;
        const ring = flatten(gaugeRing(section, wall), 0.0005);
        const half = section.halfWidth + wall;
        for (const t of places) {
          const [y, z] = sectionPoint(section, t);
          const point = [y + half, z + section.depth + wall] as const;
          const near = Math.min(
            ...ring.map((a, i) => {
              const b = ring[(i + 1) % ring.length] ?? a;
              const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
              const length = dx * dx + dy * dy;
              const share = length === 0 ? 0 : ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / length;
              const s = Math.min(1, Math.max(0, share));
              return Math.hypot(point[0] - a[0] - s * dx, point[1] - a[1] - s * dy);
            }),
          );
          expect(near).toBeLessThan(0.005);
        }
        const { width, height } = gaugeSize(section, wall);
        expect(Math.max(...ring.map(([x]) => x))).toBeCloseTo(width, 9);
        expect(Math.max(...ring.map(([, y]) => y))).toBeCloseTo(height, 9);
      }),
      { numRuns: 25 },
    );
  });

  it('is mostly arcs, not a heap of chords', () => {
    const ring = gaugeRing({ halfWidth: 25, depth: 15, shoulder: 0.55, back: 0.55 }, 8);
    expect(ring.length).toBeLessThan(60);
    expect(ring.filter(({ bulge }) => bulge !== 0).length).toBeGreaterThan(8);
  });
});

describe('a section from measured points', () => {
  it('comes back from points of its own curve', () => {
    fc.assert(
      fc.property(sections, (section) => {
        const points = [0.2, 0.35, 0.5, 0.65, 0.8, 0.95].map((t) => {
          const [y, z] = sectionPoint(section, t);
          return [y, -z] as const;
        });
        const fitted = fitSection(section, points);
        expect(fitted.worst).toBeLessThan(0.01);
        for (const y of [0, 0.3, 0.6, 0.9].map((share) => share * section.halfWidth)) {
          expect(Math.abs(backHeight({ ...section, ...fitted }, y) - backHeight(section, y))).toBeLessThan(
            0.05,
          );
        }
      }),
      { numRuns: 200 },
    );
  });

  it('comes back where the best pair lies at the end of a narrow bent valley', () => {
    const section = { halfWidth: 15, depth: 10, shoulder: 0.5183209039687737, back: 0.7280821251188491 };
    const points = [0.2, 0.35, 0.5, 0.65, 0.8, 0.95].map((t) => {
      const [y, z] = sectionPoint(section, t);
      return [y, -z] as const;
    });
    expect(fitSection(section, points).worst).toBeLessThan(0.001);
  });

  it('fits a single point on the centreline, which says nothing of the shares', () => {
    expect(fitSection({ halfWidth: 22, depth: 14 }, [[0, 14]]).worst).toBeLessThan(1e-9);
  });

  it('says how far a point lies off that no such curve goes through', () => {
    const { worst } = fitSection({ halfWidth: 22, depth: 14 }, [
      [0, 14],
      [10, 13],
      [15, 4],
      [20, 6],
    ]);
    expect(worst).toBeGreaterThan(1);
  });
});
