/** Letters of words as indices (A is 0) and as bits of a mask. */

const index = (letter: string): number => letter.charCodeAt(0) - 65;
const bit = (letter: string): number => 1 << index(letter);

export const INDEX_F = index('F');
export const INDEX_G = index('G');
export const INDEX_H = index('H');
/** I, J, K follow each other: the offset for axis 0, 1, 2 is `INDEX_I + axis`. */
export const INDEX_I = index('I');
export const INDEX_L = index('L');
export const INDEX_M = index('M');
export const INDEX_N = index('N');
export const INDEX_P = index('P');
export const INDEX_Q = index('Q');
export const INDEX_R = index('R');
export const INDEX_S = index('S');
export const INDEX_T = index('T');
/** X, Y, Z follow each other: the word of axis 0, 1, 2 is `INDEX_X + axis`. */
export const INDEX_X = index('X');

export const BIT_F = bit('F');
export const BIT_H = bit('H');
export const BIT_L = bit('L');
export const BIT_P = bit('P');
export const BIT_Q = bit('Q');
export const BIT_R = bit('R');
export const BIT_S = bit('S');
export const BIT_T = bit('T');
export const BITS_XYZ = bit('X') | bit('Y') | bit('Z');
export const BITS_IJK = bit('I') | bit('J') | bit('K');

export function letterName(letter: number): string {
  return String.fromCharCode(65 + letter);
}

/** The letters of a mask, as `X, Y`. */
export function letterNames(mask: number): string {
  const names: string[] = [];
  for (let letter = 0; letter < 26; letter++) if (mask & (1 << letter)) names.push(letterName(letter));
  return names.join(', ');
}

const TOOL_TABLE =
  'It takes a number from a table in the machine. Write the path of the tool itself, with G40 and G49.';
const ROTARY = 'Only X, Y and Z are proven. Take rotary axes out.';
const FOREIGN = 'It is no letter of the published language (NISTIR 6556, table 3). Take it out.';

/** Letters that are refused whatever number follows, with the reason. */
export const REFUSED_LETTERS: ReadonlyMap<number, { readonly rule: string; readonly allowed: string }> =
  new Map([
    ...['A', 'B', 'C'].map((name) => [index(name), { rule: 'rotary-axis', allowed: ROTARY }] as const),
    [index('D'), { rule: 'tool-table', allowed: TOOL_TABLE }],
    ...['E', 'U', 'V', 'W'].map(
      (name) => [index(name), { rule: 'letter-unknown', allowed: FOREIGN }] as const,
    ),
    [
      index('O'),
      { rule: 'subroutine', allowed: 'Subroutines and loops are not read. Write the moves out one by one.' },
    ],
  ]);

/** Bit per letter of `REFUSED_LETTERS`, for a quick look. */
export const BITS_REFUSED = [...REFUSED_LETTERS.keys()].reduce((mask, letter) => mask | (1 << letter), 0);
