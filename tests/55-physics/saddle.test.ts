import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crownedSaddle, narrowestBand } from '../../src/physics/solve/crowned.ts';
import { costAt, idealSetBack, setCost } from '../../src/physics/solve/fit.ts';
import { idealPair, sharedNut } from '../../src/physics/solve/nut.ts';
import { constantSaddle, saddleOn, straightSaddle } from '../../src/physics/solve/straight.ts';
import { onLine, type SaddleLine, type SaddleString } from '../../src/physics/solve/types.ts';
import { nutStrings, SET, saddleStrings } from './steelSet.ts';

/** Cents carry some 1e-10 of rounding, seventy-two of them squared and added up rather more. */
const ROUNDING = 1e-7;

/** Least value of a function over a grid that is laid finer and finer around its best point; `steps` to either side. */
function gridLeast(
  cost: (a: number, b: number) => number,
  centre: readonly [number, number],
  span: readonly [number, number],
  rounds: number,
  allowed: (a: number, b: number) => boolean = () => true,
): { at: readonly [number, number]; cost: number } {
  const steps = 10;
  let best = { at: centre, cost: Number.POSITIVE_INFINITY };
  let [da, db] = span;
  for (let round = 0; round < rounds; round += 1) {
    const [a0, b0] = best.cost === Number.POSITIVE_INFINITY ? centre : best.at;
    for (let i = -steps; i <= steps; i += 1)
      for (let j = -steps; j <= steps; j += 1) {
        const [a, b] = [a0 + (i / steps) * da, b0 + (j / steps) * db];
        if (!allowed(a, b)) continue;
        const here = cost(a, b);
        if (here < best.cost) best = { at: [a, b], cost: here };
      }
    da /= 4;
    db /= 4;
  }
  return best;
}

const lineThrough = (bass: number, treble: number): SaddleLine => ({
  atCentre: (bass + treble) / 2,
  slope: (treble - bass) / 56,
});

describe('one string', () => {
  it.each(SET.map((_, i) => i))('string %d: the ideal set-back is the least of a fine grid', (i) => {
    const string = saddleStrings()[i] as SaddleString;
    const ideal = idealSetBack(string);
    let best = { at: 0, cost: Number.POSITIVE_INFINITY };
    for (let s = 0; s <= 8; s += 0.01) {
      const cost = costAt(string, s);
      if (cost < best.cost) best = { at: s, cost };
    }
    expect(Math.abs(ideal - best.at)).toBeLessThan(0.0051);
    // The slope of the cost changes its sign there, within 1e-4 mm.
    expect(costAt(string, ideal - 1e-4)).toBeGreaterThan(costAt(string, ideal));
    expect(costAt(string, ideal + 1e-4)).toBeGreaterThan(costAt(string, ideal));
  });

  it('is found from anywhere, the same to 1e-4 mm', () => {
    const string = saddleStrings()[0] as SaddleString;
    for (const from of [-10, 0, 3, 25])
      expect(idealSetBack(string, from)).toBeCloseTo(idealSetBack(string), 6);
  });

  it('minds only the frets that count', () => {
    const only12 = saddleStrings(() => ({ fretWeights: [...Array(11).fill(0), 1] }))[0] as SaddleString;
    expect(only12.errors(idealSetBack(only12))[11]).toBeCloseTo(0, 6);
  });

  it('moves by the first-order rule when something is aimed at: cents at the octave times L / 1731', () => {
    const plain = saddleStrings()[0] as SaddleString;
    const aimed: SaddleString = {
      ...plain,
      errors: (s) => plain.errors(s).map((e, i) => e + 2 * (2 ** ((i + 1) / 12) - 1)),
    };
    expect(idealSetBack(aimed) - idealSetBack(plain)).toBeCloseTo((2 * 628) / 1731.234, 1);
  });
});

describe('the straight saddle', () => {
  const strings = saddleStrings();

  it('agrees with a fine grid over place and angle within 0.01 mm', () => {
    const best = straightSaddle(strings);
    const grid = gridLeast((b, t) => saddleOn(strings, lineThrough(b, t)).cost, [4, 2], [3, 3], 7);
    expect(Math.abs(onLine(best.line, -28) - grid.at[0])).toBeLessThan(0.01);
    expect(Math.abs(onLine(best.line, 28) - grid.at[1])).toBeLessThan(0.01);
    expect(best.cost).toBeLessThanOrEqual(grid.cost + ROUNDING);
    expect(best.setBacks).toEqual(strings.map((s) => onLine(best.line, s.y)));
  });

  it('inside a slot that is already cut, agrees with a fine grid over that slot', () => {
    for (const [slotBass, slotTreble, halfWidth] of [
      [4.5, 1.6, 0.3],
      [3, 3, 0.8],
      [6, 2.5, 0.4],
      [2, 5, 0.5],
      [4.5, 1.9, 2],
    ] as const) {
      const slot = { line: lineThrough(slotBass, slotTreble), halfWidth };
      const best = straightSaddle(strings, slot);
      const inSlot = (b: number, t: number): boolean =>
        Math.abs(b - slotBass) <= halfWidth + 1e-9 && Math.abs(t - slotTreble) <= halfWidth + 1e-9;
      const cost = (b: number, t: number): number => saddleOn(strings, lineThrough(b, t)).cost;
      const grid = gridLeast(cost, [slotBass, slotTreble], [halfWidth, halfWidth], 8, inSlot);
      expect(inSlot(onLine(best.line, -28), onLine(best.line, 28))).toBe(true);
      expect(Math.abs(onLine(best.line, -28) - grid.at[0])).toBeLessThan(0.01);
      expect(Math.abs(onLine(best.line, 28) - grid.at[1])).toBeLessThan(0.01);
      expect(best.cost).toBeLessThanOrEqual(grid.cost + ROUNDING);
    }
  });

  it('is never worse than one set-back for all, nor than any other line', () => {
    const given = fc.record({
      weights: fc.array(fc.double({ min: 0.1, max: 5, noNaN: true }), { minLength: 6, maxLength: 6 }),
      actions: fc.array(fc.double({ min: 1.2, max: 3.5, noNaN: true }), { minLength: 6, maxLength: 6 }),
      bass: fc.double({ min: 0, max: 8, noNaN: true }),
      treble: fc.double({ min: 0, max: 8, noNaN: true }),
    });
    fc.assert(
      fc.property(given, ({ weights, actions, bass, treble }) => {
        const set = saddleStrings((i) => ({ weight: weights[i] ?? 1, bench: { action: actions[i] ?? 2 } }));
        const best = straightSaddle(set);
        const constant = constantSaddle(set);
        expect(constant.line.slope).toBe(0);
        expect(best.cost).toBeLessThanOrEqual(constant.cost + ROUNDING);
        expect(best.cost).toBeLessThanOrEqual(saddleOn(set, lineThrough(bass, treble)).cost + ROUNDING);
        for (const plain of [1, 2, 2.5, 3, 4])
          expect(constant.cost).toBeLessThanOrEqual(saddleOn(set, lineThrough(plain, plain)).cost + ROUNDING);
        const ideals = set.map((s) => idealSetBack(s));
        expect(setCost(set, ideals)).toBeLessThanOrEqual(best.cost + ROUNDING);
      }),
      { seed: 5, numRuns: 25 },
    );
  });

  it('one set-back for all agrees with a fine grid within 0.01 mm', () => {
    const constant = constantSaddle(strings);
    const cost = (at: number): number => saddleOn(strings, { atCentre: at, slope: 0 }).cost;
    const grid = gridLeast(cost, [3, 0], [3, 0], 7);
    expect(Math.abs(constant.line.atCentre - grid.at[0])).toBeLessThan(0.01);
    expect(constant.cost).toBeLessThanOrEqual(grid.cost + ROUNDING);
  });

  it('mirrors with the instrument', () => {
    const mirrored = strings.map((s) => ({ ...s, y: -s.y }));
    const [there, here] = [straightSaddle(mirrored), straightSaddle(strings)];
    expect(there.line.atCentre).toBeCloseTo(here.line.atCentre, 7);
    expect(there.line.slope).toBeCloseTo(-here.line.slope, 9);
  });

  it('stands square under a single string, and where a single string counts', () => {
    const alone = [strings[2] as SaddleString];
    expect(straightSaddle(alone).setBacks[0]).toBeCloseTo(idealSetBack(strings[2] as SaddleString), 6);
    const one = saddleStrings((i) => ({ weight: i === 2 ? 1 : 0 }));
    expect(straightSaddle(one).setBacks[2]).toBeCloseTo(idealSetBack(strings[2] as SaddleString), 6);
    const end = saddleStrings((i) => ({ weight: i === 0 ? 1 : 0 }));
    expect(straightSaddle(end).setBacks[0]).toBeCloseTo(idealSetBack(strings[0] as SaddleString), 6);
  });
});

describe('the compensated crown', () => {
  const strings = saddleStrings();
  const ideals = strings.map((s) => idealSetBack(s));

  /** The best that any slot of that width allows: every string at its own best place inside it. */
  const costIn = (halfWidth: number) => (bass: number, treble: number) => {
    const line = lineThrough(bass, treble);
    const at = strings.map((s, i) => {
      const middle = onLine(line, s.y);
      return Math.min(middle + halfWidth, Math.max(middle - halfWidth, ideals[i] ?? 0));
    });
    return setCost(strings, at);
  };

  it.each([0.02, 0.2, 0.4, 0.6, 0.8, 0.95])(
    'half width %d: agrees with a fine grid of slots',
    (halfWidth) => {
      const best = crownedSaddle(strings, halfWidth);
      const grid = gridLeast(costIn(halfWidth), [4, 2], [3, 3], 7);
      expect(best.cost).toBeLessThanOrEqual(grid.cost + 1e-6);
      expect(best.cost).toBeGreaterThan(grid.cost - 1e-2);
      // Where the width does not suffice the slot is one place, and each crown with it.
      expect(Math.abs(onLine(best.line, -28) - grid.at[0])).toBeLessThan(0.01);
      expect(Math.abs(onLine(best.line, 28) - grid.at[1])).toBeLessThan(0.01);
      for (const lean of best.leans) expect(Math.abs(lean)).toBeLessThanOrEqual(halfWidth + 1e-9);
    },
  );

  it('gives every string its ideal place when the saddle is wide enough, and says how wide that is', () => {
    const { halfWidthNeeded } = crownedSaddle(strings, 5);
    const wide = crownedSaddle(strings, halfWidthNeeded + 1e-9);
    wide.setBacks.forEach((at, i) => {
      expect(at).toBeCloseTo(ideals[i] ?? 0, 6);
    });
    expect(Math.max(...wide.leans.map(Math.abs))).toBeCloseTo(halfWidthNeeded, 6);
    const narrow = crownedSaddle(strings, halfWidthNeeded * 0.999);
    expect(narrow.cost).toBeGreaterThan(wide.cost);
    // Brute force: no line comes closer to all ideals at its worst.
    const worst = (b: number, t: number): number =>
      Math.max(...strings.map((s, i) => Math.abs((ideals[i] ?? 0) - onLine(lineThrough(b, t), s.y))));
    expect(gridLeast(worst, [4, 2], [3, 3], 7).cost).toBeGreaterThan(halfWidthNeeded - 1e-6);
  });

  it('lies between the straight saddle and the ideals, and gains with every bit of width', () => {
    const widths = [0, 0.1, 0.3, 0.5, 0.7, 0.9, 1.2];
    const costs = widths.map((w) => crownedSaddle(strings, w).cost);
    expect(costs[0]).toBeCloseTo(straightSaddle(strings).cost, 5);
    for (let i = 1; i < costs.length; i += 1)
      expect(costs[i] ?? 0).toBeLessThanOrEqual((costs[i - 1] ?? 0) + ROUNDING);
    expect(costs[costs.length - 1]).toBeCloseTo(setCost(strings, ideals), 6);
  });

  it('is never worse than the straight saddle, whatever counts and however wide', () => {
    const given = fc.record({
      weights: fc.array(fc.double({ min: 0, max: 5, noNaN: true }), { minLength: 6, maxLength: 6 }),
      actions: fc.array(fc.double({ min: 1.2, max: 3.5, noNaN: true }), { minLength: 6, maxLength: 6 }),
      halfWidth: fc.double({ min: 0, max: 2, noNaN: true }),
    });
    fc.assert(
      fc.property(given, ({ weights, actions, halfWidth }) => {
        fc.pre(weights.some((w) => w > 0.01));
        const set = saddleStrings((i) => ({ weight: weights[i] ?? 1, bench: { action: actions[i] ?? 2 } }));
        const crowned = crownedSaddle(set, halfWidth);
        expect(crowned.cost).toBeLessThanOrEqual(straightSaddle(set).cost + 1e-6);
      }),
      { seed: 5, numRuns: 25 },
    );
  });

  it('finds the narrowest band about points', () => {
    expect(narrowestBand([{ y: 0, at: 1 }])).toEqual({ line: { atCentre: 1, slope: 0 }, halfWidth: 0 });
    const three = narrowestBand([
      { y: 0, at: 0 },
      { y: 1, at: 1 },
      { y: 2, at: 0 },
    ]);
    expect(three.halfWidth).toBeCloseTo(0.5, 12);
    expect(three.line.slope).toBeCloseTo(0, 12);
    expect(three.line.atCentre).toBeCloseTo(0.5, 12);
  });
});

describe('saddle and nut together', () => {
  it('a pair agrees with a fine grid within 0.01 mm', () => {
    const string = nutStrings()[0];
    if (string === undefined) throw new Error('no string');
    const best = idealPair(string);
    const cost = (s: number, n: number): number =>
      string.errors(s, n).reduce((sum, e, i) => sum + (i < 12 ? e * e : 0), 0);
    const grid = gridLeast(cost, [4, 0.3], [3, 1], 8);
    expect(Math.abs(best.setBack - grid.at[0])).toBeLessThan(0.01);
    expect(Math.abs(best.nutForward - grid.at[1])).toBeLessThan(0.01);
  });

  it('one nut for all lies among the wishes and leaves less than the nut at scale zero', () => {
    const strings = nutStrings();
    const wishes = strings.map((s) => idealPair(s).nutForward);
    const { nutForward, setBacks } = sharedNut(strings);
    expect(nutForward).toBeGreaterThan(Math.min(...wishes));
    expect(nutForward).toBeLessThan(Math.max(...wishes));
    const cost = (nut: number, at: readonly number[]): number =>
      strings.reduce(
        (sum, s, i) => sum + s.errors(at[i] ?? 0, nut).reduce((own, e, k) => own + (k < 12 ? e * e : 0), 0),
        0,
      );
    const fixed = saddleStrings().map((s) => idealSetBack(s));
    expect(cost(nutForward, setBacks)).toBeLessThan(cost(0, fixed));
    // Nudging the nut either way makes it worse, even with every saddle left free to follow.
    for (const step of [-0.01, 0.01]) {
      const followed = strings.map((s) =>
        idealSetBack({
          y: 0,
          weight: 1,
          fretWeights: s.fretWeights,
          errors: (b) => s.errors(b, nutForward + step),
        }),
      );
      expect(cost(nutForward + step, followed)).toBeGreaterThan(cost(nutForward, setBacks));
    }
  });

  it('cannot settle both by one fret', () => {
    const [string] = nutStrings();
    if (string === undefined) throw new Error('no string');
    expect(() => idealPair({ ...string, fretWeights: [1] })).toThrow();
  });
});
