import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { angleForCusp, ballOnRuling, type ConeShape, coneHeight } from '../../src/geometry/coneSurface.ts';
import { sagitta } from '../../src/geometry/surface.ts';

const round = (R: number): ConeShape => ({ x: [0, 450], R: [R, R], crest: 0, below: 0 });
const compound: ConeShape = { x: [0, 450], R: [254, 406.4], crest: 0, below: 0.5 };

/** Least distance of a point from a surface, by looking closer and closer about the best point of a grid. */
function distanceTo(cone: ConeShape, [px, py, pz]: readonly [number, number, number]): number {
  let [cx, cy, half] = [px, py, 4];
  let least = Number.POSITIVE_INFINITY;
  for (let round = 0; round < 14; round += 1) {
    let [bx, by] = [cx, cy];
    for (let i = -10; i <= 10; i += 1) {
      for (let j = -10; j <= 10; j += 1) {
        const [x, y] = [cx + (half * i) / 10, cy + (half * j) / 10];
        const d = Math.hypot(px - x, py - y, pz - coneHeight(cone, x, y));
        if (d < least) [least, bx, by] = [d, x, y];
      }
    }
    [cx, cy, half] = [bx, by, half * 0.3];
  }
  return least;
}

describe('a board’s top', () => {
  it('falls by the sagitta from its crest to its edge', () => {
    // s = R - sqrt(R^2 - c^2/4), worked by hand: R 304.8 and c 56 give 1.288814; R 406.4 and c 56 give 0.965714.
    expect(-coneHeight(round(304.8), 100, 28)).toBeCloseTo(1.288814, 6);
    expect(-coneHeight(round(406.4), 300, -28)).toBeCloseTo(0.965714, 6);
    expect(-coneHeight(round(406.4), 300, 28)).toBeCloseTo(sagitta(406.4, 56), 12);
  });
});

describe('a ball on a ruling', () => {
  it.each([
    ['a cylinder', round(184)],
    ['a cone', compound],
  ] as const)('of %s stands off by its radius everywhere: it touches and never cuts below', (_, cone) => {
    for (const x of [0, 120, 450]) {
      for (const angle of [-0.12, -0.03, 0, 0.05, 0.11]) {
        const tip = ballOnRuling(cone, x, angle, 3);
        expect(distanceTo(cone, [tip.x, tip.y, tip.z + 3])).toBeCloseTo(3, 6);
      }
    }
  });

  it('rolls down a ruling of a cone on a straight line', () => {
    const [a, b, c] = [0, 200, 400].map((x) => ballOnRuling(compound, x, 0.1, 3));
    if (a === undefined || b === undefined || c === undefined) throw new Error('three places');
    for (const axis of ['x', 'y', 'z'] as const) expect(b[axis]).toBeCloseTo((a[axis] + c[axis]) / 2, 9);
  });
});

describe('the angle between passes', () => {
  it('becomes the stepover on a flat, s = 2 sqrt(2 r h - h^2)', () => {
    // By hand: r 3, h 0.02: 2 sqrt(0.12 - 0.0004) = 0.691665; and back, h = r - sqrt(r^2 - s^2/4).
    const s = angleForCusp(1e7, 3, 0.02) * 1e7;
    expect(s).toBeCloseTo(0.691665, 5);
    expect(3 - Math.sqrt(9 - (s * s) / 4)).toBeCloseTo(0.02, 6);
  });

  it('leaves ridges of that height on a round: two balls meet there at R + h', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 100, max: 8000, noNaN: true }),
        fc.double({ min: 0.5, max: 6, noNaN: true }),
        fc.double({ min: 0.002, max: 0.2, noNaN: true }),
        (R, r, h) => {
          const half = angleForCusp(R, r, h) / 2;
          // The ball's centre at the angle `half` from the ridge, which lies on the axis through it.
          const [cx, cy] = [(R + r) * Math.sin(half), (R + r) * Math.cos(half)];
          const meets = cy - Math.sqrt(r * r - cx * cx);
          expect(meets - R).toBeCloseTo(h, 6);
        },
      ),
      { seed: 7 },
    );
  });

  it('refuses ridges that no ball of that size leaves', () => {
    expect(() => angleForCusp(400, 3, 3)).toThrow('ridges of 3 mm');
    expect(() => angleForCusp(400, 3, 0)).toThrow('ridges of 0 mm');
  });
});
