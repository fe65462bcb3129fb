import type { LineWords } from './lineWords.ts';

const TAB = 9;
const SPACE = 32;
const PLUS = 43;
const MINUS = 45;
const POINT = 46;
const ZERO = 48;
const NINE = 57;

/** Up to this many digits an integer and a power of ten are exact doubles, so one division rounds correctly. */
const EXACT_DIGITS = 15;
const POWERS_OF_TEN = Float64Array.from({ length: EXACT_DIGITS + 1 }, (_, n) => 10 ** n);

export function isBlank(byte: number): boolean {
  return byte === SPACE || byte === TAB;
}

/** First place from `at` on that is no blank. */
export function skipBlanks(bytes: Uint8Array, at: number, to: number): number {
  let next = at;
  while (next < to && isBlank(bytes[next] as number)) next++;
  return next;
}

/**
 * Reads a number into `words.number` and returns the place after it, or -1 when no number stands there. Sign, digits
 * and one point, blanks allowed anywhere between, no exponent (NISTIR 6556, 3.3.2.1).
 */
export function readNumber(words: LineWords, bytes: Uint8Array, from: number, to: number): number {
  let at = skipBlanks(bytes, from, to);
  const sign = at < to ? (bytes[at] as number) : 0;
  if (sign === MINUS || sign === PLUS) at++;
  const first = at;
  let whole = 0;
  let digits = 0;
  let pointAfter = -1;
  for (; at < to; at++) {
    const byte = bytes[at] as number;
    if (byte >= ZERO && byte <= NINE) {
      whole = whole * 10 + (byte - ZERO);
      digits++;
    } else if (byte === SPACE || byte === TAB) continue;
    else if (byte === POINT && pointAfter < 0) pointAfter = digits;
    else break;
  }
  if (digits === 0) return -1;
  words.number = sign === MINUS ? -size(whole, digits, pointAfter, bytes, first, at) : size(whole, digits, pointAfter, bytes, first, at);
  return at;
}

/** A number of more digits than can be added up without rounding twice. */
function longNumber(bytes: Uint8Array, from: number, to: number): number {
  let text = '';
  for (let at = from; at < to; at++) {
    const byte = bytes[at] as number;
    if (!isBlank(byte)) text += String.fromCharCode(byte);
  }
  return Number(text);
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
