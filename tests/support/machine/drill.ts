import { placeOf, type State, Stop, type Work } from './state.ts';
import { pause, straight } from './straight.ts';

/** How far above the last bottom a peck comes back at rapid: 0.010 inch in the interpreter that NIST published. */
const BACK_OFF = 0.254;

interface Hole {
  readonly bottom: number;
  readonly retract: number;
  readonly clear: number;
}

/** G81, G82, G83 written out as steps. */
export function drill(work: Work, words: ReadonlyMap<string, number>, code: number): void {
  const { state } = work;
  if (state.plane !== 17 || state.inverse) throw new Stop('a drill cycle in another plane or feed mode');
  keepNumbers(state, words);
  const times = words.get('L') ?? 1;
  if (!(Number.isInteger(times) && times > 0 && times < 1000)) throw new Stop(`L${times}`);
  const hole = holeOf(state, code);
  const across = new Map([...words].filter(([letter]) => letter === 'X' || letter === 'Y'));
  if (state.at[2] < hole.retract) straight(work, [state.at[0], state.at[1], hole.retract], true);
  for (let n = 0; n < times; n += 1) {
    const [x, y] = placeOf(state, across);
    straight(work, [x, y, state.at[2]], true);
    straight(work, [x, y, hole.retract], true);
    if (code === 83) peck(work, x, y, hole);
    straight(work, [x, y, hole.bottom], false);
    if (code === 82) pause(work, state.cycle.p);
    straight(work, [x, y, hole.clear], true);
  }
}

function keepNumbers(state: State, words: ReadonlyMap<string, number>): void {
  const { cycle } = state;
  for (const [letter, key] of [
    ['Z', 'z'],
    ['R', 'r'],
    ['Q', 'q'],
  ] as const) {
    const word = words.get(letter);
    if (word !== undefined) cycle[key] = word * state.scale;
  }
  cycle.p = words.get('P') ?? cycle.p;
  if (Number.isNaN(cycle.from)) cycle.from = state.at[2];
}

function holeOf(state: State, code: number): Hole {
  const { cycle } = state;
  if (Number.isNaN(cycle.z) || Number.isNaN(cycle.r) || (code === 83 && !(cycle.q > 0)))
    throw new Stop('a cycle without its numbers');
  const retract = state.absolute ? cycle.r : state.at[2] + cycle.r;
  const bottom = state.absolute ? cycle.z : retract + cycle.z;
  if (retract < bottom) throw new Stop('a cycle that retracts below its bottom');
  if (code === 83 && (retract - bottom) / cycle.q > 1000) throw new Stop('a thousand pecks');
  return { bottom, retract, clear: state.highReturn ? Math.max(cycle.from, retract) : retract };
}

function peck(work: Work, x: number, y: number, { bottom, retract, clear }: Hole): void {
  const { q } = work.state.cycle;
  for (let z = retract - q; z > bottom + 1e-9; z -= q) {
    straight(work, [x, y, z], false);
    straight(work, [x, y, clear], true);
    straight(work, [x, y, z + BACK_OFF], true);
  }
}
