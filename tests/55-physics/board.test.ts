import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bowDrop, setUpOf } from '../../src/physics/board.ts';
import { openHeights, swings } from '../../src/physics/clearance.ts';
import { openLength, restLength, saddleHeightAt, soundingLength } from '../../src/physics/frettedLength.ts';
import type { SetUp } from '../../src/physics/types.ts';
import { publishedBoard, twelfths, X0 } from './published.ts';
import { bench } from './steelSet.ts';

describe('lengths on the published board', () => {
  // Geometry of Anderson & Beausoleil (2024), typed out: b nut height, c saddle over nut, d finger behind the fret.
  it.each([
    [0, 0, 0],
    [10, 0, 0],
    [10, 1.8, 0.38],
  ])('d %d, saddle %d, nut %d', (d, dS, forward) => {
    const [b, c, dN] = [1, 4, -forward];
    const board = publishedBoard(d, forward);
    expect(openLength(board, dS)).toBeCloseTo(Math.hypot(X0 + dS + dN, c), 10);
    twelfths(12).forEach((ratio, fret) => {
      const xn = X0 / ratio;
      const ln = Math.hypot(xn + dS, b + c);
      const rest = (ln * d) / (xn + dS) + Math.hypot(X0 - xn + dN - d, b + ((b + c) * d) / (xn + dS));
      expect(soundingLength(board, fret, dS)).toBeCloseTo(ln, 10);
      expect(restLength(board, fret, dS)).toBeCloseTo(rest, 10);
    });
  });
});

describe('a set-up from bench measurements', () => {
  // Common practice, worked values: nut 0.25 above the plane, saddle line at 630.5, no relief.
  it.each([
    [2.4, 4.567],
    [1.8, 3.362],
  ])('action %d at the 12th puts the string %d above the plane at the saddle', (action, saddle) => {
    const u = (628 * (1 - 2 ** (-1 / 12))) / 314;
    const firstFret = 0.25 * (1 - u) + action * u;
    const setUp = setUpOf(bench({ action, firstFret, relief: 0 }));
    expect(setUp.nutHeight).toBeCloseTo(0.25, 10);
    expect(saddleHeightAt(setUp, 2.5)).toBeCloseTo(saddle, 3);
  });

  it('has the measured heights again, whatever the relief, the nut and where the bow ends', () => {
    const inputs = fc.record({
      action: fc.double({ min: 1, max: 4, noNaN: true }),
      firstFret: fc.double({ min: 0.2, max: 0.9, noNaN: true }),
      relief: fc.double({ min: 0, max: 0.4, noNaN: true }),
      bowFret: fc.integer({ min: 5, max: 19 }),
      actionFret: fc.integer({ min: 2, max: 19 }),
      nutForward: fc.double({ min: 0, max: 2, noNaN: true }),
    });
    fc.assert(
      fc.property(inputs, (given) => {
        const heights = openHeights(setUpOf(bench(given)), 2);
        expect(heights[0]).toBeCloseTo(given.firstFret, 9);
        expect(heights[given.actionFret - 1]).toBeCloseTo(given.action, 9);
      }),
      { seed: 5 },
    );
  });

  it('bows as a parabola: deepest in the middle, nothing at both ends and beyond', () => {
    expect(bowDrop(0.2, 0.5)).toBeCloseTo(0.2, 12);
    expect([0, 1, 1.3, -0.1].map((u) => bowDrop(0.2, u))).toEqual([0, 0, 0, 0]);
    expect(bowDrop(0.2, 0.25)).toBeCloseTo(0.15, 12);
  });

  it('keeps the finger in the space behind the fret', () => {
    const setUp = setUpOf(bench({ fingerBehind: 20 }));
    for (let i = 1; i < 19; i += 1) {
      const space = (setUp.frets[i] ?? 0) - (setUp.frets[i - 1] ?? 0);
      expect(setUp.fingerBehind[i]).toBeCloseTo(Math.min(20, space / 2), 12);
    }
  });
});

/** Height of the taut string over a grid: the least concave line above all obstacles, found by trying every pair. */
function tautByBrute(points: readonly (readonly [number, number])[]): number {
  const upper = points.filter(([x, z]) =>
    points.every(([xa, za]) =>
      points.every(([xb, zb]) => {
        if (!(xa < x && x < xb)) return true;
        return za + ((zb - za) * (x - xa)) / (xb - xa) <= z + 1e-12;
      }),
    ),
  );
  return upper
    .slice(1)
    .reduce((sum, [x, z], i) => sum + Math.hypot(x - (upper[i]?.[0] ?? 0), z - (upper[i]?.[1] ?? 0)), 0);
}

describe('the pressed string behind the finger', () => {
  it('is as long as the taut line over nut, frets and finger, whatever the set-up', () => {
    const inputs = fc.record({
      relief: fc.double({ min: 0, max: 0.6, noNaN: true }),
      press: fc.double({ min: 0, max: 0.6, noNaN: true }),
      firstFret: fc.double({ min: 0.05, max: 0.8, noNaN: true }),
      fret: fc.integer({ min: 0, max: 18 }),
    });
    fc.assert(
      fc.property(inputs, ({ fret, ...given }) => {
        const setUp = setUpOf(bench(given));
        const [x, top] = [setUp.frets[fret] ?? 0, -(setUp.drops[fret] ?? 0)];
        const behind = setUp.fingerBehind[fret] ?? 0;
        const slope = (saddleHeightAt(setUp, 2) - top) / (setUp.scale + 2 - x);
        const below = Math.min(slope * behind + given.press, setUp.crownHeight);
        const frets = Array.from(
          { length: fret },
          (_, k) => [setUp.frets[k] ?? 0, -(setUp.drops[k] ?? 0)] as const,
        );
        const points = [[0, setUp.nutHeight] as const, ...frets, [x - behind, top - below] as const];
        expect(restLength(setUp, fret, 2)).toBeCloseTo(Math.hypot(behind, below) + tautByBrute(points), 9);
      }),
      { seed: 5, numRuns: 300 },
    );
  });

  it('is longer where frets carry it than where it passes through them', () => {
    const resting = setUpOf(bench({ press: 0.2 }));
    const through: SetUp = { ...resting, restsOnFrets: false };
    const [a, b] = [resting, through].map((s) => restLength(s, 11, 2));
    expect(a ?? 0).toBeGreaterThan(b ?? 0);
  });

  it('is not pressed through the board', () => {
    const deep = restLength(setUpOf(bench({ press: 5 })), 5, 2);
    const limit = restLength(setUpOf(bench({ press: 50 })), 5, 2);
    expect(deep).toBe(limit);
  });
});

describe('room to swing', () => {
  /** Lowest place of an ideal plucked string over half a period, by adding up its two travelling waves. */
  function lowestByWaves(u: number, pluck: number): number {
    const shape = (x: number): number => {
      const odd = ((x % 2) + 2) % 2;
      const [s, v] = odd <= 1 ? [1, odd] : [-1, 2 - odd];
      return s * (v <= pluck ? v / pluck : (1 - v) / (1 - pluck));
    };
    let lowest = 0;
    for (let t = 0; t <= 2; t += 0.001) {
      const y = (shape(u - t) + shape(u + t)) / 2;
      lowest = Math.max(lowest, Math.abs(y));
    }
    return lowest;
  }

  it('agrees with the waves of a plucked string (d’Alembert) over every fret', () => {
    const setUp = setUpOf(bench());
    const saddle = { x: 630, z: saddleHeightAt(setUp, 2) };
    for (const { stoppedAt, room } of swings(setUp, 2, 126)) {
      const x = stoppedAt === 0 ? 0 : (setUp.frets[stoppedAt - 1] ?? 0);
      const z = stoppedAt === 0 ? setUp.nutHeight : -(setUp.drops[stoppedAt - 1] ?? 0);
      const length = saddle.x - x;
      const rooms = Array.from({ length: 19 - stoppedAt }, (_, i) => {
        const k = stoppedAt + i;
        const u = ((setUp.frets[k] ?? 0) - x) / length;
        const clear = z + (saddle.z - z) * u + (setUp.drops[k] ?? 0);
        return clear / lowestByWaves(u, Math.max(0.5, 1 - 126 / length));
      });
      if (rooms.length === 0) expect(room).toBe(Number.POSITIVE_INFINITY);
      else expect(room / Math.min(...rooms)).toBeCloseTo(1, 2);
    }
  });

  it('has none left where a back-bowed neck lifts a fret into the string', () => {
    const flat = swings(setUpOf(bench({ action: 0.4, firstFret: 0.1, relief: 0 })), 2, 126);
    const bowed = swings(setUpOf(bench({ action: 0.4, firstFret: 0.1, relief: -0.3 })), 2, 126);
    expect(Math.min(...flat.map((s) => s.room))).toBeGreaterThan(0);
    expect(Math.min(...bowed.map((s) => s.room))).toBeLessThan(0);
  });

  it('grows with the action', () => {
    const room = (action: number): number =>
      Math.min(...swings(setUpOf(bench({ action })), 2, 126).map((s) => s.room));
    expect(room(2.6)).toBeGreaterThan(room(2.4));
    expect(room(2.4)).toBeGreaterThan(room(2));
  });
});
