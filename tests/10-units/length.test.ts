import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatInches, formatMm } from '../../src/units/format.ts';
import { parseLength } from '../../src/units/length.ts';

const mm = (written: string | number, bare: 'mm' | 'in' = 'mm'): number => {
  const parsed = parseLength(written, bare);
  if (!parsed.ok) throw new Error(parsed.problem);
  return parsed.value;
};

const problem = (written: string | number): string => {
  const parsed = parseLength(written, 'mm');
  return parsed.ok ? `read as ${parsed.value}` : parsed.problem;
};

describe('lengths that are read', () => {
  it.each<[string | number, number]>([
    [628, 628],
    [0.6, 0.6],
    [-3.25, -3.25],
    [1e-7, 1e-7],
    ['628', 628],
    ['.5', 0.5],
    ['5.', 5],
    ['0.6mm', 0.6],
    ['  0.6  MM ', 0.6],
    ['+2 mm', 2],
    ['-2 mm', -2],
    ['2.5 cm', 25],
    ['1.2 m', 1200],
    ['25.4 in', 645.16],
    ['3/16 in', 4.7625],
    ['3 / 16 in', 4.7625],
    ['1 11/16 in', 42.8625],
    ['1-11/16 in', 42.8625],
    ['1 3/4"', 44.45],
    ['1¾"', 44.45],
    ['½ in', 12.7],
    ['1 3/4”', 44.45],
    ['-1 1/2 in', -38.1],
    ['30 thou', 0.762],
    ['8 ft', 2438.4],
    ['16 inches', 406.4],
  ])('%j is %d mm, exactly', (written, value) => {
    expect(mm(written)).toBe(value);
  });

  it('counts a bare number in the unit it is told', () => {
    expect(mm(1.6875, 'in')).toBe(42.8625);
    expect(mm('1 11/16', 'in')).toBe(42.8625);
    expect(mm('20 mm', 'in')).toBe(20);
  });

  // ANSI/ASME B94.11M drill sizes (1/64 in steps): exact mm = inch x 25.4, e.g. 3/16 in is 4.7625 mm.
  it('reads every sixty-fourth to the exact double', () => {
    for (let count = 1; count <= 64 * 4; count++) {
      const exact = Number((BigInt(count) * 254n * 10_000_000n) / 640n) / 10_000_000;
      expect(mm(`${count}/64 in`)).toBe(exact);
      expect(mm(`${Math.floor(count / 64)} ${count % 64}/64"`)).toBe(exact);
    }
  });
});

describe('lengths that are refused', () => {
  it.each<[string | number, RegExp]>([
    ['', /^It is empty\.$/],
    ['   ', /^It is empty\.$/],
    ['mm', /no number in front/],
    ['NaN', /no number in front/],
    [Number.NaN, /not a length that can be used/],
    [Number.POSITIVE_INFINITY, /not a length that can be used/],
    ['3/0 in', /"3\/0 in" divides by zero/],
    ['1 3/000', /divides by zero/],
    ['1e3 mm', /exponent/],
    ['25,4 mm', /comma/],
    ['1.2.3 mm', /not a number such as/],
    ['1/2/3 in', /not a number such as/],
    ['1 2 mm', /not a number such as/],
    ['--3', /not a number such as/],
    ['5 mm in', /carries two units/],
    ['3 mm 2 in', /more than one number/],
    ['1 ft 2 in', /more than one number/],
    ['3 furlongs', /"furlongs" is not a unit of length/],
    ['3 mil', /means two things/],
    ['0x10', /more than one number|not a unit/],
    [1e300, /not a length that can be used/],
    [2e6, /longer than a kilometre/],
    ['1001 m', /longer than a kilometre/],
    ['99999999999999999999999999 mm', /more than 15 digits/],
  ])('%j', (written, sentence) => {
    expect(problem(written)).toMatch(sentence);
  });

  it('shows control characters as such and cuts long text', () => {
    expect(problem('5 \u001b[31mmm')).not.toContain('\u001b');
    expect(problem(`5 ${'z'.repeat(500)}`).length).toBeLessThan(100);
  });

  it('answers any text at all, quickly and without throwing', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        const parsed = parseLength(text, 'mm');
        return parsed.ok ? Number.isFinite(parsed.value) : parsed.problem.length > 0;
      }),
      { seed: 20_240_501, numRuns: 2000 },
    );
    const began = performance.now();
    problem(`${'1 '.repeat(50_000)}/2`);
    problem(' '.repeat(100_000));
    problem('1'.repeat(100_000));
    expect(performance.now() - began).toBeLessThan(500);
  });
});

describe('reading back what was written', () => {
  const written = fc.integer({ min: -1_000_000_000, max: 1_000_000_000 });

  it('gives the same length to the digits written, in millimetres', () => {
    fc.assert(
      fc.property(written, fc.integer({ min: 0, max: 5 }), (units, decimals) => {
        const value = units / 10 ** decimals;
        fc.pre(Math.abs(value) <= 1e6);
        const text = formatMm(value, decimals);
        expect(mm(`${text} mm`)).toBeCloseTo(value, 9);
        expect(formatMm(mm(text), decimals)).toBe(text);
      }),
      { seed: 20_240_502 },
    );
  });

  it('gives the same length to the digits written, in inches', () => {
    fc.assert(
      fc.property(fc.integer({ min: -39_000_000, max: 39_000_000 }), (tenThousandths) => {
        const value = mm(`${tenThousandths} thou`) / 10;
        expect(formatInches(mm(`${formatInches(value, 4)} in`), 4)).toBe(formatInches(value, 4));
      }),
      { seed: 20_240_503 },
    );
  });

  it('takes fractions, decimals and millimetres of one length for the same double', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 640 }), (count) => {
        const whole = Math.floor(count / 64);
        const decimal = (count / 64).toFixed(6);
        expect(mm(`${whole} ${count % 64}/64 in`)).toBe(mm(`${decimal} in`));
      }),
      { seed: 20_240_504 },
    );
  });
});
