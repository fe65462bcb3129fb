import { createTimer } from '../../src/timing/programTime.ts';
import type { MachineMotion, ProgramTime } from '../../src/timing/types.ts';
import { readProgram } from '../../src/verify/gcode/readProgram.ts';
import { UNDERSTANDS_EVERYTHING } from '../../src/verify/gcode/understands.ts';
import { HEAD, PLAIN_START, TAIL } from '../85-verify/gcode-support.ts';

/** 20 mm/s feed limits are out of the way; 200 mm/s^2; a step of 5 mm/s. */
export const machine: MachineMotion = {
  maxFeed: { xy: 60_000, z: 60_000 },
  rapid: { xy: 6000, z: 3000 },
  acceleration: { xy: 200, z: 100 },
  junctionSpeed: 300,
  straightRapids: true,
};

/** Time of the moves of `body` from x 0, y 0, z 0, as read from their text. */
export function timeOf(body: string, changes: Partial<MachineMotion> = {}, room?: number): ProgramTime {
  const timer = createTimer({ ...machine, ...changes }, room);
  const result = readProgram(
    new TextEncoder().encode(HEAD + body + TAIL),
    PLAIN_START,
    UNDERSTANDS_EVERYTHING,
    timer.add,
  );
  if (result.refusals.length > 0) throw new Error(JSON.stringify(result.refusals));
  return timer.finish();
}

/** The same in seconds. */
export const secondsOf = (body: string, changes: Partial<MachineMotion> = {}, room?: number): number =>
  timeOf(body, changes, room).minutes * 60;

export type Point = readonly [x: number, y: number];

/** Lines through points at one feed, mm/min. */
export const polyline = (points: readonly Point[], feed = 1200): string =>
  points.map(([x, y], i) => `G1 X${x.toFixed(6)} Y${y.toFixed(6)}${i === 0 ? ` F${feed}` : ''}`).join('\n');

/** Length of the way from the origin through points, mm. */
export function lengthOf(points: readonly Point[]): number {
  return points.reduce((sum, [x, y], i) => {
    const [fromX, fromY] = points[i - 1] ?? [0, 0];
    return sum + Math.hypot(x - fromX, y - fromY);
  }, 0);
}
