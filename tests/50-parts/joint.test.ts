/** Mortise and tenon: the routers' cuts made anew from the templates' edges by another library, laid into one another and measured. */
import { Clipper, EndType, FillRule, JoinType, type PathsD } from 'clipper2-ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkLayout } from '../../src/checks/checkLayout.ts';
import { flatten } from '../../src/geometry/ring.ts';
import { tongueHalf, tongueRing } from '../../src/geometry/tongue.ts';
import type { JointLayout } from '../../src/layout/types.ts';
import { makeParts } from '../../src/parts/makeParts.ts';
import { settingsOf } from '../../src/parts/settings.ts';
import type { Part } from '../../src/parts/types.ts';
import type { Instrument, Tenon } from '../../src/profile/types.ts';
import { neckHoles } from '../../src/writers/csv/neckHoles.ts';
import { blank, DEGREE, layoutOf, necked, neckShop } from '../support/neck.ts';

const bolted: Tenon = {
  build: 'bolted',
  width: 20,
  footWidth: 20,
  length: 22,
  height: 62,
  gap: 0.1,
  endGap: 1,
  flare: 0,
  corners: 'rounded',
  block: { width: 60, length: 50, height: 95, leastWall: 10 },
  bolts: { down: [26, 50], hole: 6.5, insert: 9, insertDepth: 18 },
  relief: { rim: 3, depth: 0.5 },
  templates: { materialClass: 'plywood', thickness: 4, bush: 16, collar: 3.5, cutter: 12, pilot: 2 },
};
const dovetail: Partial<Tenon> = {
  build: 'dovetail',
  bolts: null,
  width: 26,
  footWidth: 20,
  flare: 7.5 * DEGREE,
  gap: 0.05,
  relief: null,
};

const joined = (change: Partial<Tenon> = {}, rod: Partial<Instrument['trussRod']> = {}): Instrument => ({
  ...necked,
  neckJoint:
    necked.neckJoint === null
      ? null
      : { ...necked.neckJoint, tenon: { ...bolted, footWidth: change.width ?? bolted.width, ...change } },
  neckBlank: { ...blank, pastJoint: 24 },
  trussRod: necked.trussRod === null ? null : { ...necked.trussRod, length: 325, ...rod },
});

function fitOf(instrument: Instrument): JointLayout {
  const fit = layoutOf(instrument).neck?.fit;
  if (fit == null) throw new Error('no joint');
  return fit;
}

function template(id: string, instrument: Instrument): Part {
  const part = makeParts(instrument, layoutOf(instrument), settingsOf(neckShop)).find((p) => p.id === id);
  if (part === undefined) throw new Error(`no part ${id}`);
  return part;
}

const faults = (instrument: Instrument): [string, string | undefined][] =>
  checkLayout(layoutOf(instrument), instrument)
    .filter(({ severity }) => severity === 'error')
    .map(({ code, where }) => [code, where?.path]);

// All in hundred-thousandths of a millimetre inside the other library; chords within 0.0005 mm of their arcs.
const DIGITS = 5;
const grown = (paths: PathsD, by: number): PathsD =>
  by === 0 ? paths : Clipper.inflatePathsD(paths, by, JoinType.Round, EndType.Polygon, 2, DIGITS, 0.0005);
const less = (paths: PathsD, others: PathsD): PathsD =>
  Clipper.differenceD(paths, others, FillRule.NonZero, DIGITS);
const both = (paths: PathsD, others: PathsD): PathsD =>
  Clipper.intersectD(paths, others, FillRule.NonZero, DIGITS);
const box = (x0: number, x1: number, half: number): PathsD => [
  [
    { x: x0, y: -half },
    { x: x1, y: -half },
    { x: x1, y: half },
    { x: x0, y: half },
  ],
];
const size = (paths: PathsD): number => Math.abs(Clipper.areaPathsD(paths));

/** What a cutter takes away where its bush may go: nowhere nearer to the template than the bush's radius. */
function takenBy(part: Part, { bush, cutter }: { bush: number; cutter: number }): PathsD {
  const outline = part.features.find((f) => f.kind === 'outline' && f.keep === 'inside');
  if (outline?.kind !== 'outline') throw new Error('no outline');
  const plate = [flatten(outline.ring, 0.0002).map(([x, y]) => ({ x, y }))];
  return grown(less(box(-200, 300, 200), grown(plate, bush / 2)), cutter / 2);
}

/** Sections of the tenon and of the mortise at `t` past the joint, as the routers leave them. */
function sections(instrument: Instrument, t: number): { tenon: PathsD; mortise: PathsD } {
  const fit = fitOf(instrument);
  const tenon = instrument.neckJoint?.tenon;
  const sheet = tenon?.templates;
  if (tenon == null || sheet == null) throw new Error('no templates');
  const lean = Math.tan(tenon.flare);
  const top = 1;
  const kept = less(box(-60, 80, 38), takenBy(template('tenon-template', instrument), sheet));
  const root = kept.filter((path) => path.some(({ x, y }) => Math.abs(y) < 20 && x > 40 && x < 75));
  const notch = both(takenBy(template('mortise-template', instrument), sheet), box(-30, 75, 25));
  const window = box(top, 90, 60);
  return {
    tenon: both(grown(root, t * lean), window),
    mortise: both(grown(notch, -(fit.mortiseDepth - t) * lean), window),
  };
}

/** Least and most gap between the two: how far the tenon can grow, and must grow to fill the mortise but for slivers. */
function holdsGap(instrument: Instrument, t: number, wanted: number): void {
  const { tenon, mortise } = sections(instrument, t);
  expect(size(tenon)).toBeGreaterThan(600);
  const inside = box(1 + wanted + 0.02, 90, 60);
  expect(size(less(both(grown(tenon, wanted - 0.004), inside), mortise))).toBeLessThan(1e-3);
  expect(size(less(both(mortise, inside), grown(tenon, wanted + 0.004)))).toBeLessThan(1e-3);
  // The check can fail: a hair more or less is seen.
  expect(size(less(both(grown(tenon, wanted + 0.02), inside), mortise))).toBeGreaterThan(0.5);
}

describe('mortise and tenon by their templates', () => {
  it('fit with the gap that is asked for, all round the corners too', () => {
    holdsGap(joined(), 0, 0.1);
    holdsGap(joined({ gap: 0.25 }), 0, 0.25);
  });

  it('fit with other bushes and cutters', () => {
    const sheet = bolted.templates;
    if (sheet === null) throw new Error('no templates');
    fc.assert(
      fc.property(
        fc.double({ min: 6, max: 14, noNaN: true }),
        fc.double({ min: 0.5, max: 8, noNaN: true }),
        fc.double({ min: 0.05, max: 0.6, noNaN: true }),
        (cutter, more, gap) => {
          const bush = cutter + more;
          holdsGap(joined({ width: 30, gap, templates: { ...sheet, cutter, bush } }), 0, gap);
        },
      ),
      { numRuns: 12, seed: 7 },
    );
  });

  it('of a tapered dovetail fit at every depth, square to the leaning cheeks', () => {
    const instrument = joined(dovetail);
    expect(faults(instrument)).toEqual([]);
    const square = 0.05 / Math.cos(7.5 * DEGREE);
    for (const t of [0, 11, 22]) holdsGap(instrument, t, square);
    // Narrower at its root than at its end, and at its foot than at its head.
    const { tenon, root } = fitOf(instrument);
    expect(tongueHalf(tenon, 0) - tongueHalf(root, 0)).toBeCloseTo(
      22 * Math.tan(7.5 * DEGREE) * Math.hypot(1, 3 / 62),
      9,
    );
    expect([2 * tongueHalf(tenon, 0), 2 * tongueHalf(tenon, 62)]).toEqual([26, 20]);
  });

  it('offset by half of what bush and cutter differ by: (16 - 12) / 2 = 2 (worked by hand)', () => {
    const { templates, offset } = fitOf(joined());
    expect(offset).toBe(2);
    expect([templates?.tenon.half, templates?.tenon.foot]).toEqual([8, 60]);
    expect(templates?.mortise.half).toBeCloseTo(12.1, 12);
    expect(templates?.mortise.foot).toBeCloseTo(64.1, 12);
    // A bush of 16 goes round no corner sharper than 8.
    expect(templates?.mortise.corner).toBeCloseTo(8, 12);
  });

  it('say when the corners are cut square by hand', () => {
    expect(fitOf(joined()).squareByHand).toBe(false);
    const square = fitOf(joined({ corners: 'square' }));
    expect(square.squareByHand).toBe(true);
    expect([square.tenon.corner, square.mortise.corner]).toEqual([2, 6]);
    expect(fitOf(joined({ templates: null })).tenon.corner).toBe(0);
  });
});

describe('the joint’s parts and figures', () => {
  it('have the bolts’ pilots on the tongue, and no templates unless they are asked for', () => {
    const part = template('tenon-template', joined());
    const pilots = part.features.filter((f) => f.kind === 'outline' && f.keep === 'outside');
    expect(pilots.map(({ id }) => id)).toEqual([
      'tenon-template-joint-bolt-1',
      'tenon-template-joint-bolt-2',
    ]);
    const plain = joined({ templates: null });
    expect(makeParts(plain, layoutOf(plain), settingsOf(neckShop)).map(({ id }) => id)).not.toContain(
      'tenon-template',
    );
  });

  it('list each bolt twice, in one line through block and tenon', () => {
    const instrument = joined();
    const holes = neckHoles(layoutOf(instrument), [], instrument).filter(({ id }) =>
      id.startsWith('joint-bolt'),
    );
    expect(holes.map(({ id, y, below, diameter, depth }) => [id, y, below, diameter, depth])).toEqual([
      ['joint-bolt-1-insert', 0, 26, 9, 18],
      ['joint-bolt-1-block', 0, 26, 6.5, 27],
      ['joint-bolt-2-insert', 0, 50, 9, 18],
      ['joint-bolt-2-block', 0, 50, 6.5, 27],
    ]);
  });

  it('cut the heel back everywhere but at its rim and under the tenon', () => {
    const { relief, heel, root } = fitOf(joined());
    const ring = relief?.ring;
    if (ring == null) throw new Error('no relief');
    const paths: PathsD = [flatten(ring, 0.001).map(([x, y]) => ({ x, y }))];
    const heelPath: PathsD = [flatten(tongueRing(heel, -20), 0.001).map(([x, y]) => ({ x, y }))];
    const rootPath: PathsD = [
      flatten(tongueRing({ ...root, corner: 0 }, -20), 0.001).map(([x, y]) => ({ x, y })),
    ];
    // Within the rim by another library's offset with sharp corners, less the tenon.
    const within = Clipper.inflatePathsD(heelPath, -3, JoinType.Miter, EndType.Polygon, 10, DIGITS);
    const wanted = both(less(within, rootPath), box(0, 90, 60));
    expect(size(less(wanted, paths)) + size(less(paths, wanted))).toBeLessThan(0.01);
    expect(size(paths)).toBeGreaterThan(500);
  });
});

describe('checks of the joint', () => {
  it('find nothing in a sound one', () => {
    expect(faults(joined())).toEqual([]);
    expect(faults(joined({ build: 'straight', bolts: null }))).toEqual([]);
  });

  const block = bolted.block;
  const bolts = bolted.bolts;
  const sheet = bolted.templates;
  if (bolts === null || sheet === null) throw new Error('the sample has no bolts');
  const down = (...places: number[]): Partial<Tenon> => ({ bolts: { ...bolts, down: places } });
  const cases: readonly [string, string, Partial<Tenon>][] = [
    ['mortise-deeper-than-block', 'length', { block: { ...block, length: 32.9 } }],
    ['too-little-beside-mortise', 'block.width', { block: { ...block, width: 40 } }],
    ['mortise-below-block', 'height', { block: { ...block, height: 71 } }],
    ['tenon-longer-than-neck', 'length', { length: 24.1 }],
    ['tenon-wider-than-heel', 'width', { height: 68, width: 24, relief: null }],
    [
      'tenon-deeper-than-heel',
      'height',
      {
        height: 84,
        width: 12,
        bolts: null,
        build: 'straight',
        relief: null,
        block: { ...block, height: 120 },
      },
    ],
    ['rod-weakens-tenon', 'width', { width: 17.9, templates: null }],
    ['bolt-outside-tenon', 'bolts.down[1]', down(26, 54.6)],
    ['bolt-at-rod', 'bolts.down[0]', down(18.4, 50)],
    ['bolts-together', 'bolts.down[1]', down(26, 37.9)],
    ['no-room-for-relief', 'relief.rim', { relief: { rim: 6, depth: 0.5 } }],
    ['bolts-and-build', 'bolts', { build: 'straight' }],
    ['only-a-dovetail-leans', 'flare', { flare: 0.1 }],
    ['dovetail-is-no-wedge', 'footWidth', { ...dovetail, footWidth: 26 }],
    ['bush-not-wider-than-cutter', 'templates.bush', { templates: { ...sheet, bush: 12 } }],
    ['bush-longer-than-template', 'templates.collar', { templates: { ...sheet, collar: 4 } }],
    ['cutter-wider-than-mortise', 'templates.cutter', { templates: { ...sheet, cutter: 20.3, bush: 21 } }],
    ['template-tongue-too-thin', 'templates.bush', { templates: { ...sheet, bush: 24.2 } }],
    [
      'flared-cutter-too-thin',
      'templates.cutter',
      { ...dovetail, templates: { ...sheet, cutter: 11, bush: 16 } },
    ],
  ];
  it.each(cases)('name %s at %s', (code, path, change) => {
    expect(faults(joined(change))).toContainEqual([code, `neckJoint.tenon.${path}`]);
  });

  it('let pass what lies just inside the limit', () => {
    expect(faults(joined({ block: { ...block, length: 33 } }))).toEqual([]);
    expect(faults(joined({ width: 18, templates: null }))).toEqual([]);
    expect(faults(joined(down(26, 54.5)))).toEqual([]);
    expect(faults(joined(down(18.5, 50)))).toEqual([]);
    expect(faults(joined(down(26, 38)))).toEqual([]);
  });

  it('keep the insert in the heel, and ask for a blank', () => {
    expect(faults(joined({ bolts: { ...bolts, insertDepth: 80 } }))).toContainEqual([
      'insert-through-heel',
      'neckJoint.tenon.bolts.insertDepth',
    ]);
    expect(faults({ ...joined(), neckBlank: null })).toContainEqual([
      'tenon-needs-neck-blank',
      'neckJoint.tenon',
    ]);
  });
});
