import { common, feedOf, type Point, Stop, speedOf, type Work } from './state.ts';

/** The fields of an arc, of a step that is none. */
export const NO_ARC = { ca: 0, cb: 0, radius: 0, a0: 0, turn: 0 } as const;

/** One straight step; nothing when nothing moves. */
export function straight(work: Work, to: Point, rapid: boolean): void {
  const { at } = work.state;
  const [x0, y0, z0] = at;
  const [x1, y1, z1] = to;
  const length = Math.hypot(x1 - x0, y1 - y0, z1 - z0);
  if (length === 0) return;
  const feed = rapid ? 0 : feedOf(work.state, length);
  work.steps.push({ shape: 'line', x0, y0, z0, x1, y1, z1, ...NO_ARC, ...common(work, rapid, feed) });
  work.state.at.splice(0, 3, x1, y1, z1);
}

/** Stands still. */
export function pause(work: Work, seconds: number | undefined): void {
  if (seconds === undefined || !(seconds >= 0)) throw new Stop('G4 without P');
  const { state } = work;
  const time = seconds * state.dwell;
  state.stood += time;
  const [x, y, z] = state.at;
  work.pauses.push({ seconds: time, speed: speedOf(state), x, y, z });
}
