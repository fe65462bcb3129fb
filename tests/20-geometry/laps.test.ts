import { describe, expect, it } from 'vitest';
import {
  type Area,
  areaSize,
  distanceToArea,
  distanceToPolygon,
  isInArea,
  lengthRound,
} from '../../src/geometry/area.ts';
import { engagementAt } from '../../src/geometry/engagement.ts';
import { areaOf, grown } from '../../src/geometry/kernel/area.ts';
import { lapCentresOf } from '../../src/geometry/kernel/centres.ts';
import { type Clearing, layLaps } from '../../src/geometry/kernel/laps.ts';
import { partCentres } from '../../src/geometry/kernel/parts.ts';
import { nearnessTo } from '../../src/geometry/nearness.ts';
import { rectangle } from '../../src/geometry/ring.ts';
import { SHAPES } from '../support/pocketShapes.ts';

const radius = 1;
const settings = {
  radius,
  step: 0.64,
  engagement: (125 * Math.PI) / 180,
  rounding: 0.8,
  cusp: 0.04,
  grain: 0.002,
};

const clearingOf = (name: keyof typeof SHAPES): { centres: Area; clearing: Clearing } => {
  const centres = lapCentresOf(SHAPES[name], null, radius, 0.08);
  return { centres, clearing: layLaps(partCentres(centres, radius, settings.grain), settings) };
};

// The area between two half-planes at an angle of 0: a straight cut of a width; acos(1 - w / r) by the circle's geometry.
describe('engagement', () => {
  const cleared: Area = areaOf({ outer: rectangle({ x: [-50, 50], y: [-50, 0] }), holes: [] });

  it.each([0.2, 0.5, 0.9, 1.4])('of a straight cut %f radii wide is that of its geometry', (width) => {
    const found = engagementAt([0, width], [-1, 0], 1, nearnessTo(cleared, 1));
    expect(Math.abs(found - Math.acos(1 - width))).toBeLessThan((1.01 * Math.PI) / 24);
  });

  it('is nothing in the air and a half turn in a slot', () => {
    expect(engagementAt([0, -10], [1, 0], 1, nearnessTo(cleared, 1))).toBe(0);
    expect(engagementAt([0, 10], [1, 0], 1, nearnessTo(cleared, 1))).toBeCloseTo(Math.PI, 9);
  });
});

describe.each(Object.keys(SHAPES) as (keyof typeof SHAPES)[])('laps of a %s', (name) => {
  const { centres, clearing } = clearingOf(name);

  it('reach every place at which the cutter’s centre may be to within its radius', () => {
    const ways = [...clearing.laps.map((l) => l.way), ...clearing.corners.map((c) => c.way)];
    const box = centres.flat();
    const [x0, x1] = [Math.min(...box.map((p) => p[0])), Math.max(...box.map((p) => p[0]))];
    const [y0, y1] = [Math.min(...box.map((p) => p[1])), Math.max(...box.map((p) => p[1]))];
    let seen = 0;
    for (let i = 0; i <= 60; i += 1) {
      for (let j = 0; j <= 60; j += 1) {
        const p = [x0 + ((x1 - x0) * i) / 60, y0 + ((y1 - y0) * j) / 60] as const;
        if (!isInArea(centres, p)) continue;
        seen += 1;
        expect(Math.min(...ways.map((way) => distanceToPolygon(way, p)))).toBeLessThan(radius);
      }
    }
    expect(seen).toBeGreaterThan(0);
  });

  it('stay where the centre may be', () => {
    for (const lap of clearing.laps)
      for (const p of lap.way) expect(distanceToArea(centres, p)).toBeLessThan(0.003);
    for (const corner of clearing.corners)
      for (const p of corner.way) expect(distanceToArea(centres, p)).toBeLessThan(0.003);
  });

  it('run from the inside out: each after those inside it', () => {
    clearing.laps.forEach((lap, n) => {
      for (const inside of lap.inside) expect(inside).toBeLessThan(n);
      expect(lap.first).toBe(lap.inside.length === 0);
    });
    expect(clearing.laps.at(-1)?.level).toBe(0);
  });
});

describe('laps', () => {
  it('begin in each room and join where the rooms do', () => {
    const { clearing } = clearingOf('two rooms');
    expect(clearing.laps.filter((l) => l.first).length).toBeGreaterThanOrEqual(2);
    expect(clearing.laps.some((l) => l.inside.length > 1 || l.buried.length > 0)).toBe(true);
  });

  it('take about as much way as area over step asks for', () => {
    for (const name of ['round', 'square', 'free form'] as const) {
      const { clearing } = clearingOf(name);
      const inset = grown(areaOf(SHAPES[name]), -radius);
      const bound = areaSize(inset) / settings.step + inset.reduce((sum, p) => sum + lengthRound(p), 0) / 2;
      const way = clearing.laps.reduce((sum, lap) => sum + lengthRound(lap.way), 0);
      expect(way / bound).toBeGreaterThan(0.9);
      expect(way / bound).toBeLessThan(1.03);
    }
  });
});
