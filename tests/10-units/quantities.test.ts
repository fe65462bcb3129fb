import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseAngle } from '../../src/units/angle.ts';
import {
  degreesFromRadians,
  MM_PER_INCH,
  MM_PER_INCH_RATIO,
  radiansFromDegrees,
} from '../../src/units/convert.ts';
import type { Parsed } from '../../src/units/exact.ts';
import { CONCERT_PITCH, parsePitch } from '../../src/units/pitch.ts';
import { parseSpeed } from '../../src/units/speed.ts';
import { loadFrequencyOf } from './noteLibrary.ts';

const value = (parsed: Parsed<number>): number => {
  if (!parsed.ok) throw new Error(parsed.problem);
  return parsed.value;
};
const problem = (parsed: Parsed<number>): string => (parsed.ok ? `read as ${parsed.value}` : parsed.problem);

describe('the inch', () => {
  it('is one number, written two ways', () => {
    expect(MM_PER_INCH_RATIO[0] / MM_PER_INCH_RATIO[1]).toBe(MM_PER_INCH);
  });
});

describe('angles', () => {
  it.each<[string | number, number]>([
    [3, 3],
    ['3', 3],
    ['3 deg', 3],
    ['2.5°', 2.5],
    ['1/2 degree', 0.5],
    ['-1.5 degrees', -1.5],
  ])('%j is %d degrees', (written, degrees) => {
    expect(value(parseAngle(written))).toBeCloseTo(radiansFromDegrees(degrees), 15);
  });

  // sources.md section 9, derived: 1:20 = 2.864192 deg, 1:30 = 1.909683 deg (included angles).
  it('reads a taper as the included angle of the cone', () => {
    expect(degreesFromRadians(value(parseAngle('1:20')))).toBeCloseTo(2.864192, 6);
    expect(degreesFromRadians(value(parseAngle('1 : 30')))).toBeCloseTo(1.909683, 6);
  });

  it('reads radians', () => {
    expect(value(parseAngle('0.05 rad'))).toBe(0.05);
  });

  it.each<[string | number, RegExp]>([
    ['', /empty/],
    ['1:0', /divides by zero/],
    ['3 gon', /not a unit of angle/],
    ['400 deg', /more than a full turn/],
    [Number.NaN, /not an angle/],
    ['steep', /no number in front/],
  ])('refuses %j', (written, sentence) => {
    expect(problem(parseAngle(written))).toMatch(sentence);
  });
});

describe('pitches', () => {
  // CRC Handbook of Chemistry and Physics, section 14, "musical scales", table 1 (printed to its own digits).
  it.each<[string, number, number]>([
    ['C0', 16.352, 3],
    ['C2', 65.406, 3],
    ['E2', 82.407, 3],
    ['C4', 261.63, 2],
    ['E4', 329.63, 2],
    ['C#6', 1108.73, 2],
    ['D6', 1174.66, 2],
    ['C6', 1046.5, 2],
    ['A4', 440, 9],
  ])('%s agrees with the CRC table: %d Hz', (note, hertz, digits) => {
    expect(value(parsePitch(note))).toBeCloseTo(hertz, digits);
  });

  // OEIS A329207 to A329218: decimal expansions of the equal-tempered octave at A4 = 440 Hz.
  it.each<[string, number]>([
    ['C4', 261.6255653005],
    ['C#4', 277.1826309768],
    ['D4', 293.6647679174],
    ['D#4', 311.126983722],
    ['E4', 329.6275569128],
    ['F4', 349.228231433],
    ['F#4', 369.9944227116],
    ['G4', 391.9954359817],
    ['G#4', 415.3046975799],
    ['A#4', 466.163761518],
    ['B4', 493.8833012561],
  ])('%s agrees with the OEIS expansion', (note, hertz) => {
    expect(value(parsePitch(note))).toBeCloseTo(hertz, 8);
  });

  it('agrees with an independent library on every spelling', async () => {
    const freq = await loadFrequencyOf();
    const spelling = fc.tuple(
      fc.constantFrom('C', 'D', 'E', 'F', 'G', 'A', 'B'),
      fc.constantFrom('', '#', 'b', '##', 'bb'),
      fc.integer({ min: 0, max: 8 }),
    );
    fc.assert(
      fc.property(spelling, (parts) => {
        const note = parts.join('');
        const expected = freq(note);
        if (expected === null) throw new Error(`the library does not know ${note}`);
        expect(Math.abs(value(parsePitch(note)) / expected - 1)).toBeLessThan(1e-12);
      }),
      { seed: 20_240_505 },
    );
  });

  it('follows the concert pitch', () => {
    expect(value(parsePitch('A4', 432))).toBe(432);
    expect(value(parsePitch('A3', 415))).toBe(207.5);
    expect(value(parsePitch('82.41 Hz', 415))).toBe(82.41);
    expect(CONCERT_PITCH).toBe(440);
  });

  it('reads small letters and music signs', () => {
    expect(value(parsePitch('b♭3'))).toBe(value(parsePitch('Bb3')));
    expect(value(parsePitch('bb3'))).toBe(value(parsePitch('Bb3')));
    expect(value(parsePitch('F♯3'))).toBe(value(parsePitch('F#3')));
  });

  it.each<[string | number, RegExp]>([
    ['', /empty/],
    ['E', /no octave/],
    ['H2', /not a pitch/],
    ['E2x', /not a pitch/],
    [110, /write "110 Hz"/],
    ['110', /write Hz behind it/],
    ['0 Hz', /not above zero/],
    ['-5 Hz', /not above zero/],
    ['110 mm', /not a pitch/],
    ['1/0 Hz', /not a pitch|divides by zero/],
  ])('refuses %j', (written, sentence) => {
    expect(problem(parsePitch(written))).toMatch(sentence);
  });
});

describe('speeds', () => {
  it.each<[string | number, number]>([
    [400, 400],
    ['400', 400],
    ['400 mm/min', 400],
    ['60 in/min', 1524],
    ['10 mm/s', 600],
    ['1/2 in/s', 762],
    ['1.5 m/min', 1500],
    ['-3 mm/min', -3],
  ])('%j is %d mm/min', (written, speed) => {
    expect(value(parseSpeed(written, 'mm'))).toBe(speed);
  });

  it('counts a bare number in the unit it is told', () => {
    expect(value(parseSpeed(10, 'in'))).toBe(254);
    expect(value(parseSpeed('10', 'in'))).toBe(254);
  });

  it.each<[string | number, RegExp]>([
    ['', /empty/],
    ['400 mm', /not a unit of speed/],
    ['400 /min', /not a number such as/],
    ['400 mm/min/min', /not a unit of speed/],
    ['400 mm/hour', /not a unit of speed/],
    ['400 rpm', /not a unit of speed/],
    ['fast', /no number in front/],
    [Number.NaN, /not a speed/],
    ['9999999 mm/s', /not a speed/],
  ])('refuses %j', (written, sentence) => {
    expect(problem(parseSpeed(written, 'mm'))).toMatch(sentence);
  });
});
