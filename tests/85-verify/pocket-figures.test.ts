import { describe, expect, it } from 'vitest';
import { figuresOf, writtenOf } from '../support/pocketFigures.ts';
import { MEASURED, type PocketSetting, planPocketPart } from '../support/pocketShapes.ts';

type Name = keyof typeof MEASURED;

const jobsOf = (name: Name, setting: PocketSetting) => planPocketPart([MEASURED[name]], setting).jobs;

function mainFigures(name: Name, diameter: number): ReturnType<typeof figuresOf> {
  const [job] = jobsOf(name, { cutters: [diameter] });
  if (job === undefined) throw new Error(`${name} is not planned`);
  return figuresOf(job);
}

// Aims: the whole way, entries and finishing included, within 15 per cent of area / step-over + perimeter for round, square and
// free-form pockets, and no more than 5 per cent of it in the air.
describe('the whole way of a pocket', () => {
  it.each([
    ['round', 3.175],
    ['square', 3.175],
    ['rounded square', 3.175],
    ['free form', 3.175],
    ['round', 2],
    ['square', 2],
    ['free form', 2],
    ['ring with an island', 2],
    ['two rooms', 2],
    ['small square', 2],
  ] as const)(
    'of a %s by %f mm is within 15 per cent of its bound, hardly any of it in the air',
    (name, d) => {
      const { way, air, proven } = mainFigures(name, d);
      expect(proven).toBe(true);
      expect(way).toBeGreaterThan(0.8);
      expect(way).toBeLessThanOrEqual(1.15);
      expect(air).toBeLessThanOrEqual(0.05);
    },
  );

  // The way down and the finishing pass weigh more where a pocket is hardly wider than its cutter, and where it is all corners.
  it.each([
    ['ring with an island', 3.175, 1.18, 0.025],
    ['two rooms', 3.175, 1.15, 0.03],
    ['small rounded square', 2, 1.2, 0.04],
    ['small square', 3.175, 1.36, 0.035],
    ['large star', 3.175, 1.58, 0.03],
    ['large star', 2, 1.45, 0.04],
    ['star', 2, 1.6, 0.03],
    ['diamond', 2, 1.6, 0.05],
    ['star', 3.175, 1.82, 0.1],
    ['diamond', 3.175, 1.68, 0.06],
  ] as const)('of a %s by %f mm is no longer than it was found to be', (name, d, mostWay, mostAir) => {
    const { way, air, proven } = mainFigures(name, d);
    expect(proven).toBe(true);
    expect(way).toBeLessThanOrEqual(mostWay);
    expect(air).toBeLessThanOrEqual(mostAir);
  });
});

describe('what a smaller cutter does after a larger one', () => {
  // Going down beside each corner, and the ends of its walls, which an earlier cutter leaves thinner and thinner, are in the air.
  it.each([
    ['square', 1.16, 0.25],
    ['star', 1.36, 0.05],
  ] as const)('of a %s is cut from wall to wall, not round and round', (name, mostWay, mostAir) => {
    const [main, rest] = jobsOf(name, { cutters: [3.175, 0.6] });
    if (main === undefined || rest === undefined) throw new Error(`${name} has no second program`);
    const { way, air, proven } = figuresOf(rest, [writtenOf(main)]);
    expect(proven).toBe(true);
    expect(way).toBeLessThan(mostWay);
    expect(air).toBeLessThanOrEqual(mostAir);
  });
});
