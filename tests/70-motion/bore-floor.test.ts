/** Bores whose rings go on from one another along the floor: all that are no deeper than one pass, and the last, a shaving. */
import { describe, expect, it } from 'vitest';
import { makeProgram } from '../../src/app/programs.ts';
import type { BoreOperation, RouterJob } from '../../src/machining/types.ts';
import { boreMoves } from '../../src/motion/bore.ts';
import type { Move } from '../../src/motion/types.ts';
import { measureAir } from '../../src/verify/air.ts';
import { parlour } from '../support/instrument.ts';
import { planOf } from '../support/job.ts';

const markers = planOf(parlour).jobs.find((j) => j.program === 'fingerboard-markers.nc');
if (markers?.kind !== 'router') throw new Error('no markers');
const job: RouterJob = markers;
const bores = job.operations.filter((o): o is BoreOperation => o.kind === 'bore');
const [marker] = bores;
if (marker === undefined) throw new Error('no bores');
/** No deeper than a pass, and wide enough for several rings. */
const shallow: BoreOperation = { ...marker, diameter: 14, z: -0.6 };
const R = job.tool.diameter / 2;

type Arc = Extract<Move, { kind: 'arc' }>;

/** Points every 0.02 mm along the arcs on the floor, in order. */
function floorPoints(bore: BoreOperation): [number, number][] {
  const points: [number, number][] = [];
  let at: [number, number] = [Number.NaN, Number.NaN];
  for (const move of boreMoves(bore, job)) {
    if (move.kind === 'arc' && move.to.z === bore.z) points.push(...pointsOf(at, move));
    if (move.kind === 'arc') at = [move.to.x, move.to.y];
    else if ((move.kind === 'feed' || move.kind === 'rapid') && move.x !== undefined)
      at = [move.x, move.y ?? at[1]];
  }
  return points;
}

function pointsOf([x, y]: [number, number], { to, centre, clockwise }: Arc): [number, number][] {
  const radius = Math.hypot(x - centre.x, y - centre.y);
  const from = Math.atan2(y - centre.y, x - centre.x);
  const turn = (Math.atan2(to.y - centre.y, to.x - centre.x) - from) * (clockwise ? -1 : 1);
  const sweep = ((turn % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI) || 2 * Math.PI;
  const count = Math.ceil((radius * sweep) / 0.02);
  return Array.from({ length: count + 1 }, (_, i): [number, number] => {
    const angle = from + ((clockwise ? -1 : 1) * sweep * i) / count;
    return [centre.x + radius * Math.cos(angle), centre.y + radius * Math.sin(angle)];
  });
}

/** Most of the cutter's rim that stands in wood at once, along the arcs on the floor: degrees, with a cell of R / 40. */
function fullestBite(bore: BoreOperation, points: readonly [number, number][]): number {
  const cell = R / 40;
  const half = Math.ceil((bore.diameter / 2 + R) / cell);
  const gone = new Set<number>();
  const key = (x: number, y: number): number =>
    (Math.round((x - bore.at[0]) / cell) + half) * 4096 + Math.round((y - bore.at[1]) / cell) + half;
  const clear = (x: number, y: number): void => {
    for (let i = -40; i <= 40; i += 1)
      for (let j = -40; j <= 40; j += 1)
        if (Math.hypot(i, j) <= 40) gone.add(key(x + i * cell, y + j * cell));
  };
  let most = 0;
  for (const [i, [x, y]] of points.entries()) {
    // The first arc is the helix's own level turn, which lowers what the helix has cleared: all of its rim may stand in wood.
    const standing = Array.from({ length: 360 }, (_, a) => (a * Math.PI) / 180).filter(
      (a) => !gone.has(key(x + (R + cell) * Math.cos(a), y + (R + cell) * Math.sin(a))),
    ).length;
    if (i > 0 && isBeyond(points, i)) most = Math.max(most, standing);
    if (i % 8 === 0) clear(x, y);
  }
  return most;

  function isBeyond(way: readonly [number, number][], i: number): boolean {
    const [x, y] = way[i] ?? [0, 0];
    const [x0, y0] = way[0] ?? [0, 0];
    const away = (u: number, v: number): number => Math.hypot(u - bore.at[0], v - bore.at[1]);
    return away(x, y) > away(x0, y0) + 0.02;
  }
}

/** Ways down to the floor and up from it. */
const rises = (bore: BoreOperation): number =>
  boreMoves(bore, job).filter((m) => m.kind === 'rapid' && m.z !== undefined).length / 2;

describe('a bore no deeper than one pass', () => {
  it('comes down once and rises once', () => {
    expect(rises(shallow)).toBe(1);
    const heights = boreMoves(shallow, job).flatMap((m) => (m.kind === 'arc' ? [m.to.z ?? 0] : []));
    expect(heights.every((z, i) => i === 0 || z <= (heights[i - 1] ?? 0))).toBe(true);
    expect(heights.at(-1)).toBe(shallow.z);
  });

  it.each(['climb', 'conventional'] as const)('reaches every place of its floor, %s', (direction) => {
    for (const bore of [
      { ...shallow, direction },
      { ...marker, direction },
    ]) {
      const points = floorPoints(bore);
      const most = bore.diameter / 2;
      for (let r = 0; r <= most; r += 0.5) {
        for (let a = 0; a < 360; a += 9) {
          const [x, y] = [
            bore.at[0] + r * Math.cos((a * Math.PI) / 180),
            bore.at[1] + r * Math.sin((a * Math.PI) / 180),
          ];
          const near = Math.min(...points.map(([u, v]) => Math.hypot(u - x, v - y)));
          expect(near).toBeLessThan(R + 0.002);
        }
      }
      const out = Math.max(...points.map(([x, y]) => Math.hypot(x - bore.at[0], y - bore.at[1])));
      expect(out).toBeCloseTo(most - R, 6);
    }
  });

  it('takes no more sideways than its step-over allows, half turns between rings included', () => {
    // A straight strip of 0.45 D engages 84 degrees of the rim, inside a curve somewhat more; the helix cut a full slot, 180.
    const bite = fullestBite(shallow, floorPoints(shallow));
    expect(bite).toBeGreaterThan(84);
    expect(bite).toBeLessThan(130);
  });

  it('proves, deeper ones too, each in rings that come down but for the last', () => {
    const depths = [-0.6, -1.3, -4, -6];
    expect(depths.map((z) => rises({ ...shallow, z }))).toEqual([1, 4, 4, 5]);
    for (const z of depths) {
      const { proof } = makeProgram([{ ...job, operations: [{ ...shallow, z, at: [150, 0] }] }], 'Test');
      expect(proof.checks.filter((c) => !c.passed)).toEqual([]);
    }
  });
});

describe('the markers of the bundled instrument', () => {
  it('leave little air to cut', () => {
    const { text, intent, proof } = makeProgram([job], 'Test');
    expect(proof.passed).toBe(true);
    const { feed, air } = measureAir({ bytes: new TextEncoder().encode(text), intent });
    expect(air / feed).toBeLessThan(0.05);
  });
});
