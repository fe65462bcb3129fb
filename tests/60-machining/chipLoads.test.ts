import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chipLoadFor, thinningFactor } from '../../src/machining/chipLoads.ts';
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

  it('stay below one hundredth of a 0.6 mm cutter’s diameter in tropical hardwood', () => {
    const { chipLoad, source } = chipLoadFor('tropical hardwood', 0.6);
    expect(chipLoad).toBeCloseTo(((0.0508 * 0.7) / 3.175) * 0.5 * 0.6, 12);
    expect(chipLoad).toBeLessThan(0.006);
    expect(source).toContain('no chart for tropical hardwood');
    expect(source).toContain('no chart below 2 mm');
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

  it('never slows a full cut, and refuses what is no share', () => {
    expect(thinningFactor(0.7)).toBe(1);
    expect(thinningFactor(1)).toBe(1);
    expect(() => thinningFactor(0)).toThrow('engagement of 0');
    expect(() => thinningFactor(1.2)).toThrow('engagement of 1.2');
  });
});
