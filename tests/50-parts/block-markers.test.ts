import { beforeAll, describe, expect, it } from 'vitest';
import { type Made, makeJob } from '../../src/app/make.ts';
import { type Form, formSize, inlayOf, mirrorForm, plainForm, pocketOf } from '../../src/geometry/form.ts';
import { area, bounds, flatten, segments } from '../../src/geometry/ring.ts';
import type { Ring, Vec } from '../../src/geometry/types.ts';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import { largestCorner } from '../../src/profile/markerForm.ts';
import { readProject, soundValue, textOf } from '../30-profile/bundled.ts';
import { partsOf } from '../support/job.ts';

const PROFILE = 'tests/30-profile/shaped-markers.yaml';
const FRET_7 = '{ fret: 7, shape: diamond, length: 8, width: 5 }';
const FRET_3 = '{ fret: 3, shape: diamond, length: 8, width: 5 }';
const FRET_15 = '{ fret: 15, shape: square, side: 5 }';
const BLOCK = '{ fret: 3, shape: block, length: 14, width: 30 }';
const NOTCHED = '{ fret: 7, shape: notched block, length: 12, width: 26, notchDepth: 3, notchWidth: 6 }';
const RING = '{ fret: 15, shape: ring, diameter: 9, inner: 4 }';

const swap = (text: string, pairs: readonly (readonly [string, string])[]): string =>
  pairs.reduce((t, [from, to]) => {
    if (!t.includes(from)) throw new Error(`the profile does not say: ${from}`);
    return t.replace(from, to);
  }, text);

const blocks = swap(textOf(PROFILE), [
  [FRET_3, BLOCK],
  [FRET_7, NOTCHED],
  [FRET_15, RING],
]);

const block: Form = { shape: 'block', length: 10, width: 20, slants: [0.1, -0.05], slopes: [-0.02, 0.02] };
const fit = { gap: 0.025, corner: 0.8 };

/** Greatest and least distance from points on one ring to another ring, by chords: an oracle of its own. */
function gaps(from: Ring, to: Ring): [number, number] {
  const wall = flatten(to, 1e-5);
  const distances = flatten(from, 1e-5).map(([x, y]) =>
    Math.min(
      ...wall.map(([ax, ay], i) => {
        const [bx, by] = wall[(i + 1) % wall.length] as Vec;
        const square = (bx - ax) ** 2 + (by - ay) ** 2;
        const t = Math.max(0, Math.min(1, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / square));
        return Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
      }),
    ),
  );
  return [Math.min(...distances), Math.max(...distances)];
}

describe('the outline of a block', () => {
  // Solved by hand for one corner: x = -5 + 0.1 y, y = -10 - 0.02 x.
  it('has its sides along slots and edges, and its size through its middle', () => {
    const { outer } = plainForm(block, [0, 0]);
    const y = (-10 + 0.02 * 5) / (1 + 0.02 * 0.1);
    expect(outer[0]?.y).toBeCloseTo(y, 12);
    expect(outer[0]?.x).toBeCloseTo(-5 + 0.1 * y, 12);
    const [low, bridge, high, nut] = segments(outer).map(({ from, to }) => [
      to[0] - from[0],
      to[1] - from[1],
    ]);
    expect((low?.[1] ?? 0) / (low?.[0] ?? 1)).toBeCloseTo(-0.02, 12);
    expect((high?.[1] ?? 0) / (high?.[0] ?? 1)).toBeCloseTo(0.02, 12);
    expect((nut?.[0] ?? 0) / (nut?.[1] ?? 1)).toBeCloseTo(0.1, 12);
    expect((bridge?.[0] ?? 0) / (bridge?.[1] ?? 1)).toBeCloseTo(-0.05, 12);
  });

  it('is the mirror of itself for the other hand', () => {
    const own = area(plainForm(block, [0, 0]).outer);
    const other = plainForm(mirrorForm(block), [0, 0]).outer;
    expect(area(other)).toBeCloseTo(own, 12);
    const mirrored = flatten(plainForm(block, [0, 0]).outer, 1e-3).map(
      ([x, y]) => `${x.toFixed(9)} ${(-y).toFixed(9)}`,
    );
    expect(
      flatten(other, 1e-3)
        .map(([x, y]) => `${x.toFixed(9)} ${y.toFixed(9)}`)
        .sort(),
    ).toEqual(mirrored.sort());
    expect(formSize(block).across).toBeGreaterThan(20);
  });

  // A V of depth d and width w takes d w / 2 off, twice; a ring is pi (D^2 - d^2) / 4.
  it('loses its notches, and a ring its middle', () => {
    const plain = { ...block, slants: [0, 0], slopes: [0, 0] } as const;
    const notched: Form = { ...plain, shape: 'notched block', notchDepth: 3, notchWidth: 6 };
    expect(area(plainForm(notched, [4, 2]).outer)).toBeCloseTo(200 - 2 * 9, 10);
    const ring = pocketOf({ shape: 'ring', diameter: 9, inner: 4 }, [1, 1], fit);
    const size = area(ring.outer) + ring.holes.reduce((sum, hole) => sum + area(hole), 0);
    expect(size).toBeCloseTo((Math.PI * (9.05 ** 2 - 3.95 ** 2)) / 4, 10);
  });
});

describe('a part and its pocket', () => {
  const forms: [string, Form][] = [
    ['square', { shape: 'square', side: 6 }],
    ['diamond', { shape: 'diamond', length: 9, width: 6 }],
    ['block', block],
    ['notched block', { ...block, shape: 'notched block', notchDepth: 2.5, notchWidth: 7 }],
    ['ring', { shape: 'ring', diameter: 9, inner: 4 }],
  ];

  it.each(forms)('stand apart by the same gap all round, corners included: %s', (_, form) => {
    const [pocket, part] = [pocketOf(form, [3, 1], fit), inlayOf(form, [3, 1], fit)];
    const rings = (region: typeof pocket): Ring[] => [region.outer, ...region.holes];
    rings(part).forEach((ring, i) => {
      const wall = rings(pocket)[i] ?? [];
      for (const [least, most] of [gaps(ring, wall), gaps(wall, ring)]) {
        expect(least).toBeGreaterThan(0.025 - 2e-5);
        expect(most).toBeLessThan(0.025 + 2e-5);
      }
    });
  });

  it.each(forms)('have no corner that the cutter on its inside does not reach: %s', (_, form) => {
    const arcs = (ring: Ring, sense: 1 | -1): number[] =>
      segments(ring).flatMap((s) => (s.kind === 'arc' && Math.sign(s.sweep) === sense ? [s.radius] : []));
    const { outer } = pocketOf(form, [0, 0], fit);
    for (const radius of arcs(outer, 1)) expect(radius).toBeGreaterThanOrEqual(fit.corner - 1e-9);
    const part = inlayOf(form, [0, 0], fit);
    for (const radius of arcs(part.outer, -1)) expect(radius).toBeGreaterThanOrEqual(fit.corner - 1e-9);
    for (const hole of part.holes) {
      for (const radius of arcs(hole, -1)) expect(radius).toBeGreaterThanOrEqual(fit.corner);
    }
  });

  it('can be drawn with the largest corner that the checks let through', () => {
    for (const marker of [
      { shape: 'block', length: 14, width: 30 },
      { shape: 'block', length: 20, width: 6 },
      { shape: 'notched block', length: 12, width: 26, notchDepth: 3, notchWidth: 6 },
      { shape: 'notched block', length: 12, width: 9, notchDepth: 1, notchWidth: 7 },
      { shape: 'notched block', length: 14, width: 30, notchDepth: 6, notchWidth: 2 },
    ] as const) {
      const most = largestCorner(marker) ?? 0;
      const form: Form = { ...marker, slants: [0.06, -0.06], slopes: [-0.03, 0.03] };
      expect(most).toBeGreaterThan(0);
      expect(() => [
        pocketOf(form, [0, 0], { gap: 0.05, corner: most }),
        inlayOf(form, [0, 0], { gap: 0.05, corner: most }),
      ]).not.toThrow();
    }
  });
});

describe('a profile with blocks and rings', () => {
  it.each([
    ['inner: 4', 'inner: 8', 'ring-too-thin', 'inner'],
    ['notchDepth: 3', 'notchDepth: 6', 'notch-too-deep', 'notchDepth'],
    [
      'width: 26, notchDepth: 3, notchWidth: 6',
      'width: 6, notchDepth: 3, notchWidth: 6',
      'notch-too-wide',
      'notchWidth',
    ],
    ['length: 14, width: 30', 'length: 14, width: 60', 'marker-off-board', 'width'],
    ['length: 12, width: 26', 'length: 24.5, width: 26', 'marker-too-wide', 'length'],
    ['cornerRadius: 0.5', 'cornerRadius: 2.6', 'corners-too-round', 'cornerRadius'],
  ])('is refused with "%s" made "%s"', (from, to, code, key) => {
    const outcome = loadInstrument(swap(blocks, [[from, to]]), PROFILE);
    expect(outcome.ok).toBe(false);
    expect(outcome.findings.find((f) => f.code === code)?.where?.path ?? '').toContain(key);
  });

  it('says the same in inches', () => {
    const metric = soundValue(loadInstrument(blocks, PROFILE)).value.faceMarkers.at[0];
    const asInch = soundValue(
      loadInstrument(swap(blocks, [['length: 14, width: 30', 'length: 1/2 in, width: 1 1/4 in']]), PROFILE),
    ).value.faceMarkers.at[0];
    expect(metric).toEqual({ fret: 3, count: 1, shape: 'block', length: 14, width: 30 });
    expect(asInch).toEqual({ fret: 3, count: 1, shape: 'block', length: 12.7, width: 31.75 });
  });

  it('gives blocks whose sides run with the edges of the board', () => {
    const instrument = soundValue(loadInstrument(blocks, PROFILE)).value;
    const pocket = partsOf(instrument)[0]?.features.find((f) => f.id === 'face-marker-03');
    if (pocket?.kind !== 'pocket') throw new Error('no pocket');
    const { widthAtNut, widthAt } = instrument.fingerboard;
    const run = 628 * (1 - 2 ** (-(widthAt.fret ?? 12) / 12)) - instrument.nut.setForward;
    const slope = (widthAt.width - widthAtNut) / 2 / run;
    const long = segments(pocket.region.outer)
      .filter((s) => s.kind === 'line')
      .map(({ from, to }) => (to[1] - from[1]) / (to[0] - from[0]))
      .filter((s) => Math.abs(s) < 1);
    expect(long.map(Math.abs)).toEqual([expect.closeTo(slope, 9), expect.closeTo(slope, 9)]);
    const { x } = bounds(pocket.region.outer);
    expect(x[1] - x[0]).toBeCloseTo(14.05, 9);
  });
});

describe('a whole job with blocks and a ring', () => {
  let made: Made;
  beforeAll(() => {
    const shop = 'profiles/benchtop-router.yaml';
    made = soundValue(
      makeJob({
        profile: { path: PROFILE, text: blocks },
        shop: { path: shop, text: textOf(shop) },
        readInclude: readProject,
      }),
    );
  });

  it('proves, the wood inside the ring left standing', () => {
    expect(made.programs.every((p) => p.proof.passed)).toBe(true);
    const cuts = made.programs.flatMap((p) => p.intents.flatMap((i) => i.cuts));
    const ring = cuts.find((c) => c.feature === 'face-marker-15');
    expect(ring?.region).toHaveLength(2);
    expect(cuts.some((c) => c.feature === 'face-marker-07')).toBe(true);
  });

  it('names them on the sheet and says what is left of them', () => {
    const sheet = new TextDecoder()
      .decode(made.files.find((f) => f.path === 'sheet.txt')?.bytes)
      .replace(/\s+/g, ' ');
    expect(sheet).toContain('Face markers, notched block:');
    expect(sheet).toContain('Face markers, ring: 1 of 9 mm (0.354 in) round a middle of 4 mm (0.157 in).');
    expect(sheet).toMatch(/Of a face marker’s thickness at least [\d.]+ mm/);
  });
});
