/** A program's text taken apart just far enough to damage it. */
import type { Intent, StagedIntent } from '../../../src/intent/types.ts';

export interface Program {
  /** Instrument and shop it comes from, then its own name. */
  readonly name: string;
  readonly text: string;
  /** Of a program that changes tools: its first tool's, with the cuts of all. */
  readonly intent: Intent;
  readonly staged: StagedIntent | null;
}

/** A word with its place in the text. */
export interface Word {
  readonly letter: string;
  readonly digits: string;
  readonly value: number;
  readonly from: number;
  readonly to: number;
  /** Number of its line, from 0. */
  readonly line: number;
}

/** All that the damages need to know of a text, worked out once. */
export interface Parts extends Program {
  readonly lines: readonly string[];
  readonly words: readonly Word[];
  /** Numbers of lines that hold words. */
  readonly working: readonly number[];
  /** Ranges of lines [from, to) from one coming down to the next, one for each feature about. */
  readonly blocks: readonly (readonly [number, number])[];
}

export function partsOf(program: Program): Parts {
  const lines = program.text.split('\n');
  const words: Word[] = [];
  const working: number[] = [];
  let start = 0;
  lines.forEach((line, number) => {
    const bare = line.replace(/\([^)]*\)/g, (comment) => ' '.repeat(comment.length)).replace(/;.*$/, '');
    if (/[A-Z]/i.test(bare)) working.push(number);
    for (const match of bare.matchAll(/([A-Z])\s*([+-]?[\d.]+)/gi)) {
      const [whole, letter = '', digits = ''] = match;
      if (letter.toUpperCase() === 'N') continue;
      const from = start + match.index;
      words.push({
        letter: letter.toUpperCase(),
        digits,
        value: Number(digits),
        from,
        to: from + whole.length,
        line: number,
      });
    }
    start += line.length + 1;
  });
  return { ...program, lines, words, working, blocks: blocksOf(lines) };
}

/** A feature starts with its comment, or else where a program first goes aside at clear height. */
function blocksOf(lines: readonly string[]): [number, number][] {
  const body = lines.findIndex((line) => /G0?0\b.*Z|M0?5/.test(line)) + 1;
  const end = lines.findLastIndex((line) => /M0?5/.test(line));
  const isStart = (line: string): boolean => /^(N\d+ *)?[(;]/.test(line) || /G0?0 ?X[^Z]*$/.test(line);
  const hasRemarks = lines.slice(body, end).some((line) => /^(N\d+ *)?[(;]/.test(line));
  const starts = lines.flatMap((line, i) => {
    const counts = hasRemarks ? /^(N\d+ *)?[(;]/.test(line) : isStart(line);
    return i >= body && i < end && counts ? [i] : [];
  });
  return starts.map((from, k) => [from, starts[k + 1] ?? end]);
}

/** The text with one stretch of it replaced. */
export function splice(text: string, from: number, to: number, by: string): string {
  return text.slice(0, from) + by + text.slice(to);
}

/** The text with another number behind a word's letter. */
export function withDigits(text: string, word: Word, digits: string): string {
  return splice(text, word.to - word.digits.length, word.to, digits);
}

/** A number as a program would write it, with no more decimals than it may have. */
export function written(value: number, decimals = 4): string {
  const text = String(Number(value.toFixed(decimals)));
  return text === '-0' ? '0' : text;
}

/** Every word with one of some letters mapped, from one line to before another. */
export function mapWords(
  { text, words }: Parts,
  letters: string,
  map: (word: Word) => number,
  [from, to]: readonly [number, number] = [0, Number.POSITIVE_INFINITY],
): string {
  let out = '';
  let done = 0;
  for (const word of words) {
    if (!letters.includes(word.letter) || word.line < from || word.line >= to) continue;
    out += text.slice(done, word.to - word.digits.length) + written(map(word));
    done = word.to;
  }
  return out + text.slice(done);
}
