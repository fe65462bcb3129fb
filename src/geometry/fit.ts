import { segmentBetween } from './segment.ts';
import type { Segment, Vec } from './types.ts';
import { distance, norm, subtract } from './vec.ts';

/** An arc stands for at least so many chords, else a corner would be rounded off. */
const FEWEST = 3;
/** No arc turns farther than this, and none is wider: then it is as good as straight. Radians, millimetres. */
const WIDEST_SWEEP = (170 * Math.PI) / 180;
const LARGEST_RADIUS = 2000;

/**
 * Lines and arcs through an open chain of points, in place of many short chords: each piece starts and ends on points of the
 * chain and leaves neither them nor the chords between them by more than `tolerance` mm.
 */
export function fitWay(points: readonly Vec[], tolerance: number): Segment[] {
  const chain = points.filter((p, i) => i === 0 || distance(p, at(points, i - 1)) > 1e-9);
  const sides: Segment[] = [];
  let from = 0;
  while (from < chain.length - 1) {
    const [to, side] = farthestPiece(chain, from, tolerance);
    sides.push(side);
    from = to;
  }
  return sides;
}

/** The longest piece from a point: doubled while it fits, then narrowed down. */
function farthestPiece(chain: readonly Vec[], from: number, tolerance: number): [number, Segment] {
  const most = chain.length - 1 - from;
  let good = 1;
  let side: Segment = { kind: 'line', from: at(chain, from), to: at(chain, from + 1) };
  const tries = (count: number): boolean => {
    const fitted = pieceBetween(chain, from, from + count, tolerance);
    if (fitted === null) return false;
    side = fitted;
    good = count;
    return true;
  };
  let bad = most + 1;
  for (let count = 2; count <= most; count = Math.min(2 * count, most)) {
    if (!tries(count)) {
      // A short run may be too short for an arc and yet begin one.
      if (count > FEWEST) {
        bad = count;
        break;
      }
      if (count < FEWEST && FEWEST <= most && tries(FEWEST)) continue;
      bad = count;
      break;
    }
    if (count === most) break;
  }
  while (bad - good > 1) {
    const middle = Math.floor((good + bad) / 2);
    if (!tries(middle)) bad = middle;
  }
  return [from + good, side];
}

function pieceBetween(chain: readonly Vec[], from: number, to: number, tolerance: number): Segment | null {
  const [a, b] = [at(chain, from), at(chain, to)];
  const line: Segment = { kind: 'line', from: a, to: b };
  const inner = chain.slice(from + 1, to);
  if (distance(a, b) > 1e-9 && inner.every((p) => offLine(p, a, b) <= tolerance / 4)) return line;
  return to - from < FEWEST ? null : arcBetween(chain, from, to, tolerance);
}

function arcBetween(chain: readonly Vec[], from: number, to: number, tolerance: number): Segment | null {
  const [a, m, b] = [at(chain, from), at(chain, Math.floor((from + to) / 2)), at(chain, to)];
  const centre = circumcentre(a, m, b);
  if (centre === null) return null;
  const radius = distance(centre, a);
  const sense = Math.sign(cross(subtract(m, a), subtract(b, m)));
  if (!(radius < LARGEST_RADIUS) || sense === 0) return null;
  let sweep = 0;
  for (let i = from; i < to; i += 1) {
    const [p, q] = [subtract(at(chain, i), centre), subtract(at(chain, i + 1), centre)];
    const turn = Math.atan2(cross(p, q), p[0] * q[0] + p[1] * q[1]) * sense;
    const sagitta = radius * (1 - Math.cos(turn / 2));
    if (!(turn > 0) || sagitta > tolerance || Math.abs(norm(q) - radius) > tolerance) return null;
    sweep += turn;
  }
  if (sweep > WIDEST_SWEEP) return null;
  return segmentBetween(
    { x: a[0], y: a[1], bulge: Math.tan((sense * sweep) / 4) },
    { x: b[0], y: b[1], bulge: 0 },
  );
}

function circumcentre(a: Vec, m: Vec, b: Vec): Vec | null {
  const [p, q] = [subtract(m, a), subtract(b, a)];
  const twice = 2 * cross(p, q);
  if (Math.abs(twice) < 1e-9) return null;
  const [pp, qq] = [p[0] * p[0] + p[1] * p[1], q[0] * q[0] + q[1] * q[1]];
  return [a[0] + (q[1] * pp - p[1] * qq) / twice, a[1] + (p[0] * qq - q[0] * pp) / twice];
}

function cross(a: Vec, b: Vec): number {
  return a[0] * b[1] - a[1] * b[0];
}

function offLine(p: Vec, a: Vec, b: Vec): number {
  const along = subtract(b, a);
  const length = norm(along);
  const t = ((p[0] - a[0]) * along[0] + (p[1] - a[1]) * along[1]) / length;
  // A point behind either end would be passed twice.
  if (t < 0 || t > length) return Number.POSITIVE_INFINITY;
  return Math.abs(cross(along, subtract(p, a))) / length;
}

function at(points: readonly Vec[], index: number): Vec {
  const point = points[index];
  if (point === undefined) throw new Error(`point ${index} of a chain of ${points.length}`);
  return point;
}
