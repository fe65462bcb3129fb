/** The certified gap of a region against plain sampling. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leftOf } from '../../src/verify/removal/coverage.ts';
import { fitDrift, middleLine, type Offset } from '../../src/verify/removal/located.ts';
import { newPiece, type Piece } from '../../src/verify/removal/piece.ts';
import { pointToPrim } from '../../src/verify/removal/prim.ts';
import { leftAlong } from '../../src/verify/removal/ringCoverage.ts';
import { isInside, type Region, regionOf } from '../../src/verify/removal/rings.ts';
import { circle, opening, rectangle } from '../support/proofSamples.ts';

function line(x0: number, y0: number, x1: number, y1: number): Piece {
  return { ...newPiece(), x0, y0, x1, y1 };
}

function halfTurns(cx: number, cy: number, radius: number): Piece[] {
  return [0, 1].map((k) => ({
    ...newPiece(),
    arc: true,
    cx,
    cy,
    radius,
    a0: k * Math.PI,
    sweep: Math.PI,
    x0: cx + (k === 0 ? radius : -radius),
    x1: cx - (k === 0 ? radius : -radius),
    y0: cy,
    y1: cy,
  }));
}

const circular = (radius: number): Piece[] => halfTurns(0, 0, radius);

function sampledGap(region: Region, pieces: readonly Piece[], radius: number, step: number): number {
  let worst = Number.NEGATIVE_INFINITY;
  const { box } = region;
  for (let x = box.minX + step / 2; x < box.maxX; x += step) {
    for (let y = box.minY + step / 2; y < box.maxY; y += step) {
      if (!isInside(region, x, y)) continue;
      worst = Math.max(worst, Math.min(...pieces.map((p) => pointToPrim(x, y, p))) - radius);
    }
  }
  return worst;
}

const REGIONS: readonly (readonly [string, Region])[] = [
  ['a rectangle', regionOf([rectangle(0, 0, 12, 4)])],
  ['a disc', regionOf([circle(5, 3, 3)])],
  [
    'an L',
    regionOf([
      [
        [0, 0],
        [12, 0],
        [12, 2],
        [4, 2],
        [4, 5],
        [0, 5],
      ],
    ]),
  ],
  ['a ring', regionOf([circle(6, 3, 3), opening(6, 3, 1)])],
];

describe('what is left of', () => {
  it.each(REGIONS)('%s is at least what sampling finds, and no more than it needs', (_, region) => {
    const within = fc.double({ min: -1, max: 13, noNaN: true });
    const strokes = fc.array(fc.tuple(within, within, within, within), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(
        strokes,
        fc.boolean(),
        fc.double({ min: 0.4, max: 2, noNaN: true }),
        (list, round, radius) => {
          const pieces = [
            ...list.map(([a, b, c, d]) => line(a, b / 3, c, d / 3)),
            ...(round ? halfTurns(5, 2.5, 1.7) : []),
          ];
          const sampled = sampledGap(region, pieces, radius, 0.1);
          const { value } = leftOf(region, null, pieces, radius, 0.01);
          expect(value).toBeGreaterThanOrEqual(sampled - 1e-9);
          // Sampling misses by half a diagonal; below the limit the bound may rest at the limit.
          expect(value).toBeLessThanOrEqual(Math.max(sampled + 0.1, 0.01));
        },
      ),
      { seed: 7, numRuns: 40 },
    );
  });

  it('a slot swept along its middle is nothing but half the scatter, found in few patches', () => {
    const slot = regionOf([rectangle(0, -0.3, 58, 0.3)]);
    const left = leftOf(slot, null, [line(-0.5, 0, 58.5, 0)], 0.295, 0.01);
    expect(left.value).toBeCloseTo(0.005, 9);
    expect(left.seen).toBeLessThan(10);
  });

  it('a disc with a circle run just inside its wall likewise', () => {
    const left = leftOf(regionOf([circle(0, 0, 3)]), null, halfTurns(0, 0, 1.5), 1.49, 0.02);
    expect(left.value).toBeCloseTo(0.01, 9);
    expect(left.seen).toBeLessThan(200);
  });

  it('a ring with chords run along both its walls is certain in patches enough for its walls, not for its area', () => {
    const chords = (radius: number, count: number): Piece[] =>
      Array.from({ length: count }, (_, i) => {
        const [a, b] = [(2 * Math.PI * i) / count, (2 * Math.PI * (i + 1)) / count];
        return line(radius * Math.cos(a), radius * Math.sin(a), radius * Math.cos(b), radius * Math.sin(b));
      });
    const walls = [
      ...chords(18.41, 300),
      ...chords(9.59, 300),
      ...[11, 12.5, 14, 15.5, 17].flatMap(circular),
    ];
    const region = regionOf([circle(0, 0, 20), opening(0, 0, 8)]);
    const left = leftOf(region, null, walls, 1.585, 0.01);
    // Half the scatter of the diameter, and the sagitta of the chords: 18.41 (1 - cos(pi / 300)).
    expect(left.value).toBeGreaterThanOrEqual(0.005);
    expect(left.value).toBeLessThanOrEqual(0.01);
    expect(left.seen).toBeLessThan(50_000);
  });

  it('a square with a path along its inset is left with its corners', () => {
    const ring = [line(1, 1, 9, 1), line(9, 1, 9, 9), line(9, 9, 1, 9), line(1, 9, 1, 1)];
    const across = Array.from({ length: 6 }, (_, k) => line(1, 2 + k * 1.2, 9, 2 + k * 1.2));
    const left = leftOf(regionOf([rectangle(0, 0, 10, 10)]), null, [...ring, ...across], 1, 0.01);
    expect(left.value).toBeGreaterThanOrEqual(Math.SQRT2 - 1 - 1e-4);
    expect(left.value).toBeLessThan(Math.SQRT2 - 1 + 0.001);
  });
});

describe('what is left along a ring', () => {
  const free = (): boolean => false;

  it('swept by arcs and lines is half the scatter', () => {
    const ring = regionOf([circle(0, 0, 5)]);
    expect(leftAlong(ring, free, halfTurns(0, 0, 5.5), 0.495, 0.01).value).toBeCloseTo(0.005, 9);
  });

  it('is all of it when nothing was cut', () => {
    expect(leftAlong(regionOf([circle(0, 0, 5)]), free, [], 0.5, 0.01).value).toBe(10);
  });

  it('is the stretch that a gap in the path leaves', () => {
    const ring = regionOf([rectangle(0, 0, 10, 10)]);
    const path = [
      line(-0.5, -0.5, 4, -0.5),
      line(6, -0.5, 10.5, -0.5),
      line(10.5, -0.5, 10.5, 10.5),
      line(10.5, 10.5, -0.5, 10.5),
      line(-0.5, 10.5, -0.5, -0.5),
    ];
    const { value, place } = leftAlong(ring, free, path, 0.5, 0.01);
    expect(value).toBeGreaterThanOrEqual(Math.hypot(1, 0.5) - 0.5 - 1e-6);
    expect(value).toBeLessThan(Math.hypot(1, 0.5) - 0.5 + 0.001);
    expect(place[0]).toBeCloseTo(5, 2);
  });
});

describe('the drift of a whole program', () => {
  const places = [
    [0, 0],
    [300, 10],
    [120, 40],
    [50, -30],
  ] as const;

  it('is found from offsets seen in two directions', () => {
    const [tx, ty, turn, growth] = [0.03, -0.02, 1e-4, 2e-4];
    const [mx, my] = [117.5, 5];
    const offsets = places.flatMap(([x, y]) => {
      const dx = tx - turn * (y - my) + growth * (x - mx);
      const dy = ty + turn * (x - mx) + growth * (y - my);
      return [
        { x, y, nx: 1, ny: 0, off: dx },
        { x, y, nx: 0, ny: 1, off: dy },
      ];
    });
    const drift = fitDrift(offsets, 0.002);
    expect(drift.shift).toBeCloseTo(Math.hypot(tx, ty), 6);
    expect(drift.turn).toBeCloseTo(turn, 9);
    expect(drift.growth).toBeCloseTo(growth, 9);
  });

  /** Slots 0.001 to 0.002 rad from square: along x they tell a shift well, along y hardly. `move`: what each is off by. */
  const almostParallel = (move: (x: number, k: number, nx: number, ny: number) => number): Offset[] =>
    Array.from({ length: 20 }, (_, i) => 30 + 15 * i).flatMap((x, i) => {
      const lean = 0.001 + 0.00005 * i;
      const [nx, ny] = [Math.cos(lean), Math.sin(lean)];
      return [-20, 20].map((y, k) => ({ x, y, nx, ny, off: move(x, 2 * i + k, nx, ny) }));
    });

  it('is not read out of the rounding of slots that are almost parallel', () => {
    // Half a step of a program's last digit, in no order: the largest that rounding can do.
    const rounding = almostParallel((_, k) => (Math.sin(12.9 * k * k) > 0 ? 5e-5 : -5e-5));
    const drift = fitDrift(rounding, 0.002);
    expect(drift.shift).toBeLessThan(0.002);
    expect(Math.max(Math.abs(drift.turn), Math.abs(drift.growth)) * drift.span).toBeLessThan(0.002);
  });

  it('is found among almost parallel slots where they show it: a shift across them, a turn, a growth', () => {
    const middle = 30 + 7.5 * 19;
    const across = fitDrift(
      almostParallel((_, _k, nx) => 0.0025 * nx),
      0.002,
    );
    expect(across.shift).toBeGreaterThan(0.0024);
    const grown = fitDrift(
      almostParallel((x, _k, nx) => 2e-5 * (x - middle) * nx),
      0.002,
    );
    expect(grown.growth * grown.span).toBeGreaterThan(0.0024);
  });

  it('a slot knows its middle line', () => {
    const middle = middleLine(regionOf([rectangle(29.7, -28, 30.3, 28)]));
    expect(middle?.from[0]).toBeCloseTo(30, 12);
    expect(middleLine(regionOf([rectangle(0, 0, 3, 2)]))).toBeNull();
  });
});
