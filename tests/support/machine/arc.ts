import { common, feedOf, type Point, placeOf, type State, Stop, type Work } from './state.ts';
import { NO_ARC } from './straight.ts';

/** Axes of a plane in the order that turns counter-clockwise, and the one square to them. */
const AXES: Readonly<Record<number, readonly [0 | 1 | 2, 0 | 1 | 2, 0 | 1 | 2]>> = {
  17: [0, 1, 2],
  18: [2, 0, 1],
  19: [1, 2, 0],
};

function axesOf(state: State): readonly [0 | 1 | 2, 0 | 1 | 2, 0 | 1 | 2] {
  const axes = AXES[state.plane];
  if (axes === undefined) throw new Error(`plane ${state.plane}`);
  return axes;
}

/** Start and end of an arc may differ this much in their distance from its centre; more is an error (NISTIR 6556, 3.5.3.2). */
const MISMATCH = 0.002001;

/** G2 and G3, centre or radius format, circular or helical. */
export function arc(work: Work, words: ReadonlyMap<string, number>, clockwise: boolean): void {
  const { state } = work;
  const [a, b, normal] = axesOf(state);
  const letters = ['X', 'Y', 'Z'] as const;
  const offsets = ['I', 'J', 'K'] as const;
  if (words.has(offsets[normal])) throw new Stop(`${offsets[normal]} in plane ${state.plane}`);
  if (!words.has(letters[a]) && !words.has(letters[b])) throw new Stop('an arc without an end');
  const from: Point = [...state.at];
  const to = placeOf(state, words);
  const [ca, cb] = words.has('R')
    ? centreByRadius(work, words, from, to, clockwise)
    : [from[a] + offsetOf(state, words, offsets[a]), from[b] + offsetOf(state, words, offsets[b])];
  if (!words.has('R') && !words.has(offsets[a]) && !words.has(offsets[b]))
    throw new Stop('an arc without a centre');
  const radius = Math.hypot(from[a] - ca, from[b] - cb);
  const limit = state.scale === 1 ? MISMATCH : 0.00508;
  if (!(radius > 1e-6) || Math.abs(Math.hypot(to[a] - ca, to[b] - cb) - radius) > limit)
    throw new Stop('an arc that does not end on its circle');
  const a0 = Math.atan2(from[b] - cb, from[a] - ca);
  let turn = Math.atan2(to[b] - cb, to[a] - ca) - a0;
  if (Math.hypot(to[a] - from[a], to[b] - from[b]) < 1e-6) turn = clockwise ? -2 * Math.PI : 2 * Math.PI;
  else if (clockwise && turn >= 0) turn -= 2 * Math.PI;
  else if (!clockwise && turn <= 0) turn += 2 * Math.PI;
  const feed = feedOf(state, Math.hypot(radius * turn, to[normal] - from[normal]));
  pushArc(work, { from, to, ca, cb, radius, a0, turn, feed });
  state.at.splice(0, 3, ...to);
}

function offsetOf(state: State, words: ReadonlyMap<string, number>, letter: string): number {
  return (words.get(letter) ?? 0) * state.scale;
}

function centreByRadius(
  work: Work,
  words: ReadonlyMap<string, number>,
  from: Point,
  to: Point,
  clockwise: boolean,
): [number, number] {
  const [a, b] = axesOf(work.state);
  if (['I', 'J', 'K'].some((letter) => words.has(letter))) throw new Stop('R and a centre');
  const given = offsetOf(work.state, words, 'R');
  const [da, db] = [to[a] - from[a], to[b] - from[b]];
  const chord = Math.hypot(da, db);
  const square = given * given - (chord * chord) / 4;
  if (chord < 1e-6 || square < -1e-3) throw new Stop('an arc whose radius does not reach');
  const side = Math.sqrt(Math.max(0, square)) * (clockwise === given > 0 ? -1 : 1);
  return [(from[a] + to[a]) / 2 - (side * db) / chord, (from[b] + to[b]) / 2 + (side * da) / chord];
}

interface Arc {
  readonly from: Point;
  readonly to: Point;
  readonly ca: number;
  readonly cb: number;
  readonly radius: number;
  readonly a0: number;
  readonly turn: number;
  readonly feed: number;
}

/** Cuts an arc into parts that can be reckoned with: half turns lying flat, quarters standing up, chords when it leans. */
function pushArc(work: Work, arcOf: Arc): void {
  const [a, b, normal] = axesOf(work.state);
  const { from, to, ca, cb, radius, a0, turn, feed } = arcOf;
  const flat = normal === 2;
  const leans = !flat && Math.abs(to[normal] - from[normal]) > 1e-9;
  const stops = flat
    ? evenly(turn, Math.PI)
    : leans
      ? evenly(turn, 2 * Math.acos(Math.max(0.5, 1 - 0.0002 / radius)))
      : atQuarters(a0, turn);
  let start: Point = from;
  let before = 0;
  for (const share of stops) {
    const end: [number, number, number] = [0, 0, 0];
    end[a] = share === 1 ? to[a] : ca + radius * Math.cos(a0 + turn * share);
    end[b] = share === 1 ? to[b] : cb + radius * Math.sin(a0 + turn * share);
    end[normal] = from[normal] + (to[normal] - from[normal]) * share;
    const [x0, y0, z0] = start;
    const [x1, y1, z1] = end;
    const ends = { x0, y0, z0, x1, y1, z1 };
    const shared = common(work, false, feed);
    const angles = { radius, a0: a0 + turn * before, turn: turn * (share - before) };
    if (leans) work.steps.push({ shape: 'line', ...ends, ...NO_ARC, ...shared });
    else if (flat) work.steps.push({ shape: 'flat arc', ...ends, ca, cb, ...angles, ...shared });
    // Upright: the centre as its place along the plan axis, then its height.
    else if (work.state.plane === 19)
      work.steps.push({ shape: 'yz arc', ...ends, ca, cb, ...angles, ...shared });
    else work.steps.push({ shape: 'xz arc', ...ends, ca: cb, cb: ca, ...angles, ...shared });
    start = end;
    before = share;
  }
}

function evenly(turn: number, most: number): number[] {
  const count = Math.max(1, Math.ceil(Math.abs(turn) / most - 1e-9));
  return Array.from({ length: count }, (_, k) => (k + 1) / count);
}

function atQuarters(a0: number, turn: number): number[] {
  const stops: number[] = [];
  for (let k = -12; k <= 12; k += 1) {
    const share = ((k * Math.PI) / 2 - a0) / turn;
    if (share > 1e-9 && share < 1 - 1e-9) stops.push(share);
  }
  return [...stops.sort((p, q) => p - q), 1];
}
