import { describe, expect, it } from 'vitest';
import { layOut } from '../../src/layout/layOut.ts';
import type { FretSlot, Layout } from '../../src/layout/types.ts';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import type { Instrument } from '../../src/profile/types.ts';
import { benchSheet } from '../../src/sheet/benchSheet.ts';
import { renderSheetText } from '../../src/sheet/renderSheetText.ts';
import { spaceStrings } from '../../src/spacing/strings.ts';
import { stringCases } from '../../src/stringing/cases.ts';
import { bundledInstrument, parlourWith, soundValue } from '../30-profile/bundled.ts';

const read = (...changes: readonly (readonly [string, string])[]): Instrument =>
  soundValue(loadInstrument(parlourWith(...changes), 'test.yaml')).value;

function laidOut(instrument: Instrument): Layout {
  const result = layOut(instrument);
  if (!result.ok) throw new Error(JSON.stringify(result.findings));
  return result.value;
}

const slotOf = (layout: Layout, id: string): FretSlot => {
  const slot = layout.slots.find((s) => s.id === id);
  if (slot === undefined) throw new Error(`no ${id} among ${layout.slots.map((s) => s.id).join(' ')}`);
  return slot;
};

/** y of a string where a square slot crosses it, by proportion along it. */
const yOn = (layout: Layout, position: number, x: number): number => {
  const { nut, saddle } = layout.strings[position - 1] ?? { nut: [0, 0] as const, saddle: [0, 0] as const };
  return nut[1] + ((saddle[1] - nut[1]) * (x - nut[0])) / (saddle[0] - nut[0]);
};

describe('courses', () => {
  it('leave the same room between courses and the asked room within, worked out by hand', () => {
    // Two pairs and a triple of 1 mm strings, 0.5 within: 7 strings, outer centres 30 apart, so 31 over all:
    // 31 - 7 x 1 - 4 x 0.5 = 22, half of it between courses: 11.
    const row = { gauges: Array<number>(7).fill(1), courses: [2, 2, 3], courseGap: 0.5 };
    const centres = spaceStrings(row, 30, 'equal gaps');
    [0, 1.5, 13.5, 15, 27, 28.5, 30].forEach((y, i) => {
      expect(centres[i]).toBeCloseTo(y, 12);
    });
  });

  it('have evenly spaced middles where centres are to be equal', () => {
    const row = { gauges: [1, 1, 2, 0.5, 0.5], courses: [2, 1, 2], courseGap: 2 };
    const y = spaceStrings(row, 40, 'equal centres');
    const middles = [((y[0] ?? 0) + (y[1] ?? 0)) / 2, y[2] ?? 0, ((y[3] ?? 0) + (y[4] ?? 0)) / 2];
    expect((middles[1] ?? 0) - (middles[0] ?? 0)).toBeCloseTo((middles[2] ?? 0) - (middles[1] ?? 0), 12);
    expect((y[1] ?? 0) - (y[0] ?? 0)).toBeCloseTo(3, 12);
    expect((y[4] ?? 0) - (y[3] ?? 0)).toBeCloseTo(2.5, 12);
    expect([y[0], y[4]]).toEqual([0, 40]);
  });

  it('are those of the bundled dulcimer: a pair and two single strings', () => {
    const dulcimer = soundValue(bundledInstrument('heather-dulcimer.yaml')).value;
    expect(dulcimer.courses).toEqual([
      { first: 1, size: 2 },
      { first: 3, size: 1 },
      { first: 4, size: 1 },
    ]);
    const { strings } = laidOut(dulcimer);
    expect(strings.map((s) => s.course)).toEqual([1, 1, 2, 3]);
    const gapAt = (i: number): number => {
      const [a, b] = [strings[i], strings[i + 1]];
      if (a === undefined || b === undefined) throw new Error('no such gap');
      return b.nut[1] - a.nut[1] - (a.gauge + b.gauge) / 2;
    };
    expect(gapAt(0)).toBeCloseTo(3, 9);
    expect(gapAt(1)).toBeCloseTo(gapAt(2), 9);
  });
});

describe('frets in pieces', () => {
  const instrument = read(
    [
      '  perOctave: 12\n',
      '  perOctave: 12\n  ownPlaces:\n    - { fret: 1, strings: [4, 5], cents: 110 }\n  partial:\n    - { fret: 19, strings: [4, 6] }\n',
    ],
    ['frets: [2, 11]', 'frets: [2, 17]'],
  );
  const layout = laidOut(instrument);

  it('stop halfway between two strings, half a gap short', () => {
    const last = slotOf(layout, 'fret-slot-19-1');
    const border = (yOn(layout, 3, last.x) + yOn(layout, 4, last.x)) / 2;
    expect(last.line[0][1]).toBeCloseTo(border + 0.5, 9);
    expect(last.ends).toEqual(['stopped', 'edge']);
    expect(last.strings).toEqual([4, 6]);
    const { at0, slope } = layout.board.halfWidth;
    expect(last.line[1][1]).toBeCloseTo(at0 + slope * last.x, 9);
    expect(last.x).toBeCloseTo(628 * (1 - 2 ** (-19 / 12)), 9);
  });

  it('are short slots of their own where strings have their own places', () => {
    const pieces = layout.slots.filter((s) => s.fret === 1);
    expect(pieces.map((s) => s.id)).toEqual(['fret-slot-01-1', 'fret-slot-01-2', 'fret-slot-01-3']);
    expect(pieces.map((s) => s.cents)).toEqual([100, 110, 100]);
    expect(pieces.map((s) => s.strings)).toEqual([
      [1, 3],
      [4, 5],
      [6, 6],
    ]);
    const own = pieces[1];
    if (own === undefined) throw new Error('no second piece');
    expect(own.x).toBeCloseTo(628 * (1 - 2 ** (-110 / 1200)), 9);
    expect(own.ends).toEqual(['stopped', 'stopped']);
    for (const position of [4, 5]) {
      const y = yOn(layout, position, own.x);
      expect(own.line[0][1] < y && y < own.line[1][1]).toBe(true);
    }
  });

  it('are what the strings are tuned by', () => {
    const cases = stringCases(instrument, layout);
    const first = cases.map(({ bench }) => 1200 * Math.log2(bench.ratios[0] ?? Number.NaN));
    [100, 100, 100, 110, 110, 100].forEach((cents, i) => {
      expect(first[i]).toBeCloseTo(cents, 9);
    });
    expect(layout.strings[3]?.fretX[0]).toBeCloseTo(628 * (1 - 2 ** (-110 / 1200)), 9);
  });

  it('are told apart on the sheet', () => {
    const text = renderSheetText(benchSheet(layout, instrument));
    expect(text).toContain('strings 4 to 5');
    expect(text).toContain('Frets: 19, on steps of 12 to the octave.');
    const { sum } = benchSheet(layout, instrument).checks;
    expect(sum.ofDifferences).toBeCloseTo(sum.lastSlot, 9);
  });
});

describe('a zero fret', () => {
  const instrument = read(
    ['  setForward: 0\n', '  zeroFret: { setBack: 4 }\n'],
    ['  firstFretBass: 0.5\n  firstFretTreble: 0.35\n', ''],
  );
  const layout = laidOut(instrument);

  it('has a slot at scale zero, and the nut and the board’s end behind it', () => {
    const zero = slotOf(layout, 'fret-slot-00');
    expect([zero.fret, zero.x, zero.cents]).toEqual([0, 0, 0]);
    expect(layout.nutFace).toBe(-4);
    expect(layout.board.outline[0]?.x).toBe(-4);
    expect(slotOf(layout, 'fret-slot-12').x).toBeCloseTo(314, 9);
    expect(layout.slots).toHaveLength(20);
  });

  it('carries the open strings: they sound from scale zero, and rise from the fret tops', () => {
    for (const { bench } of stringCases(instrument, layout)) expect(bench.nutForward).toBe(0);
    // 2.4 mm at the 12th fret, half the scale away; the first fret lies 35.2469 mm from scale zero.
    expect(instrument.targets.firstFretBass).toBeCloseTo((2.4 * 35.2469) / 314, 5);
  });

  it('is on the sheet with the nut behind it', () => {
    const text = renderSheetText(benchSheet(layout, instrument)).replace(/\s+/g, ' ');
    expect(text).toContain('4.00 mm (0.157 in) behind the zero fret');
    expect(text).toContain('zero fret after the nut, before 1 0.00 4.00');
    expect(benchSheet(layout, instrument).checks.ratio?.least).toBeCloseTo(2 ** (-1 / 12), 9);
  });
});
