import { describe, expect, it } from 'vitest';
import { drawLayout } from '../../src/drawing/drawLayout.ts';
import { drawPart } from '../../src/drawing/drawPart.ts';
import { listShapes } from '../../src/drawing/listShapes.ts';
import type { Drawing } from '../../src/drawing/types.ts';
import { proveDrawing } from '../../src/verify/dxf/prove.ts';
import type { MeantShape } from '../../src/verify/dxf/types.ts';
import { writeDxf } from '../../src/writers/dxf/write.ts';
import { sampleInstrument, sampleLayout, sampleParts } from '../support/drawingSamples.ts';

const layout = sampleLayout();
const drawings: Drawing[] = [drawLayout(layout, sampleInstrument), ...sampleParts().map(drawPart)];

function board(): { text: string; meant: MeantShape[] } {
  const drawing = drawings.find((d) => d.id === 'fingerboard');
  if (drawing === undefined) throw new Error('no fingerboard');
  return { text: writeDxf(drawing), meant: listShapes(drawing) };
}

/** The names of the checks that failed. */
function failed(text: string, meant: readonly MeantShape[]): string[] {
  const proof = proveDrawing(text, meant);
  expect(proof.passed).toBe(proof.checks.every((c) => c.passed));
  for (const check of proof.checks.filter((c) => !c.passed)) expect(check.text).not.toBe('');
  return proof.checks.filter((c) => !c.passed).map((c) => c.name);
}

/** Changes the first entity of a type on a layer; `edit` gets its lines, code and value in turn. */
function editEntity(text: string, type: string, layer: string, edit: (tags: string[]) => string[]): string {
  const lines = text.split('\n');
  const codes = [...lines.keys()].filter((i) => i % 2 === 0);
  const starts = codes.filter((i) => lines[i] === '0');
  const found = starts.findIndex((start, k) => {
    const tags = lines.slice(start, starts[k + 1]);
    return tags[1] === type && tags.some((line, i) => i % 2 === 0 && line === '8' && tags[i + 1] === layer);
  });
  const [start, end] = [starts[found], starts[found + 1]];
  if (start === undefined || end === undefined) throw new Error(`no ${type} on ${layer}`);
  return [...lines.slice(0, start), ...edit(lines.slice(start, end)), ...lines.slice(end)].join('\n');
}

function setGroup(code: number, change: (value: string) => string): (tags: string[]) => string[] {
  return (tags) => {
    const at = tags.findIndex((line, i) => i % 2 === 0 && line === String(code));
    if (at < 0) throw new Error(`no group ${code}`);
    return tags.map((line, i) => (i === at + 1 ? change(line) : line));
  };
}

const shift = (by: number) => (value: string) => String(Number(value) + by);

describe('a drawing as it was written', () => {
  it.each(drawings.map((d) => [d.id, d] as const))('%s is proven', (_id, drawing) => {
    const proof = proveDrawing(writeDxf(drawing), listShapes(drawing));
    expect(proof.checks.filter((c) => !c.passed)).toEqual([]);
    expect(proof.passed).toBe(true);
    const seen = proof.checks.find((c) => c.name === 'nothing missing');
    expect(seen?.seen).toBe(listShapes(drawing).length);
    // Six decimals written: a corner is off by a millionth at most, an arc's middle by a quarter of that per mm of chord.
    expect(seen?.value).toBeLessThan(2e-5);
  });

  it('may have other line ends', () => {
    const { text, meant } = board();
    expect(failed(text.replace(/\n/g, '\r\n'), meant)).toEqual([]);
  });

  it('is the same line when it starts at another corner or runs the other way', () => {
    const { text, meant } = board();
    const other = meant.map((shape): MeantShape => {
      if (shape.kind === 'line') return { ...shape, from: shape.to, to: shape.from };
      if (shape.kind !== 'ring') return shape;
      const n = shape.vertices.length;
      const turned = shape.vertices.map((_, i) => {
        const [x, y] = shape.vertices[(2 * n - i) % n] ?? [0, 0];
        return [x, y, -(shape.vertices[(2 * n - i - 1) % n]?.[2] ?? 0)] as const;
      });
      return { ...shape, vertices: [...turned.slice(2), ...turned.slice(0, 2)] };
    });
    expect(failed(text, other)).toEqual([]);
  });

  it('proves a name of foreign letters and signs', () => {
    const drawing = drawLayout(layout, { ...sampleInstrument, name: 'Ö %% \\U+0041 ^J\n0\nLINE \u{1f3b8}' });
    expect(failed(writeDxf(drawing), listShapes(drawing))).toEqual([]);
  });
});

describe('a damaged drawing is refused', () => {
  const entity = (type: string, layer: string, edit: (tags: string[]) => string[]) => (text: string) =>
    editEntity(text, type, layer, edit);
  const faults: [string, (text: string) => string, string[]][] = [
    [
      'slot off by 0.002',
      entity('LINE', 'FRET_SLOTS', setGroup(10, shift(0.002))),
      ['nothing missing', 'nothing extra'],
    ],
    [
      'circle off by 0.002',
      entity('CIRCLE', 'HOLES', setGroup(20, shift(0.002))),
      ['nothing missing', 'nothing extra'],
    ],
    [
      'radius off by 0.002',
      entity('CIRCLE', 'POCKETS', setGroup(40, shift(0.002))),
      ['nothing missing', 'nothing extra'],
    ],
    [
      'corner off',
      entity('LWPOLYLINE', 'BOARD_OUTLINE', setGroup(10, shift(-0.01))),
      ['nothing missing', 'nothing extra'],
    ],
    [
      'arc bent the other way',
      entity(
        'LWPOLYLINE',
        'BOARD_OUTLINE',
        setGroup(42, (v) => `-${v}`),
      ),
      ['nothing missing', 'nothing extra'],
    ],
    [
      'arc made straight',
      entity(
        'LWPOLYLINE',
        'BOARD_OUTLINE',
        setGroup(42, () => '0'),
      ),
      ['nothing missing', 'nothing extra'],
    ],
    ['entity left out', entity('CIRCLE', 'HOLES', () => []), ['nothing missing']],
    [
      'entity drawn twice',
      entity('LINE', 'FRET_SLOTS', (t) => [...t, ...t]),
      ['nothing extra', 'nothing twice'],
    ],
    [
      'outline open',
      entity(
        'LWPOLYLINE',
        'BOARD_OUTLINE',
        setGroup(70, () => '0'),
      ),
      ['outlines closed', 'nothing missing', 'nothing extra'],
    ],
    [
      'wrong layer',
      entity(
        'CIRCLE',
        'HOLES',
        setGroup(8, () => 'POCKETS'),
      ),
      ['nothing missing', 'nothing extra'],
    ],
    [
      'unknown layer',
      entity(
        'CIRCLE',
        'HOLES',
        setGroup(8, () => 'OTHER'),
      ),
      ['layers', 'nothing missing', 'nothing extra'],
    ],
    [
      'another kind',
      entity('CIRCLE', 'HOLES', (t) => ['0', 'ELLIPSE', ...t.slice(2)]),
      ['plain entities', 'nothing missing'],
    ],
    [
      'lifted entity',
      entity(
        'CIRCLE',
        'HOLES',
        setGroup(30, () => '1'),
      ),
      ['plain entities', 'nothing missing'],
    ],
    [
      'in paper space',
      entity('CIRCLE', 'HOLES', (t) => [...t, '67', '1']),
      ['plain entities', 'nothing missing'],
    ],
    [
      'mirrored by extrusion',
      entity('CIRCLE', 'HOLES', (t) => [...t, '230', '-1']),
      ['plain entities', 'nothing missing'],
    ],
    [
      'line with a width',
      entity('LWPOLYLINE', 'FRET_SLOT_WALLS', (t) => [...t, '43', '0.5']),
      ['plain entities', 'nothing missing'],
    ],
    [
      'number with an exponent',
      entity(
        'CIRCLE',
        'HOLES',
        setGroup(10, () => '1e2'),
      ),
      ['plain entities', 'nothing missing'],
    ],
    [
      'not a number',
      entity(
        'CIRCLE',
        'HOLES',
        setGroup(10, () => 'NaN'),
      ),
      ['plain entities', 'nothing missing'],
    ],
    [
      'corner count',
      entity(
        'LWPOLYLINE',
        'BLANK',
        setGroup(90, () => '5'),
      ),
      ['plain entities', 'nothing missing'],
    ],
    [
      'text changed',
      entity(
        'TEXT',
        'NOTES',
        setGroup(1, (v) => `${v}!`),
      ),
      ['nothing missing', 'nothing extra'],
    ],
    ['inches declared', (t) => t.replace('$INSUNITS\n70\n4\n', '$INSUNITS\n70\n1\n'), ['units']],
    ['units left out', (t) => t.replace('9\n$INSUNITS\n70\n4\n', ''), ['units']],
    ['English measurement', (t) => t.replace('$MEASUREMENT\n70\n1\n', '$MEASUREMENT\n70\n0\n'), ['units']],
    ['layer switched off', (t) => t.replace('\n2\nHOLES\n62\n7\n', '\n2\nHOLES\n62\n-7\n'), ['layers']],
    [
      'layer frozen',
      (t) => t.replace('\n2\nHOLES\n62\n7\n70\n0\n', '\n2\nHOLES\n62\n7\n70\n1\n'),
      ['layers'],
    ],
    ['layer not declared', (t) => t.replace('\n2\nHOLES\n62\n7\n', '\n2\nHALLS\n62\n7\n'), ['layers']],
    ['cut off', (t) => t.slice(0, t.lastIndexOf('0\nEOF')), ['readable']],
    ['cut off within a tag', (t) => t.slice(0, t.length - 5), ['readable']],
    ['out of step', (t) => t.replace('\nENTITIES\n', '\n\nENTITIES\n'), ['readable']],
    ['something after the end', (t) => `${t}0\nLINE\n`, ['readable']],
    [
      'hidden in a block',
      (t) => t.replace('\n0\nENDBLK\n', '\n0\nCIRCLE\n8\nHOLES\n10\n0\n20\n0\n40\n1\n0\nENDBLK\n'),
      ['plain entities'],
    ],
    [
      'second entities section',
      (t) => t.replace(/0\nEOF\n$/, '0\nSECTION\n2\nENTITIES\n0\nENDSEC\n0\nEOF\n'),
      ['readable'],
    ],
    ['empty', () => '', ['readable']],
  ];

  it.each(faults)('%s', (_name, damage, expected) => {
    const { text, meant } = board();
    const damaged = damage(text);
    expect(damaged).not.toBe(text);
    expect(failed(damaged, meant)).toEqual(expect.arrayContaining(expected));
  });

  it('everything 25.4 times as large, with units untouched', () => {
    const { text, meant } = board();
    const large = text.replace(
      /(\n(?:10|20|11|21|40)\n)(-?[\d.]+)/g,
      (_, code, v) => `${code}${Number(v) * 25.4}`,
    );
    expect(failed(large, meant)).toEqual(expect.arrayContaining(['nothing missing', 'nothing extra']));
  });

  it('names the place and the amount of what moved', () => {
    const { text, meant } = board();
    const damaged = editEntity(text, 'LINE', 'FRET_SLOTS', setGroup(10, shift(0.25)));
    const check = proveDrawing(damaged, meant).checks.find((c) => c.name === 'nothing missing');
    const first = meant.find((m) => m.kind === 'line' && m.layer === 'FRET_SLOTS');
    expect(check).toMatchObject({ place: first?.kind === 'line' ? first.from : null, limit: 0.001 });
    expect(check?.value).toBeCloseTo(0.25, 5);
    expect(check?.text).toContain('0.25 mm');
  });

  it('proves nothing when nothing was meant', () => {
    const { text } = board();
    expect(failed(text, [])).toContain('nothing missing');
  });
});

describe('every single number of a drawing', () => {
  it('is watched: one changed by a hundredth is refused', () => {
    const drawing = drawings.find((d) => d.id === 'pin-template');
    if (drawing === undefined) throw new Error('no template');
    const meant = listShapes(drawing);
    const lines = writeDxf(drawing).split('\n');
    const start = lines.indexOf('ENTITIES');
    let tried = 0;
    for (let i = start + 2; i < lines.length - 1; i += 2) {
      const code = Number(lines[i - 1]);
      // 11 and 21 of a text repeat its place for other alignments and are not its place here.
      const isText = lines.slice(0, i).lastIndexOf('TEXT') > lines.slice(0, i).lastIndexOf('AcDbEntity') - 8;
      if (![10, 20, 11, 21, 40].includes(code) || (isText && code !== 10 && code !== 20)) continue;
      const damaged = lines.with(i, String(Number(lines[i]) + 0.01));
      expect(proveDrawing(damaged.join('\n'), meant).passed, `line ${i + 1}, group ${code}`).toBe(false);
      tried += 1;
    }
    expect(tried).toBeGreaterThan(40);
  });
});
