/**
 * Reads what a person writes for a number: `12`, `0.6`, `3/16`, `1 11/16`, `1-11/16`, `1½`. Kept as an exact fraction
 * until the unit has been applied, so that 1 11/16 in is 42.8625 mm and not its neighbour.
 */
import Fraction from 'fraction.js';

export type Parsed<T> =
  | { readonly ok: true; readonly value: T }
  /** `problem` is a sentence that quotes what was written. */
  | { readonly ok: false; readonly problem: string };

/** A number with the unit's name that follows it, still to be looked up. */
export interface Measure {
  readonly amount: Fraction;
  readonly unit: string;
}

const VULGAR: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

/** Longest digit run that is read; longer ones are typing accidents and would cost big-number time. */
const MOST_DIGITS = 15;
const DECIMAL = /^\d*\.?\d*$/;
const FRACTION = /^(?:(\d+)[ -])?(\d+)\/(\d+)$/;

export const refuse = (problem: string): { readonly ok: false; readonly problem: string } => ({
  ok: false,
  problem,
});

/** What was written, in quotes, cut short when it is long, control characters made visible. */
export function quote(text: string): string {
  const visible = text.replace(/[\p{Cc}\p{Zl}\p{Zp}]/gu, '\u{fffd}');
  const letters = [...visible];
  return `"${letters.length > 40 ? `${letters.slice(0, 40).join('')}...` : visible}"`;
}

/**
 * Splits a written quantity into an exact number and the unit's name behind it ('' when there is none).
 * @example readMeasure('1 11/16 in') // amount 27/16, unit 'in'
 */
export function readMeasure(written: string): Parsed<Measure> {
  const text = spellFractions(written).trim();
  if (text === '') return refuse('It is empty.');
  const cut = /^([-+]?[\d.,/ -]*)(.*)$/su.exec(text);
  const digits = (cut?.[1] ?? '').trim();
  const unit = (cut?.[2] ?? '').trim();
  if (!/\d/.test(digits)) return refuse(`${quote(written)} has no number in front.`);
  if (/^e[-+]?\d/i.test(unit)) return refuse(`${quote(written)} has an exponent; write the number out.`);
  if (/\d/.test(unit)) return refuse(`${quote(written)} holds more than one number with a unit; write one.`);
  const amount = readNumber(digits, written);
  return amount.ok ? { ok: true, value: { amount: amount.value, unit } } : amount;
}

/** The exact value of a number that YAML has already read; null when it is not one that can be used. */
export function exactOf(value: number): Fraction | null {
  if (!Number.isFinite(value) || Math.abs(value) >= 1e15) return null;
  // Below 1e-6 JavaScript writes an exponent; 20 decimals hold what matters of such a number.
  const text = String(value);
  return new Fraction(text.includes('e') ? value.toFixed(20) : text);
}

function spellFractions(text: string): string {
  const spelt = text.replace(/[½¼¾⅛⅜⅝⅞]/gu, (sign) => ` ${VULGAR[sign] ?? sign}`);
  return spelt.replace(/\s+/gu, ' ').replace(/ ?\/ ?(?=\d)/gu, '/');
}

function readNumber(digits: string, written: string): Parsed<Fraction> {
  const negative = digits.startsWith('-');
  const plain = digits.replace(/^[-+] ?/, '');
  if (plain.includes(',')) return refuse(`${quote(written)} has a comma; write a point for the decimals.`);
  if (/\d{16}/.test(plain)) {
    return refuse(`${quote(written)} has a number of more than ${MOST_DIGITS} digits.`);
  }
  const size = readSize(plain);
  if (size === 'divides by zero') return refuse(`${quote(written)} divides by zero.`);
  if (size === null) return refuse(`${quote(written)} is not a number such as 12, 0.6, 3/16 or 1 11/16.`);
  return { ok: true, value: negative ? size.neg() : size };
}

function readSize(plain: string): Fraction | 'divides by zero' | null {
  if (DECIMAL.test(plain))
    return new Fraction(plain.startsWith('.') ? `0${plain}` : plain.replace(/\.$/, ''));
  const parts = FRACTION.exec(plain);
  if (parts === null) return null;
  const [, whole = '0', over = '', under = ''] = parts;
  if (/^0+$/.test(under)) return 'divides by zero';
  return new Fraction(over).div(under).add(whole);
}
