/** Lengths as a builder writes them, to millimetres. */
import type Fraction from 'fraction.js';
import { MM_PER_INCH_RATIO } from './convert.ts';
import { exactOf, type Parsed, quote, readMeasure, refuse } from './exact.ts';

/** How a length may be written, for error messages. */
export const LENGTH_FORMS =
  'a number in the file\'s own unit, or with its unit: 628, 0.6 mm, 25.4 in, 3/16 in, 1 11/16 in, 1 3/4", 30 thou';

/** A kilometre: anything longer is a typing accident. */
const LONGEST = 1e6;

type Ratio = readonly [over: number, under: number];
const [inchOver, inchUnder] = MM_PER_INCH_RATIO;

/** Exact millimetres in one of each unit. */
const MM_PER: Readonly<Record<string, Ratio>> = {
  mm: [1, 1],
  cm: [10, 1],
  m: [1000, 1],
  in: [inchOver, inchUnder],
  inch: [inchOver, inchUnder],
  inches: [inchOver, inchUnder],
  '"': [inchOver, inchUnder],
  '″': [inchOver, inchUnder],
  '”': [inchOver, inchUnder],
  ft: [inchOver * 12, inchUnder],
  thou: [inchOver, inchUnder * 1000],
};

/**
 * Millimetres of a written length; a bare number counts in `bare`. Negative lengths are read as such.
 * @example parseLength('1 11/16 in', 'mm') // { ok: true, value: 42.8625 }
 */
export function parseLength(written: string | number, bare: 'mm' | 'in'): Parsed<number> {
  if (typeof written === 'number') return parseBare(written, bare);
  const measure = readMeasure(written);
  if (!measure.ok) return measure;
  const { amount, unit } = measure.value;
  const ratio = MM_PER[unit === '' ? bare : unit.toLowerCase()];
  if (ratio === undefined) return refuse(unknownUnit(unit, written));
  return checkSize(amount, ratio, written);
}

function parseBare(value: number, bare: 'mm' | 'in'): Parsed<number> {
  const exact = exactOf(value);
  if (exact === null) return refuse(`${quote(String(value))} is not a length that can be used.`);
  return checkSize(exact, MM_PER[bare] ?? [1, 1], String(value));
}

function checkSize(amount: Fraction, [over, under]: Ratio, written: string): Parsed<number> {
  const value = amount.mul(over).div(under).valueOf();
  if (Math.abs(value) > LONGEST) return refuse(`${quote(written)} is longer than a kilometre.`);
  return { ok: true, value };
}

function unknownUnit(unit: string, written: string): string {
  if (/^mils?$/i.test(unit)) return `${quote(written)}: "mil" means two things; write thou or mm.`;
  const words = unit.split(/[\s+]+/u);
  if (words.length > 1 && words.every((word) => MM_PER[word.toLowerCase()] !== undefined)) {
    return `${quote(written)} carries two units; write one.`;
  }
  return `${quote(unit)} is not a unit of length.`;
}
