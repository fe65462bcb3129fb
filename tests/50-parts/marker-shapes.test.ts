import { beforeAll, describe, expect, it } from 'vitest';
import { type Made, makeJob } from '../../src/app/make.ts';
import { type Form, formReach, formRing, formSize } from '../../src/geometry/form.ts';
import { area, bounds, segments } from '../../src/geometry/ring.ts';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import { largestCorner } from '../../src/profile/markerForm.ts';
import type { Instrument } from '../../src/profile/types.ts';
import { readProject, soundValue, textOf } from '../30-profile/bundled.ts';
import { parlour } from '../support/instrument.ts';
import { partsOf } from '../support/job.ts';

const PROFILE = 'tests/30-profile/shaped-markers.yaml';
const text = textOf(PROFILE);

const load = (changes: readonly (readonly [string, string])[] = []) =>
  loadInstrument(
    changes.reduce((t, [from, to]) => {
      if (!t.includes(from)) throw new Error(`the profile does not say: ${from}`);
      return t.replace(from, to);
    }, text),
    PROFILE,
  );

const diamond: Form = { shape: 'diamond', length: 8, width: 6 };
const square: Form = { shape: 'square', side: 6 };

describe('the outline of a marker', () => {
  // A rhombus of diagonals d and e has area d e / 2; its walls are d e / (2 sqrt(d^2 + e^2)) from its middle.
  it('is that of its shape, about its middle', () => {
    expect(area(formRing(diamond, [3, 4], 0, 0))).toBeCloseTo(24, 12);
    expect(bounds(formRing(diamond, [3, 4], 0, 0))).toEqual({ x: [-1, 7], y: [1, 7] });
    expect(area(formRing(square, [0, 0], 0, 0))).toBeCloseTo(36, 12);
    expect(area(formRing({ shape: 'round', diameter: 6 }, [0, 0], 0, 0))).toBeCloseTo(9 * Math.PI, 12);
  });

  it('grows evenly on all its walls: each stands as far out as asked', () => {
    const distanceTo = (ring: ReturnType<typeof formRing>): number[] =>
      segments(ring).map(({ from, to }) => {
        const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
        return Math.abs(from[0] * dy - from[1] * dx) / Math.hypot(dx, dy);
      });
    expect(distanceTo(formRing(diamond, [0, 0], 0, 0))).toEqual(distanceTo(formRing(diamond, [0, 0], 0, 0)));
    for (const d of distanceTo(formRing(diamond, [0, 0], 0.5, 0))) expect(d).toBeCloseTo(2.4 + 0.5, 12);
    for (const d of distanceTo(formRing(square, [0, 0], 0.5, 0))) expect(d).toBeCloseTo(3.5, 12);
  });

  // Rounding a corner of angle b to radius c takes c^2 (1 / tan(b / 2) - (pi - b) / 2) off.
  it('has corners of the radius asked for', () => {
    const ring = formRing(diamond, [0, 0], 0, 0.7);
    const arcs = segments(ring).filter((s) => s.kind === 'arc');
    expect(arcs.map((a) => a.radius)).toEqual([0.7, 0.7, 0.7, 0.7].map((r) => expect.closeTo(r, 9)));
    const lost = [Math.atan(3 / 4), Math.atan(4 / 3)].reduce(
      (sum, half) => sum + 2 * 0.49 * (1 / Math.tan(half) - (Math.PI / 2 - half)),
      0,
    );
    expect(area(ring)).toBeCloseTo(24 - lost, 9);
  });

  it('is as round as it can be when neighbouring corners meet', () => {
    const most = largestCorner(diamond) ?? 0;
    expect(() => formRing(diamond, [0, 0], 0, most * 0.999)).not.toThrow();
    const corners = segments(formRing(diamond, [0, 0], 0, most * 0.999)).filter((s) => s.kind === 'line');
    const [left] = corners.map(({ from, to }) => Math.hypot(to[0] - from[0], to[1] - from[1]));
    expect(left).toBeLessThan(0.01);
    expect(largestCorner(square)).toBe(3);
    expect(largestCorner({ shape: 'round', diameter: 4 })).toBeNull();
  });

  it('knows its extent and the circle that holds it', () => {
    expect(formSize(diamond)).toEqual({ along: 8, across: 6 });
    expect(formReach(diamond)).toBe(8);
    expect(formReach(square)).toBeCloseTo(6 * Math.SQRT2, 12);
  });
});

describe('a profile with markers of all shapes', () => {
  const instrument = soundValue(load()).value;

  it('is read: round when nothing is said, sizes as they are named', () => {
    const of = (fret: number) => instrument.faceMarkers.at.find((m) => m.fret === fret);
    expect(of(3)).toEqual({ fret: 3, count: 1, shape: 'diamond', length: 8, width: 5 });
    expect(of(12)).toEqual({ fret: 12, count: 2, shape: 'square', side: 6 });
    expect(of(9)).toEqual({ fret: 9, count: 1, shape: 'round', diameter: 6 });
    expect(of(17)).toEqual({ fret: 17, count: 1, shape: 'round', diameter: 4 });
    expect(instrument.faceMarkers.cornerRadius).toBe(0.5);
  });

  it('shows the corner radius it assumes, and only where there are corners', () => {
    const shown = soundValue(load([['  cornerRadius: 0.5\n', '']]));
    expect(shown.defaults.map((f) => f.path)).toContain('faceMarkers.cornerRadius');
    const plain = soundValue(loadInstrument(textOf('profiles/tarn-parlour.yaml'), 'tarn-parlour.yaml'));
    expect(plain.defaults.map((f) => f.path)).not.toContain('faceMarkers.cornerRadius');
  });

  it.each([
    ['shape: square, side: 5', 'shape: sqare, side: 5', 'bad-word', 'shape'],
    ['shape: square, side: 5', 'shape: square, diameter: 5', 'unknown-key', 'diameter'],
    ['shape: square, side: 5', 'shape: square', 'missing-key', 'side'],
    ['shape: diamond, length: 9, width: 6', 'shape: diamond, length: 9', 'missing-key', 'width'],
    ['fret: 17, diameter: 4', 'fret: 17', 'missing-key', 'diameter'],
    ['cornerRadius: 0.5', 'cornerRadius: 2.5', 'corners-too-round', 'cornerRadius'],
    [
      'fret: 7, shape: diamond, length: 8',
      'fret: 7, shape: diamond, length: 24',
      'marker-too-wide',
      'length',
    ],
    ['shape: square, side: 5', 'shape: square, side: 25', 'marker-too-wide', 'side'],
    ['spread: 24', 'spread: 6', 'markers-overlap', 'spread'],
  ])('is refused with "%s" made "%s"', (from, to, code, key) => {
    const outcome = load([[from, to]]);
    expect(outcome.ok).toBe(false);
    const found = outcome.findings.find((f) => f.code === code);
    expect(found?.where?.path ?? '').toContain(key);
    for (const f of outcome.findings) expect(f.allowed ?? '').not.toContain('undefined');
  });

  it('gives pockets that are wider than their markers by the clearance, with round corners', () => {
    const marked: Instrument = { ...parlour, faceMarkers: instrument.faceMarkers };
    const pockets = partsOf(marked)[0]?.features.filter((f) => f.kind === 'pocket') ?? [];
    expect(pockets).toHaveLength(8);
    const box = (id: string) => bounds(pockets.find((p) => p.id === id)?.region.outer ?? []);
    const wide = box('face-marker-12-treble');
    expect(wide.y[1] - wide.y[0]).toBeCloseTo(6.05, 9);
    expect((wide.y[0] + wide.y[1]) / 2).toBeCloseTo(12, 9);
    // The tips of a diamond are cut back by its corners: 8 mm less twice c (1 / sin(half the angle) - 1), clearance aside.
    const tips = box('face-marker-03');
    const half = Math.atan(5 / 8);
    const grown = 0.025 / Math.sin(half);
    expect(tips.x[1] - tips.x[0]).toBeCloseTo(8 + 2 * grown - 2 * 0.5 * (1 / Math.sin(half) - 1), 6);
    expect(area(pockets[0]?.region.outer ?? [])).toBeGreaterThan(0);
  });
});

describe('a whole job with markers of all shapes', () => {
  let made: Made;
  const file = (path: string): string =>
    new TextDecoder().decode(made.files.find((f) => f.path === path)?.bytes);

  beforeAll(() => {
    const shop = 'profiles/benchtop-router.yaml';
    const outcome = makeJob({
      profile: { path: PROFILE, text },
      shop: { path: shop, text: textOf(shop) },
      readInclude: readProject,
    });
    made = soundValue(outcome);
  });

  it('proves: round pockets bored, the others cleared by a cutter that fits their corners', () => {
    const programs = made.programs.filter((p) => p.job.operation === 'face markers');
    expect(programs.map((p) => p.proof.passed)).toEqual([true, true]);
    const kinds = programs.map((p) => new Set(p.job.operations.map((o) => o.kind)));
    expect(kinds).toEqual([new Set(['bore']), new Set(['pocket'])]);
    const tool = programs[1]?.job.kind === 'router' ? programs[1].job.tool.diameter : 0;
    expect(tool).toBeLessThanOrEqual(1);
    expect(made.programs.every((p) => p.proof.passed)).toBe(true);
  });

  it('says on the sheet how round the corners are', () => {
    const sheet = file('sheet.txt').replace(/\s+/g, ' ');
    expect(sheet).toContain('Face markers, square:');
    expect(sheet).toContain('Face markers, diamond:');
    expect(sheet).toMatch(/corners of their pockets are round, 0\.5 mm/);
    const read = JSON.parse(file('sheet.json'));
    expect(read.markerCorners).toBe(0.5);
    expect(read.markers.find((m: { fret: number }) => m.fret === 5)).toMatchObject({
      shape: 'diamond',
      size: 9,
      across: 6,
    });
    expect(read.markers.find((m: { fret: number }) => m.fret === 9)).toMatchObject({
      shape: 'round',
      size: 6,
    });
  });

  it('says it in the feed notes, on the start page and on the cut list', () => {
    expect(file('feed-notes.md')).toContain('as drawn: none is sharper than the cutter');
    expect(file('START-HERE.md')).toContain('Diamond face markers of 9 x 6 mm');
    expect(file('cut-list.md')).toContain('square face markers, shell');
  });

  it('lists shaped markers among the coordinates as pockets to cut, not holes to drill', () => {
    const rows = file('drill-coordinates.csv').split('\r\n');
    const row = rows.find((r) => r.startsWith('"face-marker-03"')) ?? '';
    expect(row).toContain('diamond face marker, shell: to be cut, not drilled');
    expect(row).toContain(',8.000,5.000,0.500,');
    expect(rows.find((r) => r.startsWith('"face-marker-09"'))).toContain('6.050');
  });

  it('draws them as closed outlines with arcs', () => {
    const drawing = made.files.find((f) => f.path === 'drawings/fingerboard.dxf');
    const dxf = new TextDecoder().decode(drawing?.bytes);
    const pockets = dxf.split('LWPOLYLINE').filter((entity) => entity.includes('POCKETS'));
    expect(pockets.length).toBeGreaterThanOrEqual(6);
  });
});
