import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layOut } from '../../src/layout/layOut.ts';
import type { Instrument } from '../../src/profile/types.ts';
import { writeDrillCsv } from '../../src/writers/csv/drill.ts';
import { writeTable } from '../../src/writers/csv/table.ts';
import { parlour } from '../support/instrument.ts';
import { partsOf } from '../support/job.ts';
import { readCsv } from './csv-support.ts';

function tableOf(instrument: Instrument): { heads: string[]; rows: string[][]; text: string } {
  const layout = layOut(instrument);
  if (!layout.ok) throw new Error(JSON.stringify(layout.findings));
  const text = writeDrillCsv(layout.value, partsOf(instrument), instrument);
  const [heads = [], ...rows] = readCsv(text);
  return { heads, rows, text };
}

describe('drill coordinates', () => {
  const { heads, rows } = tableOf(parlour);
  const column = (start: string): number => {
    const found = heads.findIndex((h) => h.startsWith(start));
    if (found < 0) throw new Error(`no column ${start}`);
    return found;
  };
  const cell = (id: string, start: string): string =>
    rows.find((r) => r[0] === id)?.[column(start)] ?? `no row ${id}`;

  it('list every hole once, with what it is', () => {
    expect(rows.map((r) => r[0])).toEqual([
      'index-pin-1',
      'index-pin-2',
      ...['03', '05', '07', '09', '12-bass', '12-treble', '15'].map((n) => `face-marker-${n}`),
      ...['05', '12-a', '12-b'].map((n) => `side-marker-${n}`),
      ...[1, 2, 3, 4, 5, 6].map((n) => `bridge-pin-${n}`),
    ]);
    expect(rows.every((r) => r.length === heads.length)).toBe(true);
  });

  it('say in words what each length is measured from, in both units', () => {
    for (const unit of ['(mm)', '(in)']) {
      expect(heads).toContain(`x along the centreline from the nut face, toward the bridge ${unit}`);
      expect(heads).toContain(`x along the centreline from scale zero, toward the bridge ${unit}`);
      expect(heads).toContain(`y square to the centreline, positive toward the treble side ${unit}`);
    }
  });

  // Worked by hand, 628 mm scale: a marker lies halfway between its slots: 12th (295.3286 + 314)/2 = 304.6643.
  it('put the 12th markers halfway between slots 11 and 12, a spread apart', () => {
    expect(cell('face-marker-12-bass', 'x along the centreline from scale zero')).toBe('304.664');
    expect(cell('face-marker-12-bass', 'y square')).toBe('-13.000');
    expect(cell('face-marker-12-treble', 'y square')).toBe('13.000');
    expect(cell('face-marker-12-treble', 'diameter (mm)')).toBe('5.050');
  });

  it('give depth, and whether a hole goes through', () => {
    expect(cell('index-pin-1', 'depth')).toBe('6.500');
    expect(cell('index-pin-1', 'through')).toBe('yes');
    expect(cell('face-marker-05', 'depth')).toBe('1.800');
    expect(cell('face-marker-05', 'through')).toBe('no');
    expect(cell('side-marker-05', 'drilled from')).toBe('bass edge of the finished board');
    expect(cell('bridge-pin-6', 'depth')).toBe('14.300');
  });

  it('agree with the layout to half of the last digit, in millimetres and in inches', () => {
    const layout = layOut(parlour);
    if (!layout.ok) throw new Error('no layout');
    const places = new Map([
      ...layout.value.indexPins.map((p) => [p.id, p.at] as const),
      ...layout.value.faceMarkers.map((p) => [p.id, p.at] as const),
      ...layout.value.strings.map((s) => [`bridge-pin-${s.position}`, s.pin] as const),
    ]);
    const xMm = column('x along the centreline from scale zero, toward the bridge (mm)');
    const yIn = column('y square to the centreline, positive toward the treble side (in)');
    for (const [id, at] of places) {
      const row = rows.find((r) => r[0] === id) ?? [];
      expect(Math.abs(Number(row[xMm]) - at[0])).toBeLessThan(0.00051);
      expect(Math.abs(Number(row[yIn]) * 25.4 - at[1])).toBeLessThan(0.00005 * 25.4 * 1.01);
    }
  });

  it('measure from the nut face when it is forward of scale zero', () => {
    const forward = tableOf({ ...parlour, nut: { ...parlour.nut, setForward: 0.5 } });
    const row = forward.rows.find((r) => r[0] === 'face-marker-12-bass') ?? [];
    expect(row.slice(3, 5)).toEqual(['304.164', '304.664']);
  });

  it('say which side is positive on a left-handed instrument', () => {
    const left = tableOf({ ...parlour, hand: 'left' });
    expect(left.heads.some((h) => h.includes('positive toward the bass side'))).toBe(true);
    const y = left.heads.findIndex((h) => h.startsWith('y square'));
    expect(left.rows.find((r) => r[0] === 'face-marker-12-bass')?.[y]).toBe('13.000');
  });

  it('keep a pitch or a material from the profile harmless', () => {
    const strings = parlour.strings.map((s) => ({ ...s, pitch: '=1+1,"x"\r\n;@y' }));
    const faceMarkers = { ...parlour.faceMarkers, material: '-shell' };
    const hostile = tableOf({ ...parlour, strings, faceMarkers });
    expect(hostile.rows).toHaveLength(rows.length);
    expect(hostile.rows.every((r) => r.length === heads.length)).toBe(true);
    expect(hostile.rows.find((r) => r[0] === 'bridge-pin-1')?.[1]).toBe(
      'bridge pin, string 1 (=1+1,"x" ;@y)',
    );
  });

  it('fail loudly when a part lacks a hole', () => {
    const layout = layOut(parlour);
    if (!layout.ok) throw new Error('no layout');
    expect(() => writeDrillCsv(layout.value, [], parlour)).toThrow('no hole index-pin-1');
  });
});

describe('a table', () => {
  it('guards text that starts like a formula, and never a number', () => {
    const text = writeTable(
      [{ head: 'name' }, { head: 'x', decimals: 2 }],
      [
        ['=SUM(A1)', -1.5],
        ['+1', 2],
        ['-1', -0.001],
        ['@a', null],
        ['\t=1', 0],
        ['\u{feff}=1', 0],
        ['＝1', 0],
      ],
    );
    expect(readCsv(text)).toEqual([
      ['name', 'x'],
      ["'=SUM(A1)", '-1.50'],
      ["'+1", '2.00'],
      ["'-1", '0.00'],
      ["'@a", ''],
      ["'=1", '0.00'],
      ["'=1", '0.00'],
      ["'＝1", '0.00'],
    ]);
  });

  it('holds any text on one row, and never begins a cell like a formula', () => {
    fc.assert(
      fc.property(fc.array(fc.string({ unit: 'binary' }), { minLength: 1, maxLength: 5 }), (texts) => {
        const rows = readCsv(
          writeTable(
            [{ head: 'a' }, { head: 'b' }],
            texts.map((t) => [t, t]),
          ),
        );
        expect(rows).toHaveLength(texts.length + 1);
        for (const row of rows) {
          expect(row).toHaveLength(2);
          expect(row.join('')).not.toMatch(/^[=+\-@\s]|[\r\n]/);
        }
      }),
      { seed: 3, numRuns: 500 },
    );
  });

  it('keeps its cells to its columns', () => {
    expect(() => writeTable([{ head: 'a' }], [['x', 'y']])).toThrow('2 cells for 1 columns');
  });
});
