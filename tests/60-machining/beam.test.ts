import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { distanceToRing } from '../../src/geometry/distance.ts';
import { circle, rectangle } from '../../src/geometry/ring.ts';
import type { Ring, Vec } from '../../src/geometry/types.ts';
import { settingFor } from '../../src/machining/beamSetting.ts';
import { leadInFor, type Surroundings, startOn } from '../../src/machining/leadIn.ts';
import type { BeamSetting, Laser } from '../../src/profile/types.ts';
import { workshop } from '../support/instrument.ts';
import { partsOf, planOf } from '../support/job.ts';

const laser = workshop.machines.find((m): m is Laser => m.kind === 'laser');
const template = partsOf().find((p) => p.id === 'pin-template');
if (laser === undefined || template === undefined) throw new Error('no laser or no template');

const thin: BeamSetting = {
  materialClass: 'plywood',
  thickness: 3,
  kerf: 0.16,
  cut: { power: 0.7, speed: 600, passes: 1, pierce: 0.2, leadIn: 2, overCut: 0.5 },
  mark: { power: 0.1, speed: 2400 },
  air: 'on',
};
const thick: BeamSetting = {
  materialClass: 'plywood',
  thickness: 5,
  kerf: 0.24,
  cut: { power: 0.9, speed: 200, passes: 1, pierce: 0.6, leadIn: 3, overCut: 1 },
  mark: { power: 0.14, speed: 2000 },
  air: 'high',
};

function chosen(thickness: number, settings: readonly BeamSetting[]): ReturnType<typeof settingFor> {
  const part = { ...template, blank: { ...template?.blank, thickness } } as NonNullable<typeof template>;
  return settingFor(part, { ...(laser as Laser), settings });
}

describe('power and speed', () => {
  it('are those that were tested where the thickness was', () => {
    expect(chosen(3, [thick, thin])).toEqual({
      setting: thin,
      source: 'what the shop tested for this material and thickness',
    });
  });

  it('lie in proportion between two tested thicknesses of the same material, and say so', () => {
    const found = chosen(3.5, [thick, thin, { ...thin, materialClass: 'mdf', thickness: 3.4 }]);
    if ('code' in found) throw new Error(found.text);
    const { setting, source } = found;
    expect(setting.kerf).toBeCloseTo(0.18, 12);
    expect(setting.cut.power).toBeCloseTo(0.75, 12);
    expect(setting.cut.speed).toBeCloseTo(500, 9);
    expect(setting.cut.pierce).toBeCloseTo(0.3, 12);
    expect(setting.mark.power).toBeCloseTo(0.11, 12);
    expect(setting.air).toBe('on or high');
    expect(source).toBe(
      'between two thicknesses the shop tested, in proportion: 3 mm (S700, 600 mm/min, kerf 0.16 mm) and 5 mm (S900, 200 mm/min, kerf 0.24 mm); cut a test piece',
    );
  });

  it('between the nearest two of several', () => {
    const middle = { ...thin, thickness: 4, cut: { ...thin.cut, speed: 300 } };
    const found = chosen(4.5, [thick, thin, middle]);
    if ('code' in found) throw new Error(found.text);
    expect(found.setting.cut.speed).toBeCloseTo(250, 9);
  });

  it.each([
    ['thinner than all that were tested', 2.9, [thin, thick]],
    ['thicker than all', 5.1, [thin, thick]],
    ['near the only one', 3.1, [thin]],
    ['between two materials', 4, [thin, { ...thick, materialClass: 'mdf' as const }]],
    [
      'between two that need other numbers of passes',
      4,
      [thin, { ...thick, cut: { ...thick.cut, passes: 2 } }],
    ],
    ['nothing tested', 3, []],
  ])('are never guessed: %s', (_, thickness, settings) => {
    expect(chosen(thickness, settings)).toMatchObject({ code: 'no-tested-setting', severity: 'error' });
  });

  it('and the note on the air and the source go along with the job', () => {
    const shop = {
      ...workshop,
      machines: workshop.machines.map((m) =>
        m.kind === 'laser' ? { ...m, settings: [{ ...thin, thickness: 2 }, thick] } : m,
      ),
    };
    const job = planOf(undefined, shop).jobs.find((j) => j.kind === 'laser');
    if (job?.kind !== 'laser') throw new Error('no laser job');
    expect(job.air).toBe('on or high');
    expect(job.source).toMatch(/^between two thicknesses the shop tested/);
    expect(job.cut.s).toBe(Math.round((0.7 + 0.2 / 3) * 1000));
  });
});

const sheet = rectangle({ x: [0, 200], y: [0, 150] });

function inside(ring: Ring, [x, y]: Vec): boolean {
  const [a, b] = [ring[0], ring[2]];
  if (ring.length === 2)
    return Math.hypot(x - (ring[0]?.x ?? 0) + radiusOf(ring), y - (ring[0]?.y ?? 0)) < radiusOf(ring);
  return a !== undefined && b !== undefined && x > a.x && x < b.x && y > a.y && y < b.y;
}

function radiusOf(ring: Ring): number {
  return ((ring[0]?.x ?? 0) - (ring[1]?.x ?? 0)) / 2;
}

describe('the way in', () => {
  const part = fc.record({
    x: fc.double({ min: 20, max: 60, noNaN: true }),
    y: fc.double({ min: 20, max: 50, noNaN: true }),
    w: fc.double({ min: 10, max: 40, noNaN: true }),
    h: fc.double({ min: 10, max: 40, noNaN: true }),
    hole: fc.double({ min: 0.3, max: 4, noNaN: true }),
    gap: fc.double({ min: 0.4, max: 12, noNaN: true }),
    kerf: fc.double({ min: 0.08, max: 0.4, noNaN: true }),
    wanted: fc.double({ min: 0.5, max: 5, noNaN: true }),
  });

  it('lies in the waste of its own outline, clear of every other, and is as long as there is room for', () => {
    let [short, full, none] = [0, 0, 0];
    fc.assert(
      fc.property(part, ({ x, y, w, h, hole, gap, kerf, wanted }) => {
        const plate = rectangle({ x: [x, x + w], y: [y, y + h] });
        const below = rectangle({ x: [x, x + w], y: [y - gap - 10, y - gap] });
        const opening = circle([x + w / 2, y + h / 2], hole);
        const cases: readonly [Ring, Surroundings['keep'], readonly Ring[]][] = [
          [plate, 'inside', [below, opening]],
          [opening, 'outside', [plate, below]],
        ];
        for (const [ring, keep, others] of cases) {
          const way = leadInFor(wanted, { ring, keep, kerf, others, stock: sheet });
          if (way === null) {
            none += 1;
            continue;
          }
          if (way.length === wanted) full += 1;
          else short += 1;
          const { at } = startOn(ring);
          expect(inside(ring, way.from)).toBe(keep === 'outside');
          expect(Math.hypot(way.from[0] - at[0], way.from[1] - at[1])).toBeLessThanOrEqual(way.length + kerf);
          for (let k = 0; k <= 40; k += 1) {
            const t = k / 40;
            const p: Vec = [way.from[0] + (at[0] - way.from[0]) * t, way.from[1] + (at[1] - way.from[1]) * t];
            for (const other of others) expect(distanceToRing(other, p)).toBeGreaterThan(kerf / 2);
          }
          expect(distanceToRing(ring, way.from)).toBeGreaterThanOrEqual(1.5 * kerf - 1e-9);
        }
      }),
      { seed: 3, numRuns: 500 },
    );
    expect(Math.min(short, full, none)).toBeGreaterThan(20);
  });

  it('is left out where none is wanted', () => {
    const ring = rectangle({ x: [50, 80], y: [50, 70] });
    expect(leadInFor(0, { ring, keep: 'inside', kerf: 0.2, others: [], stock: sheet })).toBeNull();
  });

  it('begins beside the middle of the longest side', () => {
    expect(startOn(rectangle({ x: [0, 30], y: [0, 50] })).at).toEqual([30, 25]);
  });
});
