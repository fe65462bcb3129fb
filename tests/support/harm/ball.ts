/**
 * How low the round end of a ball cutter goes over a point of the plan during one step, in closed form.
 *
 * Along a straight step the end stands z(t) + r - sqrt(r^2 - d(t)^2) above the plan, d the distance in plan: convex, so it is lowest
 * where its slope vanishes or at an end of the stretch that covers the point. Written for the tests; the prover has a height field.
 */
import type { Step } from '../machine/types.ts';
import { placeAt, planLength } from './reach.ts';

/** Arcs are taken as chords no longer than this, mm: off by less than a hundredth of a ridge. */
const CHORD = 0.1;

/** Lowest point of the ball's end over (x, y), mm; +Infinity when it never covers it. */
export function lowestBallOver(step: Step, x: number, y: number, r: number): number {
  if (step.shape === 'line') return overLine(step, x, y, r);
  const count = Math.max(2, Math.ceil(planLength(step) / CHORD));
  let lowest = Number.POSITIVE_INFINITY;
  for (let k = 0; k < count; k += 1) {
    const [a, b] = [placeAt(step, k / count), placeAt(step, (k + 1) / count)];
    lowest = Math.min(lowest, overLine({ x0: a.x, y0: a.y, z0: a.z, x1: b.x, y1: b.y, z1: b.z }, x, y, r));
  }
  return lowest;
}

type Line = Pick<Step, 'x0' | 'y0' | 'z0' | 'x1' | 'y1' | 'z1'>;

function overLine(s: Line, x: number, y: number, r: number): number {
  const [dx, dy] = [s.x1 - s.x0, s.y1 - s.y0];
  const length = Math.hypot(dx, dy);
  if (length === 0) {
    const square = (x - s.x0) ** 2 + (y - s.y0) ** 2;
    return square > r * r ? Number.POSITIVE_INFINITY : Math.min(s.z0, s.z1) + endHeight(r, Math.sqrt(square));
  }
  const along = ((x - s.x0) * dx + (y - s.y0) * dy) / length;
  const off = ((x - s.x0) * dy - (y - s.y0) * dx) / length;
  const room = r * r - off * off;
  if (room < 0) return Number.POSITIVE_INFINITY;
  const half = Math.sqrt(room);
  const [from, to] = [Math.max(0, along - half), Math.min(length, along + half)];
  if (from > to) return Number.POSITIVE_INFINITY;
  const slope = (s.z1 - s.z0) / length;
  const best = along - (half * slope) / Math.sqrt(1 + slope * slope);
  const at = Math.min(to, Math.max(from, best));
  return s.z0 + slope * at + endHeight(r, Math.hypot(off, at - along));
}

/** Height of a ball's end above its tip, `d` from its axis. */
export function endHeight(r: number, d: number): number {
  return r - Math.sqrt(Math.max(0, r * r - d * d));
}
