import { describe, expect, it } from 'vitest';
import { layOut } from '../../src/layout/layOut.ts';
import type { Instrument } from '../../src/profile/types.ts';
import { benchSheet } from '../../src/sheet/benchSheet.ts';
import { renderSheetText } from '../../src/sheet/renderSheetText.ts';
import { textTable } from '../../src/sheet/textTable.ts';
import { parlour } from '../support/instrument.ts';

function textOf(instrument: Instrument): string {
  const layout = layOut(instrument);
  if (!layout.ok) throw new Error(layout.findings.map((f) => f.text).join('; '));
  return renderSheetText(benchSheet(layout.value, instrument));
}

describe('the sheet as text', () => {
  const text = textOf(parlour);
  const lines = text.split('\n');
  const rows = lines.filter((l) => /^( {2}marker|slot) \d/.test(l));

  it('says first that the 12th slot is half the scale, with both numbers', () => {
    expect(lines[0]).toBe(
      'Slot 12 is half the scale: it lies 314.00 mm (12.362 in) from scale zero; half of 628.00 mm (24.724 in) is 314.00 mm (12.362 in).',
    );
  });

  it('carries a sum check, and the sum a person gets from the printed differences', () => {
    expect(lines[1]).toContain('add up to 418.43 mm (16.474 in); slot 19 lies 418.43 mm');
    const differences = rows
      .filter((r) => r.startsWith('slot'))
      .map((r) =>
        Number(
          r
            .replace(/^slot.*?(before slot \d+|the last)/, '')
            .trim()
            .split(/\s+/)[4],
        ),
      );
    expect(differences).toHaveLength(19);
    const sum = differences.reduce((a, b) => a + b, 0).toFixed(2);
    expect(lines[2]).toBe(`The differences as printed below, rounded, add up to ${sum} mm.`);
  });

  it('tells to measure from the nut line and never to add differences up', () => {
    expect(text).toContain('Measure every slot and every marker from the nut line, each time');
    expect(text).toContain('Never add differences up');
  });

  it('sets each marker between the slots it lies between, and names them', () => {
    const names = rows.map((r) => r.trim().split(/ {2,}/).slice(0, 2));
    const at = names.findIndex(([what]) => what === 'marker 5');
    expect(names[at - 1]?.[0]).toBe('slot 4');
    expect(names[at]?.[1]).toBe('between slots 4 and 5');
    expect(names[at + 1]).toEqual(['slot 5', 'after slot 4, before slot 6']);
    expect(names.filter(([what]) => what === 'marker 12').map(([, where]) => where)).toEqual([
      'between slots 11 and 12, 13.00 mm to the bass side',
      'between slots 11 and 12, 13.00 mm to the treble side',
    ]);
  });

  it('says the bench tolerances of its source beside the numbers', () => {
    // Common practice, no source: slots from the nut 0.10 sawn, 0.05 machined; markers 0.2.
    expect(rows.filter((r) => r.startsWith('slot')).every((r) => r.includes('0.10 / 0.05'))).toBe(true);
    expect(rows.filter((r) => r.startsWith('  marker')).every((r) => r.endsWith('0.20'))).toBe(true);
    expect(text).toContain('Programs are proven to finer ones');
  });

  it('says what a tenth of a millimetre means at each slot', () => {
    // 173.1 / (S - x): at the 12th of 628 mm 173.1 / 314 = 0.551 cents.
    expect(rows.find((r) => r.startsWith('slot 12 '))).toMatch(/ 0\.55$/);
    expect(rows.find((r) => r.startsWith('slot 1 '))).toMatch(/ 0\.29$/);
  });

  it('carries the reaming numbers', () => {
    expect(text).toContain('it goes 15.99 mm further');
    expect(text).toContain('a drill of at most 4.851 mm');
    expect(text).toContain('0.05 mm of diameter is 0.95 mm of height');
    expect(text).not.toContain('WARNING');
  });

  it('warns when pin and reamer differ, and says how deep a short cone goes', () => {
    const pins = { ...parlour.bridge.pins, pinTaper: (5 * Math.PI) / 180, drill: 5 };
    const other = textOf({ ...parlour, bridge: { ...parlour.bridge, pins } });
    expect(other).toContain('WARNING: the pin’s taper (5 deg) is not the reamer’s (3 deg)');
    expect(other).toContain('5 mm is larger. The cone reaches 11.46 mm deep');
  });

  it('says so when the instrument is left-handed, and prints the same places', () => {
    const left = textOf({ ...parlour, hand: 'left' });
    expect(left).toContain('LEFT-HANDED instrument');
    expect(text).not.toContain('LEFT-HANDED');
    const sorted = (t: string): string[] =>
      t
        .split('\n')
        .filter((l) => /^( {2}marker|slot|\d)/.test(l))
        .sort();
    expect(sorted(left)).toEqual(sorted(text));
  });

  it('puts inches first, as decimals, for a profile in inches', () => {
    const inches = textOf({ ...parlour, units: 'in' });
    expect(inches.split('\n')[0]).toContain('it lies 12.362 in (314.00 mm) from scale zero');
    expect(inches).not.toMatch(/\d\/\d\d? in/);
  });

  it('says where the nut face is when it is not scale zero', () => {
    const forward = textOf({ ...parlour, nut: { ...parlour.nut, setForward: 0.5 } });
    expect(forward).toContain('the nut face lies 0.50 mm (0.020 in) forward of scale zero');
    expect(forward).toMatch(/slot 12 .* 314\.00 +12\.362 +313\.50 +12\.343/);
  });

  it('says so when the board ends before the octave', () => {
    const short = textOf({
      ...parlour,
      frets: { ...parlour.frets, count: 11 },
      faceMarkers: { ...parlour.faceMarkers, at: [] },
      sideMarkers: { ...parlour.sideMarkers, at: [] },
    });
    expect(short.split('\n')[0]).toContain('ends before the octave');
    expect(short).toContain('Side markers: none.');
  });

  it('keeps a name on one line', () => {
    expect(textOf({ ...parlour, name: 'Two\nlines\u2028here' })).toContain('Instrument: Two lines here\n');
  });

  it('holds no number that is none, and no space at a line’s end', () => {
    expect(text).not.toMatch(/NaN|Infinity|undefined|null| \n/);
  });
});

describe('text tables', () => {
  it('set heads at the bottom and numbers on the right', () => {
    const columns = [
      { head: ['slot'], align: 'left' as const },
      { head: ['from', 'nut'], align: 'right' as const },
    ];
    expect(textTable(columns, [['1', '35.25'], ['12']])).toEqual([
      '       from',
      'slot    nut',
      '----  -----',
      '1     35.25',
      '12',
    ]);
  });
});
