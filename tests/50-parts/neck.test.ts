/** Parts of neck and head: sizes worked out another way, every hole where it belongs, and the board that all of it comes out of. */
import { describe, expect, it } from 'vitest';
import { readHeadOutline } from '../../src/artwork/readHeadOutline.ts';
import { bounds } from '../../src/geometry/ring.ts';
import { makeParts, piecesOf } from '../../src/parts/makeParts.ts';
import { neckBoard, neckPieces } from '../../src/parts/neckBlank.ts';
import { settingsOf } from '../../src/parts/settings.ts';
import type { Feature, Part } from '../../src/parts/types.ts';
import type { Headstock, Instrument } from '../../src/profile/types.ts';
import { blank, headstock, layoutOf, necked, neckOf, neckShop, withHead } from '../support/neck.ts';

const settings = settingsOf(neckShop);
const partsOf = (instrument: Instrument = necked): Part[] =>
  makeParts(instrument, layoutOf(instrument), settings);
function part(id: string, instrument: Instrument = necked): Part {
  const found = partsOf(instrument).find((p) => p.id === id);
  if (found === undefined) throw new Error(`no part ${id}`);
  return found;
}
const of = <K extends Feature['kind']>(from: Part, kind: K): Extract<Feature, { kind: K }>[] =>
  from.features.filter((f): f is Extract<Feature, { kind: K }> => f.kind === kind);

describe('the head plate', () => {
  it('has a hole and a bushing’s pocket for every tuner, the pocket less deep by the veneer', () => {
    const plate = part('headstock');
    expect(of(plate, 'hole').map((h) => [h.diameter, h.through])).toEqual(Array(6).fill([8, true]));
    expect(of(plate, 'pocket').map((p) => p.floor.z)).toEqual(Array(6).fill(-5.5));
    const { head } = neckOf();
    expect(of(plate, 'hole').map((h) => h.at)).toEqual(head.posts.map((p) => p.at));
  });

  it('goes on under the board as far as its bevel needs', () => {
    const plate = part('headstock');
    const { breakX } = neckOf();
    const x = bounds(of(plate, 'outline')[0]?.ring ?? []).x;
    // 14 / tan 15 = 52.249.
    expect(x[1] - breakX).toBeCloseTo(52.249, 3);
    expect(breakX - x[0]).toBeCloseTo(170, 9);
    expect(plate.benchSteps?.map((s) => s.step)).toEqual(['bevel-head-plate', 'glue-scarf']);
    expect(plate.benchSteps?.[0]?.why).toContain('52.25 mm');
  });

  it('is not made for a head in one piece with the neck, nor a pocket where the veneer takes the bushing', () => {
    const one = withHead({}, {}, { build: 'one piece', thickness: 90, heel: 'one piece' });
    expect(partsOf(one).map((p) => p.id)).not.toContain('headstock');
    const shallow = withHead({}, { bushing: { diameter: 10, depth: 1.5 } });
    expect(of(part('headstock', shallow), 'pocket')).toEqual([]);
  });
});

describe('the head veneer', () => {
  it('stands upright behind the nut once it lies on the tilted face: the nut is the gap', () => {
    const ring = of(part('head-veneer'), 'outline').find((o) => o.keep === 'inside')?.ring ?? [];
    const { breakX } = neckOf();
    const { angle, veneer } = headstock;
    const past = bounds(ring).x[1] - breakX;
    // The upper edge of its nut end, turned down about the break with the face.
    const thick = veneer?.thickness ?? 0;
    const x = breakX + past * Math.cos(angle) - thick * Math.sin(angle);
    expect(x).toBeCloseTo(breakX, 9);
    expect(necked.nut.setForward - x).toBeCloseTo(necked.nut.thickness, 9);
  });

  it('has the holes of the bushings, over those of the plate', () => {
    const veneer = of(part('head-veneer'), 'outline').filter((o) => o.keep === 'outside');
    expect(veneer).toHaveLength(6);
    expect(veneer.map((o) => bounds(o.ring).y[1] - bounds(o.ring).y[0])).toEqual(
      Array(6).fill(expect.closeTo(10, 9)),
    );
  });
});

describe('the neck blank', () => {
  it('has the same index pins as the board, and the rod’s channel with its pockets', () => {
    const neck = part('neck-blank');
    const board = of(part('fingerboard'), 'hole').map((h) => h.at);
    expect(of(neck, 'hole').map((h) => h.at)).toEqual(board);
    expect(of(neck, 'hole').every((h) => !h.through && h.depth > 0)).toBe(true);
    expect(of(neck, 'pocket').map((p) => [p.id, p.floor.z])).toEqual([
      ['truss-rod-channel', -9.5],
      ['truss-rod-anchor', -10.5],
      ['truss-rod-adjuster', -11],
    ]);
    const end = Math.max(...of(neck, 'pocket').map((p) => bounds(p.region.outer).x[1]));
    expect(neck.blank.box.x[1]).toBeGreaterThan(end + 1);
    expect(neck.zero).toContain('back of the nut');
  });

  it('lies about the same x on a left-handed instrument', () => {
    const left = part('neck-blank', { ...necked, hand: 'left' });
    expect(of(left, 'hole').map((h) => h.at[1])).toEqual(of(part('neck-blank'), 'hole').map((h) => -h.at[1]));
  });
});

describe('the board of a neck', () => {
  it('is as long as both pieces and the kerf between them: their areas add up to its own', () => {
    const neck = neckOf();
    const board = neckBoard(neck, settings);
    const { ends, sawKerf } = settings.allowances;
    const T = blank.thickness;
    const shaft = ((board.shaftBack + board.shaftTop) / 2) * T;
    // The head's piece is short on the side where the shaft is long.
    const bevel = T / Math.tan(headstock.angle);
    const shortSide = 170 + ends;
    const head = ((shortSide + shortSide + bevel) / 2) * T;
    const kerf = (sawKerf / Math.sin(headstock.angle)) * T;
    expect(shaft + head + kerf).toBeCloseTo(board.length * T, 6);
    expect(board.shaftBack - board.shaftTop).toBeCloseTo(bevel, 9);
  });

  it('is in the list of pieces with its saw cut, heel and filler, and the plate is not listed again', () => {
    const pieces = [...piecesOf(necked, partsOf()), ...neckPieces(necked, layoutOf(), settings)];
    expect(pieces.filter((p) => p.material === 'maple').map((p) => [p.id, p.count])).toEqual([
      ['neck-board', 1],
      ['neck-heel', 4],
      ['truss-rod-filler', 1],
    ]);
    expect(pieces.find((p) => p.id === 'neck-board')?.note).toMatch(/scarf at 15 deg: in at .* out at /);
    expect(pieces.map((p) => p.id)).not.toContain('headstock');
    expect(pieces.find((p) => p.id === 'head-veneer')).toMatchObject({ material: 'ebony', grain: true });
  });
});

describe('an outline of a head from a file', () => {
  const file: Headstock = { ...headstock, outline: { kind: 'file', file: 'head.svg' } };
  const svg = (d: string): string =>
    `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="100mm" viewBox="0 0 200 100"><path d="${d}"/></svg>`;
  const good = svg('M180 27 L150 14 L20 18 L12 50 L20 82 L150 86 L180 73 Z');

  it('is laid at the back of the nut at its true size, and its parts are made from it', () => {
    const read = readHeadOutline(file, () => good);
    if (!read.ok || read.value === null) throw new Error(JSON.stringify(read.findings));
    expect(bounds(read.value).x).toEqual([expect.closeTo(-168, 2), 0]);
    expect([read.value[0], read.value.at(-1)]).toEqual([
      { x: 0, y: expect.closeTo(23, 2), bulge: expect.closeTo(0, 6) },
      { x: 0, y: expect.closeTo(-23, 2), bulge: 0 },
    ]);
    const instrument = { ...necked, headstock: file };
    const layout = layoutOf(instrument, read.value);
    const plate = makeParts(instrument, layout, settings).find((p) => p.id === 'headstock');
    expect(bounds(of(plate as Part, 'outline')[0]?.ring ?? []).x[0]).toBeCloseTo(
      (layout.neck?.breakX ?? 0) - 168,
      2,
    );
  });

  it.each([
    ['missing', null],
    ['open', svg('M180 27 L20 18 L20 82 L180 73')],
    ['without an upright end', svg('M180 27 L20 18 L20 82 L170 73 Z')],
    ['two', svg('M180 27 L20 18 L20 82 L180 73 Z M190 27 L198 27 L198 73 Z')],
  ])('is refused at its field when it is %s', (_, text) => {
    const read = readHeadOutline(file, () => text);
    expect(read.ok).toBe(false);
    expect(read.findings.every((f) => f.where?.path === 'headstock.outline.file')).toBe(true);
    expect(read.findings.length).toBeGreaterThan(0);
  });
});
