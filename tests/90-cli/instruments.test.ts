/** Every bundled instrument, made with a router, with a laser and by hand; inlays on a laser, and a board for the other hand. */
import { describe, expect, it } from 'vitest';
import { bundledInstrument, soundValue, textOf } from '../30-profile/bundled.ts';
import { changed, instrumentFiles, type WholeJob, wholeJob } from '../support/wholeJob.ts';

const slotsOf = ({ manifest }: WholeJob) =>
  manifest.features.filter(({ id, kind }) => /^fret-slot-/.test(id) && kind === 'slot');

const unproven = ({ manifest }: WholeJob) => manifest.programs.filter(({ proof }) => !proof.passed);

/** Warnings would mean wood that is not there, or a number that a builder would shake the head at. */
const worse = ({ findings }: WholeJob) => findings.filter(({ severity }) => severity !== 'note');

const INSTRUMENTS = instrumentFiles();
const HOME = textOf('profiles/home-shop.yaml');

describe('the bundled instruments', () => {
  it('are of every kind a workshop builds, each hand among them', () => {
    const all = INSTRUMENTS.map((name) => soundValue(bundledInstrument(name)).value);
    expect([...new Set(all.map(({ family }) => family))].sort()).toEqual([
      'bass',
      'dulcimer',
      'guitar',
      'mandolin',
      'other',
      'ukulele',
    ]);
    expect(all.filter(({ hand }) => hand === 'left').length).toBeGreaterThan(0);
    expect(all.filter(({ scale }) => scale.slant !== null).length).toBeGreaterThan(0);
    expect(new Set(all.map(({ slug }) => slug)).size).toBe(all.length);
  });

  it.each([
    // Scale lengths, and the fret whose marker tells the kind: common practice, no source.
    ['sedge-ukulele.yaml', [375, 385], 10],
    ['plover-mandolin.yaml', [350, 355], 10],
    ['heather-dulcimer.yaml', [660, 710], 7],
    ['tarn-parlour.yaml', [610, 650], 9],
    ['tarn-left.yaml', [610, 650], 9],
  ] as const)('%s has a scale and markers as its kind has', (name, [least, most], told) => {
    const { scale, faceMarkers, frets } = soundValue(bundledInstrument(name)).value;
    expect(scale.length).toBeGreaterThanOrEqual(least);
    expect(scale.length).toBeLessThanOrEqual(most);
    const labels = [...faceMarkers.at, ...faceMarkers.artwork].map(({ fret }) => frets.list[fret - 1]?.label);
    expect(labels).toContain(String(told));
  });

  it('has a ukulele tuned back on itself, mandolin courses in pairs and a bass of five', () => {
    const sound = (name: string) => soundValue(bundledInstrument(name)).value;
    const hertz = sound('sedge-ukulele.yaml').strings.map((s) => s.hertz);
    expect(hertz[0]).toBeGreaterThan(Math.max(hertz[1] ?? 0, hertz[2] ?? 0));
    expect(sound('plover-mandolin.yaml').courses.map(({ size }) => size)).toEqual([2, 2, 2, 2]);
    expect(sound('fellside-bass.yaml').strings).toHaveLength(5);
  });
});

describe.each(INSTRUMENTS)('%s', (name) => {
  const { frets } = soundValue(bundledInstrument(name)).value;
  const labels = frets.list.map(({ label }) => `fret-slot-${label.padStart(2, '0').replace('+', '-plus')}`);
  const profile = textOf(`profiles/${name}`);

  it('is made on the router of the default shop: proven, its wood there, each slot cut once', () => {
    const job = wholeJob(profile, HOME);
    expect(unproven(job)).toEqual([]);
    expect(worse(job)).toEqual([]);
    expect(slotsOf(job).map(({ madeBy }) => madeBy)).toEqual(labels.map(() => ['fingerboard-slots.nc']));
    const onBoard = job.manifest.programs.filter(({ path }) => path.startsWith('programs/fingerboard-'));
    expect(onBoard.length).toBeGreaterThanOrEqual(5);
    expect(new Set(onBoard.map(({ machine }) => machine))).toEqual(new Set(['benchtop-router']));
    expect(job.text('cut-list.md')).not.toMatch(/to buy.*Fingerboard/i);
  });

  it('has its slots marked by the laser, and the rest of it left to the hand by name', () => {
    const job = wholeJob(profile, textOf('profiles/laser-and-hand.yaml'));
    expect(unproven(job)).toEqual([]);
    expect(worse(job)).toEqual([]);
    expect(new Set(job.manifest.programs.map(({ machine }) => machine))).toEqual(new Set(['sheet-laser']));
    const slots = job.text('programs/fingerboard-slots.nc');
    expect(slots.match(/^M3 /gm)).toHaveLength(labels.length);
    for (const { madeBy } of slotsOf(job)) expect(madeBy).toEqual(['hand:saw-fret-slots']);
    const marks = job.manifest.features.filter(
      ({ kind, madeBy }) => kind === 'line' && madeBy[0] === 'fingerboard-slots.nc',
    );
    expect(marks).toHaveLength(labels.length);
  });

  it('is made by hand from sheets and templates: no program, every feature a named step', () => {
    const job = wholeJob(profile, textOf('profiles/hand-tools.yaml'));
    expect(job.manifest.programs).toEqual([]);
    expect(slotsOf(job)).toHaveLength(labels.length);
    for (const { id, madeBy } of job.manifest.features)
      expect(madeBy, id).toEqual([expect.stringMatching(/^hand:/)]);
    expect(job.text('START-HERE.md')).toContain('saw-fret-slots');
  });
});

describe('inlays on a laser', () => {
  const shop = `${HOME}  inlays: sheet-laser\n`;
  const left = changed(
    'tarn-left.yaml',
    ['materialClass: shell', 'materialClass: acrylic'],
    ['material: shell', 'material: acrylic'],
  );
  const right = left.replace('\nhand: left\n', '\nhand: right\n');
  const own = left.replace('mirrorForLeftHand: true', 'mirrorForLeftHand: false');
  const job = wholeJob(left, shop);
  const there = pocketsOf(wholeJob(right, shop));

  it('are cut there, and meet the pockets that the router cut', () => {
    const parts = job.manifest.programs.filter(({ path }) => /inlays/.test(path));
    expect(parts.map(({ machine }) => machine)).toEqual(['sheet-laser', 'sheet-laser']);
    expect(unproven(job)).toEqual([]);
    const pairs = JSON.parse(job.text('proof/inlay-pairs.json')) as PairProof;
    expect(pairs.passed).toBe(true);
    // Six dots and three leaves, each looked at both ways.
    expect(pairs.checks).toHaveLength(18);
    for (const { value, seen } of pairs.checks) {
      expect(value).toBeLessThan(0.02);
      expect(seen).toBeGreaterThan(100);
    }
  });

  it('lie mirrored on a board for the other hand, exactly', () => {
    const here = pocketsOf(job);
    expect([...here.keys()]).toEqual(['artwork-01-1', 'artwork-01-2', 'artwork-01-3']);
    for (const [id, points] of here) {
      expect(
        apart(points, there.get(id) ?? [], ([x, y]) => [x, -y]),
        id,
      ).toBeLessThan(1e-9);
      // The drawing leans: unmirrored it would not lie there.
      expect(
        apart(points, there.get(id) ?? [], (p) => p),
        id,
      ).toBeGreaterThan(0.1);
    }
  });

  it('keep their own hand there when asked to', () => {
    for (const [id, points] of pocketsOf(wholeJob(own, shop)))
      expect(
        apart(points, there.get(id) ?? [], (p) => p),
        id,
      ).toBeLessThan(1e-9);
  });
});

interface PairProof {
  readonly passed: boolean;
  readonly checks: readonly { readonly value: number; readonly seen: number }[];
}

type Point = readonly [number, number];

/** Corners of the artwork's pockets in what the last of the marker programs is meant to cut. */
function pocketsOf(job: WholeJob): Map<string, Point[]> {
  const intent = JSON.parse(job.text('intent/fingerboard-markers-2.json')) as {
    readonly cuts: readonly { readonly feature: string; readonly region: readonly (readonly number[][])[] }[];
  };
  return new Map(
    intent.cuts
      .filter(({ feature }) => feature.startsWith('artwork'))
      .map(({ feature, region }) => [
        feature,
        region.flat().map(([x, y]): Point => [x ?? Number.NaN, y ?? Number.NaN]),
      ]),
  );
}

/** The largest distance from a point, once turned, to the nearest of the others. */
function apart(points: readonly Point[], others: readonly Point[], turn: (p: Point) => Point): number {
  expect(points.length).toBe(others.length);
  return Math.max(
    ...points.map((p) => {
      const [x, y] = turn(p);
      return Math.min(...others.map(([u, v]) => Math.hypot(x - u, y - v)));
    }),
  );
}
