/** The best straight saddle: one line under all strings, anywhere or inside a slot that is already there. */
import { localCost, MOST_STEPS, pick, SETTLED, setCost } from './fit.ts';
import { onLine, type Saddle, type SaddleLine, type SaddleString } from './types.ts';

/** A slot that is already cut: its middle line, and how far the saddle's crown may leave it toward either side, mm. */
export interface Slot {
  readonly line: SaddleLine;
  readonly halfWidth: number;
}

/** The straight saddle's ends: set-back under the bass-most and the treble-most string. */
type Ends = readonly [bass: number, treble: number];

/** Place and angle of the straight saddle that leaves the set's errors least; with a slot, the best that fits in it. */
export function straightSaddle(strings: readonly SaddleString[], slot: Slot | null = null): Saddle {
  const span = endsOf(strings);
  let ends: Ends = slot === null ? [0, 0] : [onLine(slot.line, span[0]), onLine(slot.line, span[1])];
  for (let i = 0; i < MOST_STEPS; i += 1) {
    const next = bestEnds(strings, span, ends, slot);
    const moved = Math.max(Math.abs(next[0] - ends[0]), Math.abs(next[1] - ends[1]));
    ends = next;
    if (moved < SETTLED) return saddleOn(strings, lineThrough(span, ends));
  }
  throw new Error(`straight saddle did not settle: ${ends.join(', ')}`);
}

/** The best saddle square to the centreline: the same set-back for every string. */
export function constantSaddle(strings: readonly SaddleString[]): Saddle {
  let setBack = 0;
  for (let i = 0; i < MOST_STEPS; i += 1) {
    const local = strings.map((s) => ({ weight: s.weight, ...localCost(s, setBack) }));
    const gradient = local.reduce((sum, l) => sum + l.weight * l.gradient, 0);
    const step = -gradient / local.reduce((sum, l) => sum + l.weight * l.curvature, 0);
    setBack += step;
    if (Math.abs(step) < SETTLED) return saddleOn(strings, { atCentre: setBack, slope: 0 });
  }
  throw new Error(`square saddle did not settle: ${setBack}`);
}

/** A saddle of that line with the set-backs it gives and their cost. */
export function saddleOn(strings: readonly SaddleString[], line: SaddleLine): Saddle {
  const setBacks = strings.map((s) => onLine(line, s.y));
  return { line, setBacks, cost: setCost(strings, setBacks) };
}

function endsOf(strings: readonly SaddleString[]): Ends {
  const across = strings.map((s) => s.y);
  if (across.length === 0) throw new Error('no strings over the saddle');
  return [Math.min(...across), Math.max(...across)];
}

function lineThrough([yBass, yTreble]: Ends, [bass, treble]: Ends): SaddleLine {
  const slope = yBass === yTreble ? 0 : (treble - bass) / (yTreble - yBass);
  return { atCentre: bass - slope * yBass, slope };
}

/** The quadratic that the cost is near those ends: half gradient and half curvature, [bass, treble]. */
interface Quadratic {
  readonly gradient: Ends;
  readonly curvature: readonly [bass: number, both: number, treble: number];
}

function quadraticAt(strings: readonly SaddleString[], span: Ends, ends: Ends): Quadratic {
  const line = lineThrough(span, ends);
  const sum = { b: 0, t: 0, bb: 0, bt: 0, tt: 0 };
  for (const string of strings) {
    const share = span[0] === span[1] ? 0 : (string.y - span[0]) / (span[1] - span[0]);
    const { gradient, curvature } = localCost(string, onLine(line, string.y));
    const [g, h] = [string.weight * gradient, string.weight * curvature];
    sum.b += g * (1 - share);
    sum.t += g * share;
    sum.bb += h * (1 - share) ** 2;
    sum.bt += h * share * (1 - share);
    sum.tt += h * share ** 2;
  }
  return { gradient: [sum.b, sum.t], curvature: [sum.bb, sum.bt, sum.tt] };
}

function bestEnds(strings: readonly SaddleString[], span: Ends, ends: Ends, slot: Slot | null): Ends {
  const quadratic = quadraticAt(strings, span, ends);
  const room = (y: number, end: number): readonly [number, number] => {
    if (slot === null) return [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
    const middle = onLine(slot.line, y);
    return [middle - slot.halfWidth - end, middle + slot.halfWidth - end];
  };
  const step = leastInBox(quadratic, room(span[0], ends[0]), room(span[1], ends[1]));
  return [ends[0] + step[0], ends[1] + step[1]];
}

/**
 * The least point of a quadratic inside a box. Its free minimum if that lies inside; otherwise the least of the minima along
 * the four sides. Where only one end matters (a single string counts) both ends move alike.
 */
function leastInBox(q: Quadratic, boxB: readonly [number, number], boxT: readonly [number, number]): Ends {
  const [bb, bt, tt] = q.curvature;
  const [gb, gt] = q.gradient;
  const determinant = bb * tt - bt * bt;
  const free: Ends =
    determinant > 1e-12 * (bb + tt) ** 2
      ? [(bt * gt - tt * gb) / determinant, (bt * gb - bb * gt) / determinant]
      : alike(-(gb + gt) / (bb + 2 * bt + tt));
  if (inside(free[0], boxB) && inside(free[1], boxT)) return free;
  const value = ([b, t]: Ends): number => 2 * (gb * b + gt * t) + bb * b * b + 2 * bt * b * t + tt * t * t;
  const alongT = (b: number): Ends => [b, tt > 0 ? clamp(-(gt + bt * b) / tt, boxT) : clamp(free[1], boxT)];
  const alongB = (t: number): Ends => [bb > 0 ? clamp(-(gb + bt * t) / bb, boxB) : clamp(free[0], boxB), t];
  const sides = [alongT(boxB[0]), alongT(boxB[1]), alongB(boxT[0]), alongB(boxT[1])];
  return sides.reduce((best, side) => (value(side) < value(best) ? side : best), pick(sides, 0));
}

const alike = (step: number): Ends => [step, step];
const inside = (value: number, [low, high]: readonly [number, number]): boolean =>
  value >= low && value <= high;
const clamp = (value: number, [low, high]: readonly [number, number]): number =>
  Math.min(high, Math.max(low, value));
