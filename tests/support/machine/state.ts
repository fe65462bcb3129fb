import type { Left, Pause, Step } from './types.ts';

/** The machine as it stands. */
export interface State {
  scale: number;
  absolute: boolean;
  plane: number;
  inverse: boolean;
  feed: number;
  speedWord: number;
  turning: number;
  exact: boolean;
  offset: number;
  cutterComp: boolean;
  lengthOf: number;
  readonly dwell: number;
  motion: number;
  highReturn: boolean;
  stood: number;
  ended: boolean;
  readonly cycle: { z: number; r: number; q: number; p: number; from: number };
  readonly at: [number, number, number];
}

/** A run under way. */
export interface Work {
  readonly state: State;
  readonly steps: Step[];
  readonly pauses: Pause[];
  readonly tools: number[];
  line: number;
}

/** The machine stops here, for this reason. */
export class Stop extends Error {}

/** The machine before the first line. */
export function stateOf(left: Left): State {
  return {
    scale: left.scale,
    absolute: left.absolute,
    plane: left.plane,
    inverse: left.inverse,
    feed: Number.NaN,
    speedWord: Number.NaN,
    turning: 0,
    exact: left.exact,
    offset: left.offset,
    cutterComp: left.compensated,
    lengthOf: left.lengthOf,
    dwell: left.dwell,
    motion: -1,
    highReturn: !left.absolute,
    stood: 0,
    ended: false,
    cycle: { z: Number.NaN, r: Number.NaN, q: Number.NaN, p: Number.NaN, from: Number.NaN },
    at: [...left.at],
  };
}

/** S word in force; negative when it turns backward, 0 when it does not. */
export function speedOf(state: State): number {
  return state.turning === 0 || Number.isNaN(state.speedWord) ? 0 : state.turning * state.speedWord;
}

/** A place: x, y, z. */
export type Point = readonly [number, number, number];

/** Where the axis words of a line lead. */
export function placeOf(state: State, words: ReadonlyMap<string, number>): Point {
  const axis = (letter: string, k: 0 | 1 | 2): number => {
    const word = words.get(letter);
    if (word === undefined) return state.at[k];
    return word * state.scale + (state.absolute ? 0 : state.at[k]);
  };
  return [axis('X', 0), axis('Y', 1), axis('Z', 2)];
}

/** Feed along a way of this length, mm/min. */
export function feedOf(state: State, length: number): number {
  if (Number.isNaN(state.feed)) throw new Stop('a cut before a feed');
  return state.inverse ? state.feed * length : state.feed;
}

/** What every step has, whatever its shape. */
export function common(
  work: Work,
  rapid: boolean,
  feed: number,
): Pick<Step, 'rapid' | 'feed' | 'speed' | 'exact' | 'stood' | 'offset' | 'lengthOf' | 'line'> {
  const { state, line } = work;
  const offset = state.cutterComp ? 0 : state.offset;
  return {
    rapid,
    feed,
    speed: speedOf(state),
    exact: state.exact,
    stood: state.stood,
    offset,
    lengthOf: state.lengthOf,
    line,
  };
}
