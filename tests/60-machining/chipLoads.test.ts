import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ringEngagement } from '../../src/geometry/ringEngagement.ts';
import { chipLoadFor } from '../../src/machining/chipLoads.ts';
import { thinningFactor } from '../../src/machining/thinning.ts';
import type { MaterialClass } from '../../src/profile/types.ts';

const CLASSES: readonly MaterialClass[] = [
  'tropical hardwood',
  'hardwood',
  'softwood',
  'plywood',
  'mdf',
  'acrylic',
  'card',
];

describe('chip loads', () => {
  // A carbide cutter maker's open start chart, thousandths of an inch per tooth, lowest and highest.
  it.each([
    ['mdf', 3.175, 4, 7],
    ['hardwood', 3.175, 2, 4],
    ['softwood', 3.175, 3, 5],
    ['plywood', 3.175, 3, 5],
    ['acrylic', 3.175, 2, 4],
    ['mdf', 6.35, 12, 15],
    ['hardwood', 6.35, 5, 7],
    ['softwood', 6.35, 6, 8],
    ['plywood', 6.35, 6, 9],
    ['acrylic', 6.35, 5, 8],
  ] as const)('of %s at %f mm is within the chart, %i to %i thousandths', (material, diameter, low, high) => {
    const thousandths = chipLoadFor(material, diameter).chipLoad / 0.0254;
    expect(thousandths).toBeGreaterThanOrEqual(low - 1e-9);
    expect(thousandths).toBeLessThanOrEqual(high);
  });

  it('start hardwood at 1/8 in with 0.0508 mm, and half way to 1/4 in with the mean of both', () => {
    expect(chipLoadFor('hardwood', 3.175).chipLoad).toBeCloseTo(0.0508, 12);
    expect(chipLoadFor('hardwood', 4.7625).chipLoad).toBeCloseTo((0.0508 + 0.127) / 2, 12);
    expect(chipLoadFor('hardwood', 12).chipLoad).toBeCloseTo(0.127, 12);
  });

  it('are one hundredth of a 0.6 mm cutter’s diameter in tropical hardwood, and say that this is assumed', () => {
    const { chipLoad, source } = chipLoadFor('tropical hardwood', 0.6);
    // 0.006 mm a tooth: 288 mm/min with two flutes at 24000 rpm.
    expect(chipLoad).toBeCloseTo(0.006, 12);
    expect(source).toContain('no chart for tropical hardwood');
    expect(source).toContain('no chart below 2 mm');
  });

  it.each(CLASSES)('of %s fall from the chart’s line at 2 mm to 1 %% of the diameter at 1 mm', (material) => {
    const eighth = chipLoadFor(material, 3.175).chipLoad;
    expect(chipLoadFor(material, 2).chipLoad).toBeCloseTo((eighth * 2) / 3.175, 12);
    expect(chipLoadFor(material, 1.5).chipLoad).toBeCloseTo(((eighth * 2) / 3.175 + 0.01) / 2, 12);
    expect(chipLoadFor(material, 1).chipLoad).toBeCloseTo(0.01, 12);
    expect(chipLoadFor(material, 0.4).chipLoad).toBeCloseTo(0.004, 12);
  });

  it('grow with the diameter, without a jump', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...CLASSES),
        fc.double({ min: 0.2, max: 12, noNaN: true }),
        (material, diameter) => {
          const here = chipLoadFor(material, diameter).chipLoad;
          const next = chipLoadFor(material, diameter + 0.001).chipLoad;
          expect(next).toBeGreaterThanOrEqual(here);
          expect(next - here).toBeLessThan(0.001);
        },
      ),
      { seed: 7, numRuns: 500 },
    );
  });

  it.each(CLASSES)('of %s name their source, and say what is assumed', (material) => {
    expect(chipLoadFor(material, 3.175).source).toContain('open start chart');
    expect(chipLoadFor(material, 2.5).source).toContain('assumed');
    expect(chipLoadFor(material, 8).source).toContain('held');
  });

  it('refuse a diameter that cannot be', () => {
    expect(() => chipLoadFor('mdf', 0)).toThrow('diameter 0');
    expect(() => chipLoadFor('mdf', Number.NaN)).toThrow('diameter NaN');
  });
});

describe('chip thinning', () => {
  // Radial chip thinning factor, two open machining pages agree at 0.10; the other values follow from the formula.
  it.each([
    [0.05, 2.2942],
    [0.1, 1.6667],
    [0.2, 1.25],
    [0.25, 1.1547],
    [0.3, 1.0911],
    [0.5, 1],
  ])('at an engagement of %f is %f', (share, factor) => {
    expect(thinningFactor(share)).toBeCloseTo(factor, 4);
  });

  it('keeps the thickest chip what it is at half engagement', () => {
    for (const share of [0.03, 0.12, 0.33, 0.49]) {
      // The chip is thickest where the tooth leaves the wood, at the angle acos(1 - 2x): feed x sin(angle).
      const thickest = thinningFactor(share) * Math.sin(Math.acos(1 - 2 * share));
      expect(thickest).toBeCloseTo(1, 12);
    }
  });

  it('in a hole is far less than beside a straight wall, and the same in a hole without end', () => {
    // Hole of 5.05, cutter 3.175, ring of 0.15: R0 2.375, r 0.9375, q 1.5875:
    // cos t = (5.640625 - 0.878906 - 2.520156) / 2.976563 = 0.753070, t = 41.145 deg, 1 / sin t = 1.5199.
    const share = ringEngagement(5.05, 3.175, 0.15);
    expect(share).toBeCloseTo((1 - 0.75307) / 2, 6);
    expect(thinningFactor(share)).toBeCloseTo(1.5199, 4);
    expect(thinningFactor(0.15 / 3.175)).toBeCloseTo(2.3567, 4);
    expect(ringEngagement(1e6, 3.175, 0.15)).toBeCloseTo(0.15 / 3.175, 5);
  });

  it('in a hole follows the rim: a walk along it finds where the wood ends', () => {
    for (const [bore, cutter, width] of [
      [6, 3.175, 0.15],
      [4, 2, 0.3],
      [12, 6, 1],
    ] as const) {
      const [r, q, old] = [(bore - cutter) / 2, cutter / 2, bore / 2 - width];
      let angle = 0;
      while (Math.hypot(r + q * Math.cos(angle), q * Math.sin(angle)) > old) angle += 1e-6;
      expect(ringEngagement(bore, cutter, width)).toBeCloseTo((1 - Math.cos(angle)) / 2, 5);
    }
  });

  it('of a ring as wide as the hole is the whole cutter', () => {
    expect(ringEngagement(4, 2, 2)).toBe(1);
    expect(() => ringEngagement(3, 3, 0.1)).toThrow('3 mm cutter in 3 mm');
  });

  it('never slows a full cut, and refuses what is no share', () => {
    expect(thinningFactor(0.7)).toBe(1);
    expect(thinningFactor(1)).toBe(1);
    expect(() => thinningFactor(0)).toThrow('engagement of 0');
    expect(() => thinningFactor(1.2)).toThrow('engagement of 1.2');
  });
});
