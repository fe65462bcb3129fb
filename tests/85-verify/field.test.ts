/** The height field, its strokes and the bound on ridges, against plain ways of finding the same figures. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { carve as carveField, type Field, fieldOver, missedBy } from '../../src/verify/field/field.ts';
import { ridgesOn } from '../../src/verify/field/ridges.ts';
import { straightParts } from '../../src/verify/field/straight.ts';
import { type End, type Stroke, strokeOf } from '../../src/verify/field/stroke.ts';
import { newPiece, type Piece } from '../../src/verify/removal/piece.ts';
import { regionOf } from '../../src/verify/removal/rings.ts';
import { ballDepth } from '../../src/verify/removal/surface.ts';
import { carve, type EndShape } from '../support/carve.ts';

const ENDS: readonly End[] = [
  { kind: 'flat', radius: 1.5 },
  { kind: 'ball', radius: 3 },
  { kind: 'vee', radius: 2, cotangent: Math.sqrt(3) },
];

type Spot = readonly [x: number, y: number, z: number];

function line([x0, y0, z0]: Spot, [x1, y1, z1]: Spot): Piece {
  return { ...newPiece(), x0, y0, z0, x1, y1, z1 };
}

/** Height of an end above its lowest point at a distance from its axis. */
function shapeOf(end: End): EndShape {
  switch (end.kind) {
    case 'flat':
      return () => 0;
    case 'ball':
      return (d) => end.radius - Math.sqrt(end.radius ** 2 - d * d);
    case 'vee':
      return (d) => d * end.cotangent;
  }
}

/** Lowest height over a point, tried at many places along the piece. */
function tried(end: End, piece: Piece, x: number, y: number): number {
  const shape = shapeOf(end);
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k <= 4000; k += 1) {
    const t = k / 4000;
    const away = Math.hypot(
      x - piece.x0 - (piece.x1 - piece.x0) * t,
      y - piece.y0 - (piece.y1 - piece.y0) * t,
    );
    if (away <= end.radius) least = Math.min(least, piece.z0 + (piece.z1 - piece.z0) * t + shape(away));
  }
  return least;
}

const far = fc.double({ min: -6, max: 6, noNaN: true });
const low = fc.double({ min: -3, max: 0, noNaN: true });
const spot = fc.tuple(far, far, low);

describe.each(ENDS)('what a $kind end sweeps', (end) => {
  it('is as low over every point as the end ever is on its way', () => {
    fc.assert(
      fc.property(spot, spot, far, far, (from, to, x, y) => {
        fc.pre(Math.hypot(to[0] - from[0], to[1] - from[1]) > 0.01);
        const piece = line(from, to);
        const over = strokeOf(end, piece).over(x, y);
        const least = tried(end, piece, x, y);
        // A point just inside the rim may be missed by the steps of the trial, never the other way.
        if (Number.isFinite(least)) expect(over).toBeLessThanOrEqual(least + 1e-9);
        if (Number.isFinite(least) && Math.abs(to[2] - from[2]) < 2)
          expect(over).toBeGreaterThan(least - 0.05);
      }),
      { seed: 11, numRuns: 300 },
    );
  });

  it('is convex: over a middle never higher than the mean of both ends', () => {
    fc.assert(
      fc.property(spot, spot, far, far, far, far, (from, to, x0, y0, x1, y1) => {
        const { over } = strokeOf(end, line(from, to));
        const mean = (over(x0, y0) + over(x1, y1)) / 2;
        expect(over((x0 + x1) / 2, (y0 + y1) / 2)).toBeLessThanOrEqual(mean + 1e-9);
      }),
      { seed: 12, numRuns: 500 },
    );
  });

  it('is the end itself where it stands still or goes straight down', () => {
    const { over } = strokeOf(end, line([1, 2, 0], [1, 2, -1]));
    expect(over(1, 2)).toBe(-1);
    expect(over(1.5, 2)).toBeCloseTo(-1 + shapeOf(end)(0.5), 12);
    expect(over(1 + end.radius + 0.01, 2)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('arcs', () => {
  it('are taken in chords that leave them by at most 0.0001 mm, upright ones as well', () => {
    const flat = { ...line([5, 0, 0], [-5, 0, -1]), arc: true, radius: 5, sweep: Math.PI };
    for (const p of straightParts(flat)) {
      const middle = Math.hypot((p.x0 + p.x1) / 2, (p.y0 + p.y1) / 2);
      expect(5 - middle).toBeLessThanOrEqual(0.000101);
    }
    const quarter: Piece = {
      ...line([0, 0, -2], [0, 2, -4]),
      upright: true,
      radius: 2,
      uc: 0,
      uz: -4,
      side: 1,
    };
    for (const p of straightParts(quarter)) {
      const middle = Math.hypot((p.y0 + p.y1) / 2, (p.z0 + p.z1) / 2 + 4);
      expect(2 - middle).toBeLessThanOrEqual(0.000101);
    }
  });
});

const PROGRAM: readonly Spot[] = [
  [1, 1, -0.4],
  [9, 1, -0.4],
  [9, 2.3, -0.9],
  [1.5, 3.1, -0.3],
  [6, 6, -1.2],
  [6, 6, -1.6],
];

/** The same way as text and as strokes. */
function bothWays(end: End): { text: string; strokes: Stroke[] } {
  const text = `G21 G90 G94 G17\n${PROGRAM.map(([x, y, z]) => `G1 X${x} Y${y} Z${z} F100`).join('\n')}\nM2\n`;
  const strokes = PROGRAM.slice(1).map((to, i) => strokeOf(end, line(PROGRAM[i] ?? to, to)));
  return { text, strokes };
}

describe.each(ENDS)('the field a $kind end leaves', (end) => {
  const step = 0.1;

  it('is the one that stamping the end along the way leaves', () => {
    const { text, strokes } = bothWays(end);
    const shape = shapeOf(end);
    // The plain carver has its points in the middle of its cells and starts from 100 mm up.
    const plain = carve(`${text}`, 2 * end.radius, { x: [-2, 12], y: [-2, 9], step, top: () => 0 }, shape);
    const box = {
      minX: plain.x(0),
      maxX: plain.x(plain.nx - 1),
      minY: plain.y(0),
      maxY: plain.y(plain.ny - 1),
    };
    const field = fieldOver(box, step, () => 0);
    const from = PROGRAM[0];
    if (from === undefined) throw new Error('a way');
    for (const stroke of [strokeOf(end, line(from, from)), ...strokes]) carveField(field, stroke);
    expect([field.nx, field.ny]).toEqual([plain.nx, plain.ny]);
    let [worst, lower] = [0, 0];
    for (let j = 0; j < field.ny; j += 1) {
      for (let i = 0; i < field.nx; i += 1) {
        const [mine, theirs] = [field.z[j * field.nx + i] ?? Number.NaN, plain.heightAt(i, j)];
        // The first feed of the text comes down from the origin; what it stamps on its way is not part of the strokes.
        if (theirs < mine - 1e-9 && !touchedComingDown(end, field, i, j))
          worst = Math.max(worst, mine - theirs);
        if (mine < theirs - 0.03) lower += 1;
      }
    }
    expect(worst).toBe(0);
    // The plain way goes in steps: at the rim of an end it may miss a point here and there.
    expect(lower).toBeLessThan(0.01 * field.nx * field.ny);
  });

  it('loses as much volume as the bites of its strokes say', () => {
    const field = fieldOver({ minX: -2, maxX: 12, minY: -2, maxY: 9 }, step, () => 0);
    const bites = bothWays(end).strokes.map((stroke) => carveField(field, stroke));
    const sum = field.z.reduce((total, z) => total - z, 0);
    expect(bites.reduce((total, bite) => total + bite.sum, 0)).toBeCloseTo(sum, 6);
    const deepest = Math.max(...bites.map((bite) => bite.deepest));
    expect(deepest).toBeLessThanOrEqual(1.6 + 1e-9);
    expect(deepest).toBeGreaterThan(0.8);
  });
});

/** Whether the way from the origin down to the first place passes over a point. */
function touchedComingDown(end: End, field: Field, i: number, j: number): boolean {
  const [x, y] = [field.x0 + i * field.pitch, field.y0 + j * field.pitch];
  return Number.isFinite(strokeOf(end, line([0, 0, 100], [1, 1, -0.4])).over(x, y));
}

describe('a board worked by a ball in the field', () => {
  const [R, r, length, width] = [406.4, 3, 40, 56];

  /** Passes along x at even angles; `fine` sets how many. */
  function worked(pitch: number, fine: number): { field: Field; volume: number } {
    const half = pitch / 2;
    const box = { minX: half, maxX: length - half, minY: -width / 2 + half, maxY: width / 2 - half };
    const field = fieldOver(box, pitch, () => 0);
    const edge = Math.asin(width / 2 / R);
    let sum = 0;
    for (let k = 0; k <= fine; k += 1) {
      const angle = edge * (1 - (2 * k) / fine);
      const [y, z] = [(R + r) * Math.sin(angle), (R + r) * Math.cos(angle) - R - r];
      sum += carveField(
        field,
        strokeOf({ kind: 'ball', radius: r }, line([-1, y, z], [length + 1, y, z])),
      ).sum;
    }
    return { field, volume: sum * pitch * pitch };
  }

  it('loses what lies between its blank’s flat top and the round: width x sagitta less the segment, times its length', () => {
    // s = R - sqrt(R^2 - c^2/4) = 0.965714 for R 406.4, c 56; segment R^2 (a - sin a) / 2, a = 2 asin(c / (2R)).
    const a = 2 * Math.asin(width / 2 / R);
    const meant = (width * 0.965714 - (R * R * (a - Math.sin(a))) / 2) * length;
    const { volume } = worked(0.1, 2000);
    // Passes so close leave no ridges worth the name; the midpoint rule over 0.1 mm does the rest.
    expect(Math.abs(volume - meant) / meant).toBeLessThan(1e-4);
  });

  it('keeps at least the round and at most the ridges over it at every point', () => {
    const { field } = worked(0.1, 80);
    const s = (2 * Math.asin(width / 2 / R) * R) / 80;
    const cusp = r - Math.sqrt(r * r - (s * s) / 4);
    let [lowest, highest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (let j = 0; j < field.ny; j += 1) {
      const y = field.y0 + j * field.pitch;
      const above = (field.z[j * field.nx + 100] ?? Number.NaN) - (Math.sqrt(R * R - y * y) - R);
      [lowest, highest] = [Math.min(lowest, above), Math.max(highest, above)];
    }
    expect(lowest).toBeGreaterThan(-1e-9);
    expect(highest).toBeLessThanOrEqual(cusp * 1.02);
    expect(highest).toBeGreaterThan(cusp * 0.9);
  });

  it('misses no more of a gouge between its points than the bound that is added', () => {
    // A ball 0.01 mm too deep in the middle of a cell: the nearest points lie half a diagonal away.
    const pitch = 0.1;
    const field = fieldOver({ minX: 0, maxX: 10, minY: 0, maxY: 10 }, pitch, () => 0);
    carveField(field, strokeOf({ kind: 'ball', radius: r }, line([5.05, 5.05, -0.01], [5.05, 5.05, -0.01])));
    const read = -Math.min(...field.z);
    expect(read).toBeLessThan(0.01);
    expect(read + missedBy(r, pitch)).toBeGreaterThanOrEqual(0.01 - 1e-12);
    // h^2 / (4r) to first order.
    expect(missedBy(r, pitch)).toBeCloseTo(0.01 / 12, 6);
  });
});

describe('ridges', () => {
  const region = regionOf([
    [
      [0, 0],
      [100, 0],
      [100, 20],
      [0, 20],
    ],
  ]);
  const plane = { kind: 'plane', z: -1 } as const;
  const plain = { good: 0.5, knots: [], spread: (): number => 1 };
  const passes = (end: End, step: number): Stroke[] =>
    Array.from({ length: Math.ceil(24 / step) }, (_, k) =>
      strokeOf(end, line([-5, -2 + k * step, -1], [105, -2 + k * step, -1])),
    );

  it('of a ball on a flat are h = r - sqrt(r^2 - s^2/4) high', () => {
    for (const [r, s] of [
      [3, 0.7],
      [3, 1.5],
      [1.5, 0.4],
    ] as const) {
      const h = r - Math.sqrt(r * r - (s * s) / 4);
      const found = ridgesOn(
        { region, floor: plane, top: 0, isSquare: true, limit: h, ...plain },
        passes({ kind: 'ball', radius: r }, s),
      );
      expect(found.value).toBeGreaterThanOrEqual(h - 1e-9);
      expect(found.value).toBeLessThan(h + 0.0003);
      expect(found.seen).toBeLessThan(50_000);
    }
  });

  it('are the whole stock where no pass comes', () => {
    const ground = { region, floor: plane, top: 0, isSquare: true, limit: 0.02, ...plain };
    const all = passes({ kind: 'ball', radius: 3 }, 0.7);
    const [gap] = [all.filter((_, k) => k < 10 || k > 22)];
    expect(ridgesOn(ground, gap).value).toBe(1);
    const stopped = all.map((s, k) =>
      k === 15 ? strokeOf({ kind: 'ball', radius: 3 }, line([-5, s.y0, -1], [60, s.y0, -1])) : s,
    );
    const { value, place } = ridgesOn(ground, stopped);
    // Between the neighbours of the one that stops: s = 1.4.
    expect(value).toBeCloseTo(3 - Math.sqrt(9 - 0.49), 3);
    expect(place[0]).toBeGreaterThan(60);
    expect(ridgesOn(ground, []).value).toBe(1);
  });

  it('of a flat cutter’s level passes are the steps it leaves on a slope', () => {
    const cone = { kind: 'cone', x: [0, 100], R: [300, 300], crest: 0, below: 0 } as const;
    const half = regionOf([
      [
        [0, 5],
        [100, 5],
        [100, 20],
        [0, 20],
      ],
    ]);
    // Two levels, each up to where the round meets it: y = sqrt(2 R t - t^2).
    const levels = [0.2, 0.4, 0.6].map((t) => ({ t, y: Math.sqrt(600 * t - t * t) }));
    const strokes = levels.flatMap(({ t, y }) =>
      Array.from({ length: 14 }, (_, k) =>
        strokeOf({ kind: 'flat', radius: 1.5 }, line([-5, y + 1.5 + k, -t], [105, y + 1.5 + k, -t])),
      ),
    );
    const found = ridgesOn(
      { region: half, floor: cone, top: 0, isSquare: false, limit: 0.2, ...plain },
      strokes,
    );
    expect(found.value).toBeGreaterThan(0.1999);
    expect(found.value).toBeLessThan(0.2003);
  });
});

describe('how deep a ball goes below a surface', () => {
  it('is its radius less the distance of its centre, on a cylinder by plain algebra', () => {
    const cylinder = { kind: 'cone', x: [0, 100], R: [184, 184], crest: 0, below: 0 } as const;
    fc.assert(
      fc.property(
        fc.double({ min: -30, max: 30, noNaN: true }),
        fc.double({ min: -3, max: 1, noNaN: true }),
        (y, z) => {
          const depth = 3 - (Math.hypot(y, z + 3 + 184) - 184);
          expect(ballDepth(cylinder, 50, y, z, 3)).toBeCloseTo(depth, 9);
        },
      ),
      { seed: 3 },
    );
  });

  it('on a cone is what a close search of the surface finds', () => {
    const cone = { kind: 'cone', x: [0, 100], R: [150, 300], crest: 0, below: 0 } as const;
    const height = (x: number, y: number): number => {
      const R = 150 + 1.5 * x;
      return Math.sqrt(R * R - y * y) - R;
    };
    for (const [x, y, z] of [
      [10, 20, -1.4],
      [50, -25, -1.2],
      [90, 5, 0.1],
    ] as const) {
      let [cx, cy, half] = [x as number, y as number, 2];
      let least = Number.POSITIVE_INFINITY;
      for (let look = 0; look < 14; look += 1) {
        let [bx, by] = [cx, cy];
        for (let i = -10; i <= 10; i += 1) {
          for (let j = -10; j <= 10; j += 1) {
            const [px, py] = [cx + (half * i) / 10, cy + (half * j) / 10];
            const d = Math.hypot(px - x, py - y, height(px, py) - z - 3);
            if (d < least) [least, bx, by] = [d, px, py];
          }
        }
        [cx, cy, half] = [bx, by, half * 0.3];
      }
      expect(ballDepth(cone, x, y, z, 3)).toBeCloseTo(3 - least, 6);
    }
  });
});
