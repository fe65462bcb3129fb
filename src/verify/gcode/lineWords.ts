/** The words of one line, in one record that is used again for every line. */
export interface LineWords {
  /** Bit per letter met, A = 1; G, M and N are kept apart. */
  letters: number;
  /** The number after each letter. */
  readonly values: Float64Array;
  /** Bit per modal group met, and the code (ten times its number) of each. */
  gGroups: number;
  readonly gCodes: Int32Array;
  mGroups: number;
  readonly mCodes: Int32Array;
  mCount: number;
  /** The line could not be read to its end: what it moves is not known. */
  broken: boolean;
  /** A refused code would have used the axis words, so they are no ordinary move. */
  axesTaken: boolean;
  /** The same for the lines after it, until the next motion word. */
  modeTaken: boolean;
  /** The number read last. */
  number: number;
}

export function emptyWords(): LineWords {
  return {
    letters: 0,
    values: new Float64Array(26),
    gGroups: 0,
    gCodes: new Int32Array(16),
    mGroups: 0,
    mCodes: new Int32Array(16),
    mCount: 0,
    broken: false,
    axesTaken: false,
    modeTaken: false,
    number: 0,
  };
}

export function clearWords(words: LineWords): void {
  words.letters = 0;
  words.gGroups = 0;
  words.mGroups = 0;
  words.mCount = 0;
  words.broken = false;
  words.axesTaken = false;
  words.modeTaken = false;
}

/** The code of a modal group on this line, or -1. */
export function gCodeOf(words: LineWords, group: number): number {
  return words.gGroups & (1 << group) ? (words.gCodes[group] as number) : -1;
}

/** The M code of a modal group on this line, or -1. */
export function mCodeOf(words: LineWords, group: number): number {
  return words.mGroups & (1 << group) ? (words.mCodes[group] as number) : -1;
}

/** The number after a letter, given as its index. */
export function wordValue(words: LineWords, letter: number): number {
  return words.values[letter] as number;
}
