import { G_GROUP_OF, M_GROUP_OF, NO_GROUP, nameOfG, type RefusedCode, refusedG, refusedM } from './codes.ts';
import { BITS_REFUSED, INDEX_G, INDEX_M, INDEX_N, letterName, REFUSED_LETTERS } from './letters.ts';
import { clearWords, type LineWords } from './lineWords.ts';
import { isBlank, LARGEST_NUMBER, readNumber, skipBlanks, skipLineNumber, TOO_LARGE } from './number.ts';
import { type Refusals, refuse } from './refusals.ts';

const TAB = 9;
const CARRIAGE_RETURN = 13;
const HASH = 35;
const OPEN = 40;
const CLOSE = 41;
const SLASH = 47;
const SEMICOLON = 59;
const BRACKET = 91;
const LAST_PRINTABLE = 126;

/** "Close enough" to a whole number for a code (NISTIR 6556, 3.3.2.1). */
const CODE_SLACK = 0.0001;
/** Letters that are not kept as a letter and its number. */
const BITS_APART = BITS_REFUSED | (1 << INDEX_G) | (1 << INDEX_M) | (1 << INDEX_N);
/** NISTIR 6556, 3.3.5. */
const MOST_M_WORDS = 4;

/** What a scan needs besides the bytes; `named` collects every G and M word met. */
export interface ScanTarget {
  readonly words: LineWords;
  readonly refusals: Refusals;
  readonly named: Set<string>;
  readonly gNamed: Uint8Array;
  readonly mNamed: Uint8Array;
}

/**
 * Splits `bytes[from, to)`, one line without its end, into words (NISTIR 6556, 3.3): block delete, line number, then
 * words and comments in any order. A `;` and all after it is taken as a comment too, a common extension that is not in
 * the report. What cannot be read is refused and leaves the line marked as broken.
 */
export function scanLine(target: ScanTarget, bytes: Uint8Array, from: number, to: number): void {
  const { words } = target;
  clearWords(words);
  let at = readHead(target, bytes, from, to);
  while (at < to) {
    const byte = bytes[at] as number;
    const letter = (byte | 32) - 97;
    if (letter >= 0 && letter < 26) at = readWord(target, letter, bytes, at, to);
    else if (isBlank(byte)) at++;
    else at = readOther(target, bytes, at, to);
  }
}

function readHead(target: ScanTarget, bytes: Uint8Array, from: number, to: number): number {
  let at = skipBlanks(bytes, from, to);
  if (at < to && bytes[at] === SLASH) {
    refuse(
      target.refusals,
      'block-delete',
      '/',
      'Whether this line runs depends on a switch at the machine. Take the / out, or the line.',
    );
    at = skipBlanks(bytes, at + 1, to);
  }
  if (at >= to || ((bytes[at] as number) | 32) - 97 !== INDEX_N) return at;
  const next = skipLineNumber(bytes, at + 1, to);
  if (next >= 0) return next;
  return breakOff(
    target,
    'line-number',
    seen(bytes, at, to),
    to,
    'After N: one to five digits, no sign, no point.',
  );
}

function readWord(target: ScanTarget, letter: number, bytes: Uint8Array, at: number, to: number): number {
  const { words } = target;
  const bit = 1 << letter;
  if (bit & (BITS_APART | words.letters)) return readWordApart(target, letter, bytes, at, to);
  const next = readNumber(words, bytes, at + 1, to);
  if (next < 0) return noNumber(target, next, bytes, at, to);
  words.letters |= bit;
  words.values[letter] = words.number;
  return next;
}

/** G, M, a misplaced N, the letters that are refused, and a letter met before. */
function readWordApart(
  target: ScanTarget,
  letter: number,
  bytes: Uint8Array,
  at: number,
  to: number,
): number {
  if (BITS_REFUSED & (1 << letter)) return refusedLetter(target, letter, bytes, at, to);
  const next = readNumber(target.words, bytes, at + 1, to);
  if (next < 0) return noNumber(target, next, bytes, at, to);
  if (letter === INDEX_G) addG(target, target.words.number);
  else if (letter === INDEX_M) addM(target, target.words.number);
  else if (letter === INDEX_N) {
    refuse(target.refusals, 'line-number', seen(bytes, at, next), 'N stands first on its line, once.');
  } else {
    const name = letterName(letter);
    refuse(target.refusals, 'word-repeated', `a second ${name}`, `One ${name} on a line.`);
  }
  return next;
}

function refusedLetter(
  target: ScanTarget,
  letter: number,
  bytes: Uint8Array,
  at: number,
  to: number,
): number {
  const refused = REFUSED_LETTERS.get(letter);
  if (refused === undefined) throw new Error(`letter ${letterName(letter)} has no reason to be refused`);
  return breakOff(target, refused.rule, seen(bytes, at, to), to, refused.allowed);
}

function addG(target: ScanTarget, value: number): void {
  const { words, refusals } = target;
  const code = Math.round(value * 10);
  const whole = Math.abs(value * 10 - code) <= CODE_SLACK;
  const group = whole && code >= 0 && code < G_GROUP_OF.length ? (G_GROUP_OF[code] as number) : NO_GROUP;
  if (group === NO_GROUP) {
    addRefused(target, whole ? nameOfG(code) : `G${value}`, refusedG(whole ? code : -1));
    return;
  }
  target.gNamed[code] = 1;
  if (words.gGroups & (1 << group)) {
    const first = nameOfG(words.gCodes[group] as number);
    refuse(
      refusals,
      'group-repeated',
      `${first} and ${nameOfG(code)}`,
      'One word of a modal group on a line.',
    );
    return;
  }
  words.gGroups |= 1 << group;
  words.gCodes[group] = code;
}

function addM(target: ScanTarget, value: number): void {
  const { words, refusals } = target;
  const code = Math.round(value);
  const whole = Math.abs(value - code) <= CODE_SLACK;
  const group = whole && code >= 0 && code < M_GROUP_OF.length ? (M_GROUP_OF[code] as number) : NO_GROUP;
  if (++words.mCount === MOST_M_WORDS + 1) {
    refuse(refusals, 'too-many-m', `${words.mCount} M words`, `At most ${MOST_M_WORDS} M words on a line.`);
  }
  if (group === NO_GROUP) {
    addRefused(target, `M${whole ? code : value}`, refusedM(whole ? code : -1));
    return;
  }
  target.mNamed[code] = 1;
  if (words.mGroups & (1 << group)) {
    const found = `M${words.mCodes[group]} and M${code}`;
    refuse(refusals, 'group-repeated', found, 'One word of a modal group on a line.');
    return;
  }
  words.mGroups |= 1 << group;
  words.mCodes[group] = code;
}

function addRefused(target: ScanTarget, name: string, refused: RefusedCode): void {
  target.named.add(name);
  refuse(target.refusals, refused.rule, name, refused.allowed);
  if (refused.axes !== 'free') target.words.axesTaken = true;
  if (refused.axes === 'mode') target.words.modeTaken = true;
}

function noNumber(target: ScanTarget, why: number, bytes: Uint8Array, at: number, to: number): number {
  if (why === TOO_LARGE) {
    const found = seen(bytes, at, to);
    return breakOff(target, 'number-range', found, to, `Numbers up to ${LARGEST_NUMBER}.`);
  }
  const place = skipBlanks(bytes, at + 1, to);
  const byte = place < to ? (bytes[place] as number) : 0;
  const found = seen(bytes, at, to);
  if (byte === HASH)
    return breakOff(target, 'parameter', found, to, 'Parameters are not read. Write the number.');
  if (byte === BRACKET || isLetter(byte)) {
    return breakOff(target, 'expression', found, to, 'Expressions are not read. Write the number.');
  }
  return breakOff(target, 'number-missing', found, to, 'After a letter: sign, digits and at most one point.');
}

function isLetter(byte: number): boolean {
  const letter = (byte | 32) - 97;
  return letter >= 0 && letter < 26;
}

/** A comment, or a character that starts nothing. */
function readOther(target: ScanTarget, bytes: Uint8Array, at: number, to: number): number {
  const byte = bytes[at] as number;
  if (byte === SEMICOLON) return skipComment(target, bytes, at + 1, to, false);
  if (byte === OPEN) return skipComment(target, bytes, at + 1, to, true);
  const found = seen(bytes, at, to);
  const known = STRAY.get(byte);
  if (known !== undefined) return breakOff(target, known.rule, found, to, known.allowed);
  if (byte < 32 || byte > LAST_PRINTABLE) return breakOff(target, 'not-ascii', found, to, PRINTABLE);
  return breakOff(target, 'character', found, to, 'A word is a letter and a number.');
}

const STRAY: ReadonlyMap<number, { readonly rule: string; readonly allowed: string }> = new Map([
  [HASH, { rule: 'parameter', allowed: 'Parameters are not read. Write the number where it is used.' }],
  [BRACKET, { rule: 'expression', allowed: 'Expressions are not read. Write the number.' }],
  [SLASH, { rule: 'block-delete', allowed: 'A / stands first on a line, and is not proven there either.' }],
  [CARRIAGE_RETURN, { rule: 'line-end', allowed: 'A line ends with LF or with CR LF, not with CR alone.' }],
]);

const PRINTABLE = 'Printable ASCII characters, blanks and tabs.';

/** Skips a comment, in brackets or to the end of the line, and looks at each of its characters. */
function skipComment(
  target: ScanTarget,
  bytes: Uint8Array,
  from: number,
  to: number,
  inBrackets: boolean,
): number {
  for (let at = from; at < to; at++) {
    const byte = bytes[at] as number;
    if ((byte < 32 && byte !== TAB) || byte > LAST_PRINTABLE) {
      return breakOff(target, 'not-ascii', seen(bytes, at, to), to, PRINTABLE);
    }
    if (!inBrackets) continue;
    if (byte === CLOSE) return at + 1;
    if (byte === OPEN) {
      return breakOff(
        target,
        'comment',
        seen(bytes, at, to),
        to,
        'A comment holds no second ( before its ).',
      );
    }
  }
  if (!inBrackets) return to;
  return breakOff(
    target,
    'comment',
    seen(bytes, from - 1, to),
    to,
    'A comment closes with ) on its own line.',
  );
}

/** Refuses and gives up the rest of the line. */
function breakOff(target: ScanTarget, rule: string, found: string, to: number, allowed: string): number {
  target.words.broken = true;
  refuse(target.refusals, rule, found, allowed);
  return to;
}

const SHOWN = 24;

/** The text from `at` on, short, with what cannot be printed as its byte. */
function seen(bytes: Uint8Array, at: number, to: number): string {
  let text = '';
  for (let i = at; i < Math.min(to, at + SHOWN); i++) {
    const byte = bytes[i] as number;
    const printable = byte >= 32 && byte <= LAST_PRINTABLE;
    text += printable ? String.fromCharCode(byte) : `<${byte.toString(16).padStart(2, '0')}>`;
  }
  return to - at > SHOWN ? `${text}...` : text.trimEnd();
}
