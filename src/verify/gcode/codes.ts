/**
 * G and M codes and their modal groups, NISTIR 6556 (Kramer, Proctor, Messina, 2000), table 4. A G code is kept
 * as ten times its number, so that G38.2 is 382.
 */

export const G_NONMODAL = 0;
export const G_MOTION = 1;
export const G_PLANE = 2;
export const G_DISTANCE = 3;
export const G_FEED_MODE = 5;
export const G_UNITS = 6;
export const G_COMPENSATION = 7;
export const G_LENGTH = 8;
export const G_RETURN = 10;
export const G_OFFSET = 12;
export const G_PATH = 13;

export const M_STOP = 4;
export const M_TOOL = 6;
export const M_SPINDLE = 7;
export const M_COOLANT = 8;

/** What the tables hold for a code that is not accepted. */
export const NO_GROUP = 255;

const G_CODES: readonly (readonly [number, readonly number[]])[] = [
  [G_NONMODAL, [40]],
  [G_MOTION, [0, 10, 20, 30, 800, 810, 820, 830]],
  [G_PLANE, [170, 180, 190]],
  [G_DISTANCE, [900, 910]],
  [G_FEED_MODE, [930, 940]],
  [G_UNITS, [200, 210]],
  [G_COMPENSATION, [400]],
  [G_LENGTH, [430, 490]],
  [G_RETURN, [980, 990]],
  [G_OFFSET, [540, 550, 560, 570, 580, 590]],
  [G_PATH, [610, 640]],
];

const M_CODES: readonly (readonly [number, readonly number[]])[] = [
  [M_STOP, [2, 30]],
  [M_TOOL, [6]],
  [M_SPINDLE, [3, 4, 5]],
  [M_COOLANT, [7, 8, 9]],
];

/** Group of a G code (ten times its number), or `NO_GROUP`. */
export const G_GROUP_OF = tableOf(G_CODES, 1000);
/** Group of an M code, or `NO_GROUP`. */
export const M_GROUP_OF = tableOf(M_CODES, 100);

function tableOf(codes: readonly (readonly [number, readonly number[]])[], size: number): Uint8Array {
  const table = new Uint8Array(size).fill(NO_GROUP);
  for (const [group, members] of codes) for (const code of members) table[code] = group;
  return table;
}

/**
 * `axes`: what the code would have done with the axis words: `free` leaves them to the motion word in force, `line` takes
 * those of its own line, `mode` takes those of the lines after it too.
 */
export interface RefusedCode {
  readonly rule: string;
  readonly allowed: string;
  readonly axes: 'free' | 'line' | 'mode';
}

const ORIGIN = 'It moves the origin of the coordinates. State every place from the work zero, in G54.';
const HOME =
  'It goes to a place stored in the machine, which the text does not show. Write the place as a G0 move.';
const PROBE = 'Where a probe stops is not in the text. Touch off by hand before the program.';
const CUTTER =
  'It takes the tool radius from a table in the machine. Write the path of the tool itself, with G40.';
const MACHINE =
  'Where machine zero lies is not in the text. State the place from the work zero, without G53.';
const OFFSET = 'Only the six work offsets G54 to G59 are read.';
const EXACT_STOP = 'Stops at every corner are not proven. Write G61 or G64.';
const CYCLE = 'Only the drill cycles G81, G82 and G83 are proven. Write the moves out.';
const PAUSE =
  'What is done by hand during a stop cannot be proven. End the program here and go on in a second program.';
const OVERRIDE = 'The speed and feed switches belong to the person at the machine. Take it out.';

const G_REFUSED: readonly (readonly [readonly number[], RefusedCode])[] = [
  [[100], { rule: 'origin-moved', allowed: ORIGIN, axes: 'line' }],
  [[920, 921, 922, 923], { rule: 'origin-moved', allowed: ORIGIN, axes: 'line' }],
  [[280, 300], { rule: 'stored-place', allowed: HOME, axes: 'line' }],
  [[382], { rule: 'probe', allowed: PROBE, axes: 'mode' }],
  [[410, 420], { rule: 'tool-table', allowed: CUTTER, axes: 'free' }],
  [[530], { rule: 'machine-coordinates', allowed: MACHINE, axes: 'line' }],
  [[591, 592, 593], { rule: 'other-offset', allowed: OFFSET, axes: 'free' }],
  [[611], { rule: 'exact-stop', allowed: EXACT_STOP, axes: 'free' }],
  [[840, 850, 860, 870, 880, 890], { rule: 'cycle-unproven', allowed: CYCLE, axes: 'mode' }],
];

const M_REFUSED: readonly (readonly [readonly number[], RefusedCode])[] = [
  [[0, 1, 60], { rule: 'stop', allowed: PAUSE, axes: 'free' }],
  [[48, 49], { rule: 'override', allowed: OVERRIDE, axes: 'free' }],
];

const UNKNOWN: RefusedCode = {
  rule: 'code-unknown',
  allowed: 'It is no code of the published language (NISTIR 6556, tables 5 and 7). Take it out.',
  axes: 'mode',
};

/** Why a G code (ten times its number) that has no group is refused. */
export function refusedG(code: number): RefusedCode {
  return G_REFUSED.find(([codes]) => codes.includes(code))?.[1] ?? UNKNOWN;
}

/** Why an M code that has no group is refused. */
export function refusedM(code: number): RefusedCode {
  return M_REFUSED.find(([codes]) => codes.includes(code))?.[1] ?? UNKNOWN;
}

/** `G17`, `G38.2`: the name of ten times a code. */
export function nameOfG(code: number): string {
  return `G${code % 10 === 0 ? code / 10 : (code / 10).toFixed(1)}`;
}
