import { describe, expect, it } from 'vitest';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import type { Frets } from '../../src/profile/types.ts';
import { equalSteps, listedSteps, nameFrets } from '../../src/spacing/division.ts';
import { theoryList } from '../../src/spacing/theory.ts';
import { parlourWith, soundValue } from '../30-profile/bundled.ts';

/** The parlour's frets with other words for the octave. */
const fretsWith = (...changes: readonly (readonly [string, string])[]): Frets =>
  soundValue(loadInstrument(parlourWith(...changes), 'test.yaml')).value.frets;

const centsOf = (frets: Frets): number[] => frets.list.map(({ cents }) => cents);
const DIVIDED = '  perOctave: 12\n';

describe('divisions of the octave from published theory', () => {
  it('has the quarter-comma meantone scale of Aron 1523, worked out from its fifth 5^(1/4)', () => {
    // Fifth 696.578 cents: Wikipedia "Quarter-comma meantone", citing Aron 1523. The scale was worked out from it elsewhere.
    const published = [
      76.049, 193.157, 310.265, 386.314, 503.422, 579.471, 696.578, 772.627, 889.735, 1006.843, 1082.892,
      1200,
    ];
    const { cents } = theoryList('quarter-comma meantone');
    expect(cents).toHaveLength(12);
    published.forEach((c, i) => {
      expect(cents[i]).toBeCloseTo(c, 3);
    });
    // Four of its fifths make a pure third of 5/4 and two octaves.
    expect(cents[3]).toBeCloseTo(1200 * Math.log2(5 / 4), 9);
  });

  it('has the classical five-limit ratios, as cents printed elsewhere', () => {
    const published = [
      111.7313, 203.91, 315.6413, 386.3137, 498.045, 590.2237, 701.955, 813.6863, 884.3587, 1017.5963,
      1088.2687, 1200,
    ];
    theoryList('five-limit just').cents.forEach((c, i) => {
      expect(c).toBeCloseTo(published[i] ?? Number.NaN, 4);
    });
  });

  it('has the Pythagorean ratios 256/243, 81/64, 27/16 and a pure fourth and fifth', () => {
    const { cents } = theoryList('Pythagorean');
    // Classical ratios with their cents: 90.2250, 407.8200, 905.8650.
    expect(cents[0]).toBeCloseTo(90.225, 4);
    expect(cents[3]).toBeCloseTo(407.82, 4);
    expect(cents[8]).toBeCloseTo(905.865, 4);
    expect(2 ** ((cents[4] ?? 0) / 1200)).toBeCloseTo(4 / 3, 12);
    expect(2 ** ((cents[6] ?? 0) / 1200)).toBeCloseTo(3 / 2, 12);
  });

  it('has the rule of eighteen, whose twelfth fret is 12.545 cents flat of the octave', () => {
    const { cents } = theoryList('rule of eighteen');
    expect(1200 - (cents[11] ?? 0)).toBeCloseTo(12.545, 3);
    // Each fret takes an eighteenth of the string that is left.
    const left = (c: number): number => 2 ** (-c / 1200);
    for (let i = 1; i < 12; i += 1)
      expect(left(cents[i] ?? 0) / left(cents[i - 1] ?? 0)).toBeCloseTo(17 / 18, 12);
  });

  it('is named with its source in the resolved frets, and has its octave where there is one', () => {
    const meantone = fretsWith([DIVIDED, '  theory: quarter-comma meantone\n']);
    expect(meantone.octave).toBe(12);
    expect(meantone.division).toMatchObject({ words: 'quarter-comma meantone', equal: null });
    expect(meantone.division.source).toContain('Aron 1523');
    // The list goes on above the octave.
    expect(centsOf(meantone)[12]).toBeCloseTo(1276.049, 3);
    expect(fretsWith([DIVIDED, '  theory: rule of eighteen\n']).octave).toBeNull();
  });
});

describe('divisions a profile spells out', () => {
  it('takes exact ratios: every slot at S (1 - b / a)', () => {
    const frets = fretsWith(
      [DIVIDED, '  ratios: [9/8, 5/4, 4/3, 3/2, 5/3, 15/8, 2/1]\n'],
      ['  count: 19', '  count: 17'],
      ['frets: [2, 11]', 'frets: [2, 13]'],
      ['  overhang: 9', '  overhang: 4'],
      ['  endRounding: 4', '  endRounding: 2'],
    );
    const exact = [
      8 / 9,
      4 / 5,
      3 / 4,
      2 / 3,
      3 / 5,
      8 / 15,
      1 / 2,
      4 / 9,
      2 / 5,
      3 / 8,
      1 / 3,
      3 / 10,
      4 / 15,
      1 / 4,
      2 / 9,
      1 / 5,
      3 / 16,
    ];
    centsOf(frets).forEach((c, i) => {
      expect(Math.abs(2 ** (-c / 1200) - (exact[i] ?? 0))).toBeLessThan(1e-15);
    });
    expect(frets.octave).toBe(7);
    expect(frets.division.words).toContain('9/8, 5/4, 4/3');
  });

  it('takes a list of cents that repeats from its last entry', () => {
    const steps = listedSteps([150, 350, 700]);
    expect([0, 1, 2, 3, 4, 5, 6, 7].map(steps.cents)).toEqual([0, 150, 350, 700, 850, 1050, 1400, 1550]);
  });

  it.each([
    [5, 240],
    [12, 100],
    [19, 1200 / 19],
    [31, 1200 / 31],
    [72, 1200 / 72],
  ])('divides the octave in %d equal steps', (parts, step) => {
    const { cents } = equalSteps(parts);
    expect(cents(1)).toBeCloseTo(step, 12);
    expect(cents(parts)).toBe(1200);
  });
});

describe('frets that are left out and added', () => {
  const diatonic = [2, 4, 5, 7, 9, 10, 12];
  const none = { fretted: null, added: [], leftOut: [] };

  it('are a dulcimer’s: 1 to 7 on the steps of the mode, 6+ a semitone above 6, octave at 7', () => {
    const frets = nameFrets(equalSteps(12), { ...none, count: 9, fretted: diatonic, added: ['6+', '1+'] });
    expect(frets.map(({ label }) => label)).toEqual([
      '1',
      '1+',
      '2',
      '3',
      '4',
      '5',
      '6',
      '6+',
      '7',
      '8',
      '9',
    ]);
    expect(frets.map(({ cents }) => cents)).toEqual([
      200, 300, 400, 500, 700, 900, 1000, 1100, 1200, 1400, 1600,
    ]);
  });

  it('keep the numbers of the others when a fret is left out', () => {
    const frets = nameFrets(equalSteps(12), { ...none, count: 5, leftOut: ['1', '3'] });
    expect(frets).toEqual([
      { label: '2', cents: 200 },
      { label: '4', cents: 400 },
      { label: '5', cents: 500 },
    ]);
  });

  it('stand halfway in cents where the division has no step between', () => {
    const frets = nameFrets(equalSteps(12), { ...none, count: 3, added: ['2+', '0+'] });
    expect(frets.map(({ cents }) => cents)).toEqual([50, 100, 200, 250, 300]);
  });

  it('are told by name everywhere in a profile and by place once it is read', () => {
    const instrument = soundValue(
      loadInstrument(
        parlourWith(
          [DIVIDED, '  perOctave: 12\n  halfFrets: [6+]\n'],
          ['{ fret: 12, width: 57 }', '{ fret: 12, width: 57 }'],
          ['frets: [2, 11]', 'frets: [2, 18]'],
        ),
        'test.yaml',
      ),
    ).value;
    expect(instrument.frets.count).toBe(20);
    expect(instrument.frets.list[6]).toEqual({ label: '6+', cents: 650, pieces: null });
    // Fret 12 is the thirteenth from the nut.
    expect(instrument.frets.octave).toBe(13);
    expect(instrument.fingerboard.widthAt.fret).toBe(13);
    expect(instrument.targets.actionFret).toBe(13);
    expect(instrument.indexPins.frets).toEqual([2, 19]);
    expect(instrument.faceMarkers.at.map(({ fret }) => fret)).toEqual([3, 5, 8, 10, 13, 16, 18]);
  });
});
