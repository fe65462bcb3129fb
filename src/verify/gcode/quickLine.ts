import { G_MOTION } from './codes.ts';
import { INDEX_F, INDEX_G, INDEX_I, INDEX_N, INDEX_X } from './letters.ts';
import { clearWords } from './lineWords.ts';
import { POWERS_OF_TEN, SHORT_DIGITS } from './number.ts';
import type { ScanTarget } from './scan.ts';

const LINE_FEED = 10;
const CARRIAGE_RETURN = 13;
const SPACE = 32;
const MINUS = 45;
const POINT = 46;
const ZERO = 48;
/** Of G0 to G3. */
const LAST_MOTION = 3;
/** The bit that makes a letter small, and the first small letter. */
const SMALL = 32;
const FIRST_LETTER = 97;

/** F, I, J, K, X, Y and Z. */
const PLAIN = (1 << INDEX_F) | (7 << INDEX_I) | (7 << INDEX_X);
const BIT_G = 1 << INDEX_G;
const BIT_N = 1 << INDEX_N;
/** Digits of a line number (NISTIR 6556, 3.3.1). */
const NUMBER_DIGITS = 5;

/** What `quickLine` returns for a line that it leaves to `scanLine`. */
export const NOT_QUICK = -1;

/**
 * Reads a line that holds a plain move and nothing else, as nearly all lines of a program do: a line number
 * perhaps, one of G0 to G3 perhaps, and some of X, Y, Z, I, J, K and F, each once. Fills in the words as
 * `scanLine` would and returns the place after the line's end; `NOT_QUICK` for any other line, and for one of
 * more than `longest` characters, which `scanLine` must then read. There must be a line feed at or after
 * `from`.
 */
export function quickLine(
  { words, gNamed }: ScanTarget,
  bytes: Uint8Array,
  from: number,
  longest: number,
): number {
  const { values, gCodes } = words;
  const first = skipSpaces(bytes, from);
  let letters = 0;
  let at = first;
  for (;;) {
    const letter = ((bytes[at] as number) | SMALL) - FIRST_LETTER;
    if (letter >>> 0 > 25) break;
    const bit = 1 << letter;
    if (bit & PLAIN & ~letters) at = quickNumber(values, letter, bytes, at + 1);
    else if (bit === BIT_G && !(letters & BIT_G)) at = quickMotion(gCodes, bytes, at + 1);
    else at = bit === BIT_N && at === first ? afterLineNumber(bytes, at + 1) : NOT_QUICK;
    if (at < 0) return NOT_QUICK;
    letters |= bit;
    if (bytes[at] === SPACE) at = skipSpaces(bytes, at + 1);
  }
  if (at - from > longest) return NOT_QUICK;
  if (bytes[at] === CARRIAGE_RETURN) at++;
  if (bytes[at] !== LINE_FEED || (letters & PLAIN) === 0) return NOT_QUICK;
  clearWords(words);
  words.letters = letters & PLAIN;
  if (letters & BIT_G) {
    words.gGroups = 1 << G_MOTION;
    gNamed[gCodes[G_MOTION] as number] = 1;
  }
  return at + 1;
}

/** The code of G0 to G3, with or without a 0 before it. */
function quickMotion(gCodes: Int32Array, bytes: Uint8Array, from: number): number {
  const at = bytes[from] === ZERO && isDigit(bytes[from + 1] as number) ? from + 1 : from;
  const motion = (bytes[at] as number) - ZERO;
  if (motion >>> 0 > LAST_MOTION) return NOT_QUICK;
  gCodes[G_MOTION] = motion * 10;
  const next = bytes[at + 1] as number;
  return isDigit(next) || next === POINT ? NOT_QUICK : at + 1;
}

function isDigit(byte: number): boolean {
  return (byte - ZERO) >>> 0 <= 9;
}

function skipSpaces(bytes: Uint8Array, from: number): number {
  let at = from;
  while (bytes[at] === SPACE) at++;
  return at;
}

/** A number without blanks and with few digits, as `readNumber` reads it, to its letter's place. */
function quickNumber(values: Float64Array, letter: number, bytes: Uint8Array, from: number): number {
  const negative = bytes[from] === MINUS;
  const first = negative ? from + 1 : from;
  let at = first;
  let whole = 0;
  let digit = (bytes[at] as number) - ZERO;
  while (digit >>> 0 <= 9) {
    whole = (whole * 10 + digit) | 0;
    digit = (bytes[++at] as number) - ZERO;
  }
  let digits = at - first;
  let size = whole;
  if (digit === POINT - ZERO) {
    const point = at;
    digit = (bytes[++at] as number) - ZERO;
    while (digit >>> 0 <= 9) {
      whole = (whole * 10 + digit) | 0;
      digit = (bytes[++at] as number) - ZERO;
    }
    digits = at - first - 1;
    // Out of range when there are too many digits, which is seen below.
    size = whole / (POWERS_OF_TEN[Math.min(at - point - 1, SHORT_DIGITS)] as number);
  }
  if (digits === 0 || digits > SHORT_DIGITS) return NOT_QUICK;
  // Not -size: a minus zero must not get out.
  values[letter] = negative ? 0 - size : size;
  return at;
}

function afterLineNumber(bytes: Uint8Array, from: number): number {
  let at = from;
  while (isDigit(bytes[at] as number)) at++;
  const digits = at - from;
  return digits >= 1 && digits <= NUMBER_DIGITS ? at : NOT_QUICK;
}
