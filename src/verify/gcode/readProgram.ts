import { nameOfG } from './codes.ts';
import { executeLine, executePlain } from './execute.ts';
import { isBlank } from './number.ts';
import { NOT_QUICK, quickLine } from './quickLine.ts';
import { type Reading, startReading } from './reading.ts';
import { type Refusals, refuse } from './refusals.ts';
import { type ScanTarget, scanLine } from './scan.ts';
import type { Motion, ReadResult, StartState } from './types.ts';
import type { Understands } from './understands.ts';

const LINE_FEED = 10;
const CARRIAGE_RETURN = 13;
const PERCENT = 37;
/** NISTIR 6556, 3.3. */
const LONGEST_LINE = 256;
/** What is kept of a line that runs over the end of a chunk: a longest line, a CR, and one more to see it is too long. */
const KEPT = LONGEST_LINE + 2;

/** Reads a program piece by piece, so that its size does not matter. */
export interface ProgramReader {
  /** Takes the next bytes, cut anywhere. The bytes are not kept. */
  readonly push: (chunk: Uint8Array) => void;
  /** To be called once, after the last bytes. */
  readonly finish: () => ReadResult;
}

/** Where the reader is in the file. */
interface Place extends ScanTarget {
  readonly reading: Reading;
  readonly refusals: Refusals;
  /** A line whose end has not been seen yet. */
  readonly kept: Uint8Array;
  keptLength: number;
  /** A line that is not blank has been seen. */
  begun: boolean;
  /** Percent lines: none, one at the start, and the closing one. */
  percent: 'none' | 'open' | 'closed';
  /** Text after the end has been refused. */
  trailing: boolean;
}

/**
 * Reads a whole program. `start` is the state the machine happens to be in: a program that depends on it is refused.
 * The sink gets one record that is used again for every motion.
 *
 * Grammar: RS274/NGC, T. R. Kramer, F. M. Proctor, E. Messina, NISTIR 6556, 2000, less what the text alone does not
 * decide (parameters, expressions, offsets, tool tables, switches), which is refused by name.
 *
 * @example
 * const text = 'G21 G90 G94 G17 G40 G49 G54\nG0 Z5\nM2\n';
 * readProgram(new TextEncoder().encode(text), start, UNDERSTANDS_EVERYTHING, (motion) => heights.push(motion.toZ));
 */
export function readProgram(
  bytes: Uint8Array,
  start: StartState,
  understands: Understands,
  sink: (motion: Motion) => void,
): ReadResult {
  const reader = createReader(start, understands, sink);
  reader.push(bytes);
  return reader.finish();
}

/** The same, for a file that arrives in chunks. */
export function createReader(
  start: StartState,
  understands: Understands,
  sink: (motion: Motion) => void,
): ProgramReader {
  const refusals: Refusals = { line: 0, list: [] };
  const reading = startReading(start, understands, refusals, sink);
  const place: Place = {
    reading,
    refusals,
    words: reading.words,
    skipsComments: understands.comments !== false,
    named: new Set(),
    gNamed: new Uint8Array(1000),
    mNamed: new Uint8Array(100),
    kept: new Uint8Array(KEPT),
    keptLength: 0,
    begun: false,
    percent: 'none',
    trailing: false,
  };
  return { push: (chunk) => takeChunk(place, chunk), finish: () => finish(place) };
}

function takeChunk(place: Place, chunk: Uint8Array): void {
  let from = 0;
  if (place.keptLength > 0) {
    const end = chunk.indexOf(LINE_FEED);
    keepBytes(place, chunk, 0, end < 0 ? chunk.length : end);
    if (end < 0) return;
    takeKept(place);
    from = end + 1;
  }
  const last = chunk.lastIndexOf(LINE_FEED);
  while (from <= last) from = takeQuickly(place, chunk, from);
  keepBytes(place, chunk, from, chunk.length);
}

/** Takes the line that starts at a place and gives the place of the next: the short way where the line is a plain move. */
function takeQuickly(place: Place, chunk: Uint8Array, from: number): number {
  if (!place.reading.ended && place.percent !== 'closed') {
    const next = quickLine(place, chunk, from, longestOf(place));
    if (next !== NOT_QUICK) {
      place.refusals.line++;
      place.begun = true;
      executePlain(place.reading, place.words);
      return next;
    }
  }
  const end = chunk.indexOf(LINE_FEED, from);
  takeLine(place, chunk, from, end);
  return end + 1;
}

function keepBytes(place: Place, chunk: Uint8Array, from: number, to: number): void {
  const length = Math.min(to - from, KEPT - place.keptLength);
  place.kept.set(chunk.subarray(from, from + length), place.keptLength);
  place.keptLength += length;
}

function takeKept(place: Place): void {
  const length = place.keptLength;
  place.keptLength = 0;
  takeLine(place, place.kept, 0, length);
}

function takeLine(place: Place, bytes: Uint8Array, from: number, lineFeed: number): void {
  place.refusals.line++;
  const to = lineFeed > from && bytes[lineFeed - 1] === CARRIAGE_RETURN ? lineFeed - 1 : lineFeed;
  let first = from;
  while (first < to && isBlank(bytes[first] as number)) first++;
  if (first === to) return;
  if (place.reading.ended || place.percent === 'closed') takeTrailing(place, bytes, first, to);
  else if (bytes[first] === PERCENT) takePercent(place, bytes, first, to);
  else takeWords(place, bytes, from, to);
  place.begun = true;
}

function longestOf({ reading }: Place): number {
  return reading.understands.lineLength ?? LONGEST_LINE;
}

function takeWords(place: Place, bytes: Uint8Array, from: number, to: number): void {
  const { reading, words, refusals } = place;
  const longest = longestOf(place);
  if (to - from > longest) {
    refuse(refusals, 'line-length', `more than ${longest} characters`, `Lines of at most ${longest}.`);
    scanLine(place, bytes, from, from);
    words.broken = true;
  } else scanLine(place, bytes, from, to);
  executeLine(reading, words);
}

/** A line with nothing but a percent sign: the first line of the file, or the end of the program (NISTIR 6556, 3.1). */
function takePercent(place: Place, bytes: Uint8Array, first: number, to: number): void {
  if (!isLone(bytes, first, to)) {
    refuse(place.refusals, 'percent', '% and more on a line', 'A % stands alone on its line.');
  } else if (!place.begun) place.percent = 'open';
  else if (place.percent === 'open') place.percent = 'closed';
  else
    refuse(
      place.refusals,
      'percent',
      '% in the middle',
      'A % on the first line and one at the end, or none.',
    );
}

/** After the end a control reads nothing, but a person or another control may; so nothing may stand there. */
function takeTrailing(place: Place, bytes: Uint8Array, first: number, to: number): void {
  if (bytes[first] === PERCENT && isLone(bytes, first, to)) {
    if (place.percent === 'open') place.percent = 'closed';
    return;
  }
  if (place.trailing) return;
  place.trailing = true;
  refuse(place.refusals, 'after-end', 'text after the end of the program', 'Blank lines and one % line.');
}

function isLone(bytes: Uint8Array, first: number, to: number): boolean {
  for (let at = first + 1; at < to; at++) if (!isBlank(bytes[at] as number)) return false;
  return true;
}

function finish(place: Place): ReadResult {
  if (place.keptLength > 0) takeKept(place);
  const { reading, refusals } = place;
  const lines = refusals.line;
  refusals.line = 0;
  refuseOpenEnd(place);
  const { position } = reading;
  return {
    refusals: refusals.list,
    lines,
    motions: reading.motions,
    end: {
      x: position[0] as number,
      y: position[1] as number,
      z: position[2] as number,
      spindleOn: reading.turning,
      ended: reading.ended || place.percent === 'closed',
    },
    words: namesOf(place),
    tools: [...reading.toolsNamed],
    toolChanges: reading.toolChanges,
  };
}

function refuseOpenEnd(place: Place): void {
  const { refusals, reading, percent } = place;
  if (percent === 'open') {
    refuse(refusals, 'percent', 'a % line at the start and none at the end', 'Both % lines, or neither.');
  } else if (percent === 'none' && reading.understands.percentLines) {
    refuse(refusals, 'percent', 'no % lines', 'The control wants a % line first and last.');
  } else if (percent === 'none' && !reading.ended) {
    refuse(
      refusals,
      'no-end',
      'neither M2 nor M30',
      'A program ends with M2 or M30; without it, it may be cut short.',
    );
  }
}

function namesOf(place: Place): string[] {
  place.gNamed.forEach((met, code) => {
    if (met) place.named.add(nameOfG(code));
  });
  place.mNamed.forEach((met, code) => {
    if (met) place.named.add(`M${code}`);
  });
  return [...place.named].sort();
}
