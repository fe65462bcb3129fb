import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lowerBound, planSticks } from '../../src/wire/sticks.ts';
import type { WirePiece, WireStick } from '../../src/wire/types.ts';

const pieces = (cuts: readonly number[]): WirePiece[] =>
  cuts.map((cut, i) => ({
    fret: i + 1,
    label: `${i + 1}`,
    slot: `s${i + 1}`,
    straight: cut,
    crown: cut,
    tang: cut,
    cut,
  }));

const fretsOf = (stick: WireStick): number[] => stick.pieces.map((piece) => piece.fret);

/** Least number of sticks by trying every way to share the pieces out: slow, and nothing like the code. */
function leastByTrying(cuts: readonly number[], length: number): number {
  let best = cuts.length;
  const share = (i: number, rooms: readonly number[]): void => {
    if (rooms.length >= best) return;
    const cut = cuts[i];
    if (cut === undefined) {
      best = rooms.length;
      return;
    }
    rooms.forEach((room, k) => {
      if (room >= cut - 1e-6)
        share(
          i + 1,
          rooms.map((r, n) => (n === k ? r - cut : r)),
        );
    });
    share(i + 1, [...rooms, length - cut]);
  };
  share(0, []);
  return best;
}

describe('pieces out of sticks', () => {
  it('finds the sharing that best fit misses', () => {
    // Longest first into the fullest stick: 50 + 40, 30 + 30 + 30, 20. By hand: 50 + 30 + 20, 40 + 30 + 30.
    const plan = planSticks(pieces([50, 40, 30, 30, 30, 20]), 100);
    expect(plan?.sticks.length).toBe(2);
    expect(plan?.isLeast).toBe(true);
    // Longest first: 44 + 44, 36 + 36 + 28, 28 + 28 + 28, 28. By hand: 44 + 28 + 28 twice, 36 + 36 + 28.
    const hard = planSticks(pieces([44, 44, 36, 36, 28, 28, 28, 28, 28]), 100);
    expect(hard?.sticks.length).toBe(3);
  });

  it('holds each piece once and no stick more than its length', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 30, max: 100 }), { minLength: 1, maxLength: 36 }), (cuts) => {
        const plan = planSticks(pieces(cuts), 240);
        expect(plan).not.toBeNull();
        const frets = plan?.sticks.flatMap(fretsOf) ?? [];
        expect(frets.toSorted((a, b) => a - b)).toEqual(cuts.map((_, i) => i + 1));
        for (const stick of plan?.sticks ?? []) {
          const held = fretsOf(stick).reduce((sum, fret) => sum + (cuts[fret - 1] ?? Number.NaN), 0);
          expect(held).toBeLessThanOrEqual(240);
          expect(stick.used).toBeCloseTo(held, 9);
          expect(stick.left).toBeCloseTo(240 - held, 9);
        }
      }),
      { seed: 4, numRuns: 200 },
    );
  });

  it('takes the least number of sticks, and never fewer than its bound', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 20, max: 70 }), { minLength: 1, maxLength: 9 }), (cuts) => {
        const least = leastByTrying(cuts, 100);
        expect(planSticks(pieces(cuts), 100)?.sticks.length).toBe(least);
        expect(planSticks(pieces(cuts), 100)?.isLeast).toBe(true);
        expect(
          lowerBound(
            cuts.toSorted((a, b) => b - a),
            100,
          ),
        ).toBeLessThanOrEqual(least);
      }),
      { seed: 4, numRuns: 150 },
    );
  });

  it('bounds as published', () => {
    // Three pieces over half a stick, and small ones that find no room beside them.
    expect(lowerBound([60, 60, 60, 45, 45], 100)).toBe(4);
    expect(lowerBound([50, 50, 50, 50], 100)).toBe(2);
    expect(lowerBound([100, 1], 100)).toBe(2);
  });

  it('has nothing for a piece longer than a stick, and takes one that just fits', () => {
    expect(planSticks(pieces([60, 101]), 100)).toBeNull();
    expect(planSticks(pieces([100, 100]), 100)?.sticks.map(fretsOf)).toEqual([[1], [2]]);
    expect(planSticks([], 100)).toEqual({ length: 100, sticks: [], isLeast: true });
  });

  it('gives the same plan again, in bounded time for 36 frets', () => {
    const cuts = Array.from({ length: 36 }, (_, i) => 50 + 0.37 * i);
    const started = performance.now();
    const plan = planSticks(pieces(cuts), 610);
    expect(performance.now() - started).toBeLessThan(2000);
    expect(planSticks(pieces(cuts), 610)).toEqual(plan);
  });
});
