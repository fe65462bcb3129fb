import { arc } from './arc.ts';
import { drill } from './drill.ts';
import { placeOf, type State, Stop, speedOf, stateOf, type Work } from './state.ts';
import { pause, straight } from './straight.ts';
import { type Line, lineOf, MOTIONS } from './text.ts';
import type { Left, Run } from './types.ts';

/** Runs a program from the state the machine was left in. */
export function runProgram(text: string, left: Left): Run {
  const work: Work = { state: stateOf(left), steps: [], pauses: [], tools: [], line: 0 };
  let stopped: string | null = null;
  for (const raw of text.split('\n')) {
    work.line += 1;
    try {
      runLine(work, lineOf(raw));
    } catch (error) {
      if (!(error instanceof Stop)) throw error;
      stopped = `line ${work.line}: ${error.message}`;
    }
    if (stopped !== null || work.state.ended) break;
  }
  const { state } = work;
  return {
    steps: work.steps,
    pauses: work.pauses,
    stopped,
    ended: state.ended,
    speed: speedOf(state),
    at: [...state.at],
    toolsNamed: work.tools,
  };
}

function runLine(work: Work, { g, m, words, error }: Line): void {
  if (error !== null) throw new Stop(error);
  if (g.length === 0 && m.length === 0 && words.size === 0) return;
  const { state } = work;
  setFeedAndSpeed(work, g, words);
  setModes(state, g);
  if (m.includes(6)) state.turning = 0;
  for (const code of m) switchSpindle(work, code);
  if (g.includes(4)) pause(work, words.get('P'));
  const motion = g.find((code) => MOTIONS.includes(code));
  if (motion !== undefined && motion !== state.motion) {
    state.motion = motion;
    for (const key of ['z', 'r', 'q', 'p', 'from'] as const) state.cycle[key] = Number.NaN;
  }
  if (['X', 'Y', 'Z'].some((letter) => words.has(letter))) move(work, words);
  else if (motion !== undefined && motion !== 80) throw new Stop(`G${motion} without a place to go`);
  if (m.includes(2) || m.includes(30)) state.ended = true;
}

function setFeedAndSpeed(work: Work, g: readonly number[], words: ReadonlyMap<string, number>): void {
  const { state } = work;
  setFeedMode(state, g);
  setFeed(state, g, words.get('F'));
  setSpeed(state, words.get('S'));
  const length = words.get('H');
  if (g.includes(43) !== (length !== undefined)) throw new Stop('G43 and H go together');
  if (length !== undefined) state.lengthOf = length;
  const tool = words.get('T');
  if (tool !== undefined) work.tools.push(tool);
}

/** Controls differ in whether a feed outlives the word, so it does not. */
function setFeedMode(state: State, g: readonly number[]): void {
  if (g.includes(94)) state.feed = Number.NaN;
  if (g.includes(93) || g.includes(94)) state.inverse = g.includes(93);
}

function setFeed(state: State, g: readonly number[], word: number | undefined): void {
  const changesUnits = (g.includes(20) && state.scale === 1) || (g.includes(21) && state.scale !== 1);
  if (changesUnits && !state.inverse) {
    state.feed = Number.NaN;
    if (word !== undefined) throw new Stop('F on the line that changes the units');
  }
  if (word === undefined) {
    if (state.inverse) state.feed = Number.NaN;
    return;
  }
  if (!(word > 0)) throw new Stop(`F${word}`);
  state.feed = state.inverse ? word : word * state.scale;
}

function setSpeed(state: State, word: number | undefined): void {
  if (word === undefined) return;
  if (!(word >= 0)) throw new Stop(`S${word}`);
  if (word !== state.speedWord) state.stood = 0;
  state.speedWord = word;
}

function setModes(state: State, g: readonly number[]): void {
  for (const code of g) SET[code]?.(state, code);
}

type SetMode = (state: State, code: number) => void;

const SET: Readonly<Record<number, SetMode>> = Object.fromEntries([
  ...each([20, 21], (state, code) => {
    state.scale = code === 20 ? 25.4 : 1;
  }),
  ...each([90, 91], (state, code) => {
    state.absolute = code === 90;
  }),
  ...each([17, 18, 19], (state, code) => {
    state.plane = code;
  }),
  ...each([61, 64], (state, code) => {
    state.exact = code === 61;
  }),
  ...each([54, 55, 56, 57, 58, 59], (state, code) => {
    state.offset = code;
  }),
  ...each([40], (state) => {
    state.cutterComp = false;
  }),
  ...each([49], (state) => {
    state.lengthOf = 0;
  }),
  ...each([98, 99], (state, code) => {
    state.highReturn = code === 98;
  }),
]);

function each(codes: readonly number[], set: SetMode): (readonly [number, SetMode])[] {
  return codes.map((code) => [code, set]);
}

function switchSpindle(work: Work, code: number): void {
  const { state } = work;
  if (code < 3 || code > 5) return;
  const turning = code === 3 ? 1 : code === 4 ? -1 : 0;
  if (turning !== 0 && Number.isNaN(state.speedWord)) throw new Stop(`M${code} before a speed`);
  if (turning !== state.turning) state.stood = 0;
  state.turning = turning;
}

function move(work: Work, words: ReadonlyMap<string, number>): void {
  const { state } = work;
  switch (state.motion) {
    case 0:
    case 1:
      straight(work, placeOf(state, words), state.motion === 0);
      return;
    case 2:
    case 3:
      arc(work, words, state.motion === 2);
      return;
    case 81:
    case 82:
    case 83:
      drill(work, words, state.motion);
      return;
    default:
      throw new Stop('axis words without a motion');
  }
}
