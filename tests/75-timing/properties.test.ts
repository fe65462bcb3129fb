import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MachineMotion } from '../../src/timing/types.ts';
import { lengthOf, machine, type Point, polyline, secondsOf, timeOf } from './time-support.ts';

const SEED = { seed: 11, numRuns: 300 };
const coordinate = fc.integer({ min: -4000, max: 4000 }).map((v) => v / 100);
const way = fc
  .array(fc.tuple(coordinate, coordinate), { minLength: 1, maxLength: 25 })
  .map((points) => {
    let [x, y] = [0, 0];
    return points.filter((p) => {
      const moves = Math.hypot(p[0] - x, p[1] - y) > 0.01;
      if (moves) [x, y] = p;
      return moves;
    });
  })
  .filter((points) => points.length > 0);

/**
 * The same question asked of small steps: a grid of speeds along the whole way, each no faster than its place allows, swept
 * forward and backward. Written from the rules alone.
 */
function onAGrid(
  points: readonly Point[],
  feed: number,
  { acceleration, junctionSpeed }: MachineMotion,
): number {
  const pitch = 0.002;
  const caps: number[] = [0];
  const steps: number[] = [];
  points.forEach(([x, y], i) => {
    const [fromX, fromY] = points[i - 1] ?? [0, 0];
    const length = Math.hypot(x - fromX, y - fromY);
    const count = Math.max(1, Math.round(length / pitch));
    for (let k = 1; k <= count; k += 1) {
      steps.push(length / count);
      caps.push(k < count ? feed : cornerSpeed(points, i, feed, acceleration.xy, junctionSpeed / 60));
    }
  });
  for (let i = 1; i < caps.length; i += 1)
    caps[i] = Math.min(
      caps[i] ?? 0,
      Math.sqrt((caps[i - 1] ?? 0) ** 2 + 2 * acceleration.xy * (steps[i - 1] ?? 0)),
    );
  for (let i = caps.length - 2; i >= 0; i -= 1)
    caps[i] = Math.min(
      caps[i] ?? 0,
      Math.sqrt((caps[i + 1] ?? 0) ** 2 + 2 * acceleration.xy * (steps[i] ?? 0)),
    );
  return steps.reduce((sum, step, i) => sum + (2 * step) / ((caps[i] ?? 0) + (caps[i + 1] ?? 0)), 0);
}

function cornerSpeed(points: readonly Point[], i: number, feed: number, a: number, step: number): number {
  const next = points[i + 1];
  if (next === undefined) return 0;
  const here = points[i] ?? [0, 0];
  const before = points[i - 1] ?? [0, 0];
  const [inX, inY, outX, outY] = [
    here[0] - before[0],
    here[1] - before[1],
    next[0] - here[0],
    next[1] - here[1],
  ];
  const turn = Math.abs(Math.atan2(inX * outY - inY * outX, inX * outX + inY * outY));
  if (turn < 1e-9) return feed;
  const shorter = Math.min(Math.hypot(inX, inY), Math.hypot(outX, outY));
  const curve = Math.sqrt((a * shorter) / (2 * Math.tan(turn / 2)));
  return Math.min(feed, step / (2 * Math.sin(turn / 2)), curve);
}

describe('the time of any way', () => {
  it('is never less than its length over its feed, and not less than a grid of small steps finds', () => {
    fc.assert(
      fc.property(way, (points) => {
        expect(secondsOf(polyline(points))).toBeGreaterThanOrEqual(lengthOf(points) / 20 - 1e-9);
      }),
      SEED,
    );
  });

  it('agrees with a grid of small steps', () => {
    fc.assert(
      fc.property(way, (points) => {
        const grid = onAGrid(points, 20, machine);
        expect(secondsOf(polyline(points)) / grid).toBeCloseTo(1, 3);
      }),
      { seed: 11, numRuns: 40 },
    );
  });

  it('is never longer with more acceleration, a larger step at junctions or a faster machine', () => {
    fc.assert(
      fc.property(way, fc.double({ min: 1, max: 20, noNaN: true }), (points, factor) => {
        const text = polyline(points);
        const plain = secondsOf(text) + 1e-9;
        const { acceleration, junctionSpeed, maxFeed } = machine;
        const more = { xy: acceleration.xy * factor, z: acceleration.z * factor };
        expect(secondsOf(text, { acceleration: more })).toBeLessThanOrEqual(plain);
        expect(secondsOf(text, { junctionSpeed: junctionSpeed * factor })).toBeLessThanOrEqual(plain);
        const slower = { xy: 900, z: maxFeed.z };
        expect(secondsOf(text, { maxFeed: slower })).toBeGreaterThanOrEqual(plain - 2e-9);
      }),
      SEED,
    );
  });

  it('does not change when a line is cut in two', () => {
    fc.assert(
      fc.property(way, fc.nat(), fc.constantFrom(0.001, 0.25, 0.5, 0.999), (points, which, share) => {
        const i = which % points.length;
        const [x, y] = points[i] ?? [0, 0];
        const [fromX, fromY] = points[i - 1] ?? [0, 0];
        const middle: Point = [fromX + (x - fromX) * share, fromY + (y - fromY) * share];
        const cut = [...points.slice(0, i), middle, ...points.slice(i)];
        const exact = (list: readonly Point[]): string =>
          list
            .map(([px, py], k) => `G1 X${px.toFixed(12)} Y${py.toFixed(12)}${k === 0 ? ' F1200' : ''}`)
            .join('\n');
        expect(secondsOf(exact(cut))).toBeCloseTo(secondsOf(exact(points)), 6);
      }),
      SEED,
    );
  });

  it('is the same both ways', () => {
    fc.assert(
      fc.property(way, (points) => {
        const back = [...[[0, 0] as Point, ...points].slice(0, -1)].reverse();
        const [x, y] = points.at(-1) ?? [0, 0];
        const moved = back.map(([px, py]): Point => [px - x, py - y]);
        expect(secondsOf(polyline(moved))).toBeCloseTo(secondsOf(polyline(points)), 6);
      }),
      SEED,
    );
  });

  it('does not depend on how many stretches are looked over at once', () => {
    fc.assert(
      fc.property(way, fc.integer({ min: 2, max: 9 }), (points, room) => {
        expect(secondsOf(polyline(points), {}, room)).toBeCloseTo(secondsOf(polyline(points), {}, 1000), 9);
      }),
      SEED,
    );
  });
});

describe('a long program', () => {
  it('of a hundred thousand chords is timed like the circle it stands for', () => {
    // Radius 1000, chords of 0.0628 mm: 20 mm/s all round, once up to speed and once down.
    const count = 100_000;
    const points = Array.from({ length: count }, (_, i): Point => {
      const angle = (2 * Math.PI * (i + 1)) / count;
      return [1000 - 1000 * Math.cos(angle), 1000 * Math.sin(angle)];
    });
    const time = timeOf(polyline(points));
    expect(time.minutes * 60).toBeCloseTo((2 * Math.PI * 1000) / 20 + 20 / 200, 3);
    expect(time.atFeed).toBeGreaterThan(0.999);
  });
});
