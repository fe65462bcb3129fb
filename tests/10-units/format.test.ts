import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatInches, formatMm, formatNumber, formatShort } from '../../src/units/format.ts';
import { parseLength } from '../../src/units/length.ts';
import { nearest64 } from '../../src/units/stockSize.ts';

describe('digits', () => {
  it('writes fixed decimals without an exponent', () => {
    expect(formatMm(42.8625, 3)).toBe('42.862');
    expect(formatMm(1e-9, 3)).toBe('0.000');
    expect(formatNumber(123_456_789, 1)).toBe('123456789.0');
    expect(formatInches(42.8625, 4)).toBe('1.6875');
  });

  it('never writes a minus before nothing', () => {
    expect(formatMm(-0.0004, 3)).toBe('0.000');
    expect(formatMm(-0, 0)).toBe('0');
    expect(formatInches(-0.001, 3)).toBe('0.000');
    expect(formatShort(-0.0001, 2)).toBe('0');
  });

  it('drops zeros at the end only after the point', () => {
    expect(formatShort(16.5, 3)).toBe('16.5');
    expect(formatShort(100, 3)).toBe('100');
    expect(formatShort(100, 0)).toBe('100');
  });

  it('refuses what has no digits', () => {
    expect(() => formatMm(Number.NaN, 3)).toThrow('NaN');
    expect(() => formatMm(Number.POSITIVE_INFINITY, 3)).toThrow('Infinity');
    expect(() => formatMm(1e15, 3)).toThrow('1000000000000000');
  });

  it('is within half a digit of the number, whatever the number', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.integer({ min: 0, max: 6 }),
        (value, decimals) => {
          const digits = formatMm(value, decimals);
          expect(digits).toMatch(/^-?\d+(\.\d+)?$/);
          expect(Math.abs(Number(digits) - value)).toBeLessThanOrEqual(0.5 * 10 ** -decimals + 1e-9);
        },
      ),
      { seed: 20_240_506 },
    );
  });
});

describe('nearest sixty-fourth', () => {
  it('gives lowest terms and what is left', () => {
    expect(nearest64(42.8625)).toEqual({ text: '1 11/16 in', remainder: 0 });
    expect(nearest64(25.4)).toEqual({ text: '1 in', remainder: 0 });
    expect(nearest64(12.7).text).toBe('1/2 in');
    expect(nearest64(0.1)).toEqual({ text: '0 in', remainder: 0.1 });
    expect(nearest64(-12.7).text).toBe('-1/2 in');
    expect(nearest64(42.9).remainder).toBeCloseTo(0.0375, 12);
    expect(() => nearest64(Number.NaN)).toThrow('NaN');
  });

  it('reads back, and the remainder never exceeds half of a sixty-fourth', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 3000, noNaN: true }), (mm) => {
        const size = nearest64(mm);
        const back = parseLength(size.text, 'mm');
        expect(back.ok && Math.abs(back.value + size.remainder - mm)).toBeLessThan(1e-9);
        expect(Math.abs(size.remainder)).toBeLessThanOrEqual(0.1984375 + 1e-9);
      }),
      { seed: 20_240_507 },
    );
  });
});
