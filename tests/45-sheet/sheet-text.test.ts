import { describe, expect, it } from 'vitest';
import { layOut } from '../../src/layout/layOut.ts';
import type { Instrument } from '../../src/profile/types.ts';
import { benchSheet } from '../../src/sheet/benchSheet.ts';
import { renderSheetText } from '../../src/sheet/renderSheetText.ts';
import { textTable } from '../../src/sheet/textTable.ts';
import { wrapText } from '../../src/sheet/wrapText.ts';
import { parlour } from '../support/instrument.ts';
import { equalFrets, oneScale } from '../support/scales.ts';

function textOf(instrument: Instrument): string {
  const layout = layOut(instrument);
  if (!layout.ok) throw new Error(layout.findings.map((f) => f.text).join('; '));
  return renderSheetText(benchSheet(layout.value, instrument));
}

/** Lines of the table under a title, up to the next blank line. */
function tableOf(text: string, title: string): string[] {
  const lines = text.split('\n');
  const from = lines.indexOf(title) + 1;
  if (from === 0) throw new Error(`no table "${title}"`);
  return lines.slice(from, lines.indexOf('', from));
}

/** Rows of slots and markers in one unit. */
const rowsOf = (text: string, unit: string): string[] =>
  tableOf(text, `Slots and face markers, in ${unit}:`).filter((l) => /^( {2}marker|slot) \d/.test(l));

/** Numbers of a row after its words: from scale zero, from the nut face, the next that is there. */
const numbersOf = (row: string): number[] =>
  [...row.slice(36).matchAll(/[\d.]+/g)].map(([digits]) => Number(digits));

/** A text without its line breaks. */
const flat = (text: string): string => text.replace(/\n +/g, ' ');

describe('the sheet as text', () => {
  const text = textOf(parlour);
  const lines = text.split('\n');
  const rows = rowsOf(text, 'millimetres');

  it('says first that the 12th slot is half the scale, with both numbers', () => {
    expect(lines[0]).toBe(
      'Slot 12 is half the scale: it lies 314.00 mm (12.362 in) from scale zero; 628.00 / 2 = 314.00 mm.',
    );
  });

  it('carries a sum check, and the sums a person gets from the printed differences', () => {
    expect(lines[1]).toMatch(/^Sum check: .*add up to 418\.43 mm \(16\.474 in\); slot 19 lies 418\.43 mm/);
    const sumOf = (of: readonly string[], decimals: number): string => {
      const differences = of.filter((r) => r.startsWith('slot')).map((r) => numbersOf(r)[2] ?? Number.NaN);
      expect(differences).toHaveLength(19);
      return differences.reduce((a, b) => a + b, 0).toFixed(decimals);
    };
    expect(text).toContain(
      `The differences as printed below, rounded, add up to ${sumOf(rows, 2)} mm, or to ${sumOf(rowsOf(text, 'inches'), 3)} in.`,
    );
  });

  it.each<[string, Partial<Instrument>]>([
    ['as it is', {}],
    ['in inches', { units: 'in' }],
    [
      'left-handed, of the longest scale and a nut set forward',
      { hand: 'left', scale: oneScale(1500), nut: { ...parlour.nut, setForward: 9.75 } },
    ],
    ['with 31 steps to the octave', { units: 'in', frets: { ...parlour.frets, ...equalFrets(36, 31) } }],
    [
      'that ends before the octave',
      {
        frets: { ...parlour.frets, ...equalFrets(11, 72) },
        fingerboard: { ...parlour.fingerboard, widthAt: { fret: 11, width: 48 } },
        scale: oneScale(1500),
      },
    ],
    [
      'with a marker at the first fret',
      {
        faceMarkers: {
          ...parlour.faceMarkers,
          at: [
            { fret: 1, count: 2, shape: 'round', diameter: 5 },
            { fret: 2, count: 1, shape: 'round', diameter: 5 },
          ],
        },
      },
    ],
    ['with a long name', { name: `${'Long '.repeat(60)}${'n'.repeat(250)}` }],
    [
      'with pins that do not fit',
      { bridge: { ...parlour.bridge, anchor: { ...parlour.bridge.anchor, drill: 5, pinTaper: 0.1 } } },
    ],
  ])('fits on a page 100 columns wide: an instrument %s', (_, change) => {
    const instrument = { ...parlour, ...change };
    const count = instrument.frets.count;
    const sides = { ...parlour.sideMarkers, at: parlour.sideMarkers.at.filter((m) => m.fret <= count) };
    const faces = { ...instrument.faceMarkers, at: instrument.faceMarkers.at.filter((m) => m.fret <= count) };
    const page = textOf({ ...instrument, faceMarkers: faces, sideMarkers: sides, trussRod: null }).split(
      '\n',
    );
    expect(page.filter((line) => line.length > 100)).toEqual([]);
    expect(page[0]).toMatch(/half the scale/);
    expect(page[1]).toMatch(/^Sum check: /);
  });

  it('has one table for each unit, the same places in both', () => {
    const inches = rowsOf(text, 'inches');
    expect(inches).toHaveLength(rows.length);
    rows.forEach((row, i) => {
      const pair = [numbersOf(row), numbersOf(inches[i] ?? '')];
      expect(Math.abs((pair[0]?.[1] ?? 0) / 25.4 - (pair[1]?.[1] ?? 0))).toBeLessThan(0.0008);
    });
  });

  it('says the datum over every column of both tables', () => {
    for (const unit of ['millimetres', 'inches']) {
      const table = tableOf(text, `Slots and face markers, in ${unit}:`);
      const heads = table.slice(
        0,
        table.findIndex((l) => l.startsWith('----')),
      );
      const words = heads.join(' ').split(/ +/).sort();
      for (const word of ['scale', 'zero', 'nut', 'face', 'slot', 'before', 'centreline', '+/-', 'cents'])
        expect(words).toContain(word);
      expect(words.filter((w) => w === (unit === 'inches' ? 'in' : 'mm')).length).toBeGreaterThanOrEqual(5);
    }
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
    expect(names[at + 1]).toEqual(['slot 5', 'after 4, before 6']);
    expect(names.filter(([what]) => what === 'marker 12').map(([, where]) => where)).toEqual([
      'slots 11 and 12, bass',
      'slots 11 and 12, treble',
    ]);
    expect(rows.filter((r) => r.startsWith('  marker 12')).map((r) => numbersOf(r)[2])).toEqual([13, 13]);
  });

  it('says the bench tolerances of its source beside the numbers', () => {
    // Common practice, no source: slots from the nut 0.10 sawn, 0.05 machined; markers 0.2.
    expect(rows.filter((r) => r.startsWith('slot')).every((r) => r.includes('0.10 / 0.05'))).toBe(true);
    expect(rows.filter((r) => r.startsWith('  marker')).every((r) => r.endsWith('0.20'))).toBe(true);
    expect(text).toContain('Programs are proven to finer ones');
    // The same in inches, to the thousandth.
    const inches = rowsOf(text, 'inches');
    expect(inches.filter((r) => r.startsWith('slot')).every((r) => r.includes('0.004 / 0.002'))).toBe(true);
    expect(inches.filter((r) => r.startsWith('  marker')).every((r) => r.endsWith('0.008'))).toBe(true);
  });

  it('says what a tenth of a millimetre means at each slot', () => {
    // 173.1 / (S - x): at the 12th of 628 mm 173.1 / 314 = 0.551 cents.
    expect(rows.find((r) => r.startsWith('slot 12 '))).toMatch(/ 0\.55$/);
    expect(rows.find((r) => r.startsWith('slot 1 '))).toMatch(/ 0\.29$/);
    // 0.004 in: 6.925 / (24.724 - 12.362) = 0.560 cents.
    expect(rowsOf(text, 'inches').find((r) => r.startsWith('slot 12 '))).toMatch(/ 0\.56$/);
    expect(flat(text)).toContain('0.1 mm in a slot’s place changes its note by 173.1 /');
    expect(flat(text)).toContain('one of 0.004 in by 6.92 /');
  });

  it('carries the reaming numbers', () => {
    expect(text).toContain('it goes 15.99 mm (0.630 in) further');
    expect(text).toContain('a drill of at most 4.851 mm (0.191 in)');
    expect(flat(text)).toContain('0.05 mm (0.002 in) of diameter is 0.95 mm (0.038 in) of height');
    expect(text).not.toContain('WARNING');
  });

  it('warns when pin and reamer differ, and says how deep a short cone goes', () => {
    const pins = { ...parlour.bridge.anchor, pinTaper: (5 * Math.PI) / 180, drill: 5 };
    const other = textOf({ ...parlour, bridge: { ...parlour.bridge, anchor: pins } });
    expect(flat(other)).toContain('WARNING: the pin’s taper (5 deg) is not the reamer’s (3 deg)');
    expect(flat(other)).toContain('5 mm (0.1969 in) is larger. The cone reaches 11.46 mm (0.451 in) deep');
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
    expect(forward).toMatch(/slot 12 .* 314\.00 +313\.50 /);
    expect(forward).toMatch(/slot 12 .* 12\.362 +12\.343 /);
    // Half the scale counts from scale zero; a rule against the nut face reads half a millimetre less.
    expect(forward.split('\n')[0]).toBe(lines[0]);
    expect(flat(forward)).toContain(
      'From the nut face slot 12 lies 313.50 mm (12.343 in): that is not half the scale, which counts from scale zero.',
    );
    expect(flat(forward)).toContain('The first difference starts at scale zero, not at the nut face.');
    expect(text).not.toMatch(/not half the scale|not at the nut face/);
  });

  it('says so when the board ends before the octave', () => {
    const short = textOf({
      ...parlour,
      frets: { ...parlour.frets, ...equalFrets(11) },
      fingerboard: { ...parlour.fingerboard, widthAt: { fret: 11, width: 56 } },
      faceMarkers: { ...parlour.faceMarkers, at: [] },
      sideMarkers: { ...parlour.sideMarkers, at: [] },
    });
    expect(short.split('\n')[0]).toBe(
      'The 11 slots end before the octave; slot 12, half the scale, would lie at 314.00 mm (12.362 in).',
    );
    // x = 628 (1 - 2^(-11/12)) = 295.33.
    expect(short.split('\n')[1]).toMatch(
      /^Sum check: the 11 differences add up to 295\.33 mm .*; slot 11 lies 295\.33 mm/,
    );
    expect(short).toContain('Side markers: none.');
  });

  it('says what can be said of a single slot', () => {
    const one = textOf({
      ...parlour,
      frets: { ...parlour.frets, ...equalFrets(1) },
      fingerboard: { ...parlour.fingerboard, widthAt: { fret: 1, width: 47 } },
      faceMarkers: { ...parlour.faceMarkers, at: [] },
      sideMarkers: { ...parlour.sideMarkers, at: [] },
      indexPins: { ...parlour.indexPins, frets: [1, 1] },
    });
    expect(one).toMatch(
      /^The only slot comes before the octave; slot 12, half the scale, would lie at 314\.00 mm/,
    );
    expect(one).toContain('Sum check: the only difference is 35.25 mm (1.388 in); slot 1 lies 35.25 mm');
    expect(one).not.toContain('Each difference');
  });

  it('gives every width, depth, drill and tolerance of the notes in both units, the profile’s own first', () => {
    for (const units of ['mm', 'in'] as const) {
      const page = textOf({ ...parlour, units });
      const [own, other] = units === 'mm' ? ['mm', 'in'] : ['in', 'mm'];
      const notes =
        flat(page).match(/Slots: .*? -0\.|Work to: .*? \(common|Reaming the .*? included\./g) ?? [];
      expect(notes).toHaveLength(3);
      const pair = new RegExp(`[\\d.]+ ${own} \\([\\d.]+ ${other}\\)`, 'g');
      for (const note of notes) {
        expect(note.match(pair)?.length).toBeGreaterThanOrEqual(2);
        expect(note.replace(pair, '')).not.toMatch(/\d (mm|in)\b/);
      }
    }
    expect(flat(textOf({ ...parlour, units: 'in' }))).toContain(
      'Slots: 0.0236 in (0.6 mm) wide, +/- 0.0008 in (0.02 mm)',
    );
  });

  it('says of each string how far it lies off the straight saddle, and its gauge in both units', () => {
    const table = tableOf(text, 'Saddle and bridge pins, in millimetres; string 1 is the bass-most:');
    expect(table.slice(0, 4).join(' ')).toMatch(/off the.*straight.*saddle/);
    const fifth = table.find((l) => l.startsWith('5 B3')) ?? '';
    // Gauge 0.016 in; equal gaps put string 5 at 0.805 of the way from 4.4 to 1.6, so 2.8 lies 0.66 behind the line.
    expect(fifth).toMatch(/^5 B3 +0\.41 +0\.016 +2\.80 +630\.80 +0\.66 /);
    expect(table.find((l) => l.startsWith('2 A2'))).toMatch(/ -0\.\d\d /);
    const inches = tableOf(text, 'Saddle and bridge pins, in inches; string 1 is the bass-most:');
    expect(inches.find((l) => l.startsWith('5 B3'))).toMatch(
      /^5 B3 +0\.016 +0\.41 +0\.110 +24\.835 +0\.026 /,
    );
    // 1731.2 / 628.
    expect(flat(text)).toContain('left uncorrected is 2.76 cents of the open string');
    expect(textOf({ ...parlour, strings: parlour.strings.slice(0, 2) })).not.toContain('left uncorrected');
  });

  it('keeps a name on one line', () => {
    expect(textOf({ ...parlour, name: 'Two\nlines\u2028here' })).toContain('Instrument: Two lines here\n');
  });

  it('holds no number that is none, and no space at a line’s end', () => {
    expect(text).not.toMatch(/NaN|Infinity|undefined|null| \n/);
  });
});

describe('wrapped text', () => {
  it('sets later lines in, keeps a number with its unit and cuts a word longer than a line', () => {
    expect(wrapText('one two three', 8)).toEqual(['one two', '  three']);
    expect(wrapText('it lies 12 mm off', 11)).toEqual(['it lies', '  12 mm off']);
    expect(wrapText('abcdefghij', 6)).toEqual(['abcd', '  efgh', '  ij']);
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
