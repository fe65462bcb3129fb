import type { LineWords } from './lineWords.ts';

const TAB = 9;
const SPACE = 32;
const PLUS = 43;
const MINUS = 45;
const POINT = 46;
const ZERO = 48;
const NINE = 57;

/**
 * Up to this many digits the number without its point fits 32 bits; it and the power of ten are exact doubles, so one
 * division rounds correctly.
 */
const SHORT_DIGITS = 9;
const POWERS_OF_TEN = Float64Array.from({ length: SHORT_DIGITS + 1 }, (_, n) => 10 ** n);

export function isBlank(byte: number): boolean {
  return byte === SPACE || byte === TAB;
}

/** No machine reaches it; beyond it sums of squares lose their meaning. */
export const LARGEST_NUMBER = 1e9;

/** What `readNumber` returns instead of a place. */
export const NO_NUMBER = -1;
export const TOO_LARGE = -2;

/** First place from `at` on that is no blank. */
export function skipBlanks(bytes: Uint8Array, at: number, to: number): number {
  let next = at;
  while (next < to && isBlank(bytes[next] as number)) next++;
  return next;
}

/**
 * Reads a number into `words.number` and returns the place after it, or `NO_NUMBER` or `TOO_LARGE`. Sign, digits
 * and one point, blanks allowed anywhere between, no exponent (NISTIR 6556, 3.3.2.1).
 */
export function readNumber(words: LineWords, bytes: Uint8Array, from: number, to: number): number {
  let at = from;
  const sign = at < to ? (bytes[at] as number) : 0;
  if (sign === MINUS || sign === PLUS) at++;
  const first = at;
  let whole = 0;
  for (; at < to; at++) {
    const digit = (bytes[at] as number) - ZERO;
    if (digit >>> 0 > 9) break; // Unsigned: one comparison for both ends, a sixth of the reading time.
    whole = (whole * 10 + digit) | 0;
  }
  let digits = at - first;
  let decimals = 0;
  if (at < to && bytes[at] === POINT) {
    const point = at++;
    for (; at < to; at++) {
      const digit = (bytes[at] as number) - ZERO;
      if (digit >>> 0 > 9) break;
      whole = (whole * 10 + digit) | 0;
    }
    decimals = at - point - 1;
    digits += decimals;
  }
  const next = skipBlanks(bytes, at, to);
  // Most numbers are done here. Blanks inside one, many digits, and what is no number go the long way.
  if (digits === 0 || digits > SHORT_DIGITS || (next > at && continuesNumber(bytes, next, to))) {
    return readLongNumber(words, bytes, from, to);
  }
  const size = whole / (POWERS_OF_TEN[decimals] as number);
  // Not -size: a minus zero must not get out.
  words.number = sign === MINUS ? 0 - size : size;
  return next;
}

function continuesNumber(bytes: Uint8Array, at: number, to: number): boolean {
  if (at >= to) return false;
  const byte = bytes[at] as number;
  return byte === POINT || (byte >= ZERO && byte <= NINE);
}

/** The same for a number in any allowed form. */
function readLongNumber(words: LineWords, bytes: Uint8Array, from: number, to: number): number {
  let text = '';
  let digits = 0;
  let points = 0;
  let at = from;
  for (; at < to; at++) {
    const byte = bytes[at] as number;
    if (isBlank(byte)) continue;
    if (byte >= ZERO && byte <= NINE) digits++;
    else if (byte === POINT && points === 0) points++;
    else if (text !== '' || (byte !== PLUS && byte !== MINUS)) break;
    text += String.fromCharCode(byte);
  }
  if (digits === 0) return NO_NUMBER;
  words.number = Number(text) + 0;
  return Math.abs(words.number) <= LARGEST_NUMBER ? at : TOO_LARGE;
}

/**
 * The place after the number of an N word, or -1: one to five digits, no sign, no point (NISTIR 6556, 3.3.1).
 */
export function skipLineNumber(bytes: Uint8Array, from: number, to: number): number {
  let digits = 0;
  let at = from;
  for (; at < to; at++) {
    const byte = bytes[at] as number;
    if (byte >= ZERO && byte <= NINE) digits++;
    else if (!isBlank(byte)) break;
  }
  return digits >= 1 && digits <= 5 ? at : -1;
}
