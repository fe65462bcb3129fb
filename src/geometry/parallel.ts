import { segments } from './ring.ts';
import type { Ring, Segment, Vec } from './types.ts';
import { add, distance, leftNormal, scale, subtract, unit } from './vec.ts';

/** Shifted sides that end this close to the next one's start meet there. Millimetres. */
const MEETS = 1e-6;

/**
 * A ring whose sides lie `by` mm to the left of another's, arcs kept; null where its sides do not simply meet: round an outer
 * corner, between a line and an arc at a corner, or where an arc is too narrow. Whether the result crosses itself is not looked at.
 */
export function parallelRing(ring: Ring, by: number): Ring | null {
  const shifted: Segment[] = [];
  for (const side of segments(ring)) {
    const moved = shiftedSide(side, by);
    if (moved === null) return null;
    shifted.push(moved);
  }
  const starts = shifted.map((side, i) => meeting(shifted[(i || shifted.length) - 1] ?? side, side));
  const vertices = starts.map((at, i) => ({ at, side: shifted[i] }));
  if (vertices.some(({ at, side }) => at === null || side === undefined)) return null;
  return vertices.map(({ at, side }) => ({
    x: at?.[0] ?? 0,
    y: at?.[1] ?? 0,
    bulge: side?.kind === 'arc' ? Math.tan(side.sweep / 4) : 0,
  }));
}

function shiftedSide(side: Segment, by: number): Segment | null {
  if (side.kind === 'line') {
    const aside = scale(leftNormal(unit(subtract(side.to, side.from))), by);
    return { ...side, from: add(side.from, aside), to: add(side.to, aside) };
  }
  const radius = side.radius - Math.sign(side.sweep) * by;
  if (!(radius > MEETS)) return null;
  const from = (p: Vec): Vec => add(side.centre, scale(subtract(p, side.centre), radius / side.radius));
  return { ...side, radius, from: from(side.from), to: from(side.to) };
}

/** Where one shifted side goes over into the next; two lines that no longer touch, or cross, meet where they cross. */
function meeting(before: Segment, after: Segment): Vec | null {
  if (distance(before.to, after.from) <= MEETS) return after.from;
  if (before.kind === 'arc' || after.kind === 'arc') return null;
  const [u, v] = [subtract(before.to, before.from), subtract(after.to, after.from)];
  const turn = u[0] * v[1] - u[1] * v[0];
  // Round an outer corner the cutter runs on an arc.
  if (!(turn > 0)) return null;
  const off = subtract(after.from, before.from);
  return add(before.from, scale(u, (off[0] * v[1] - off[1] * v[0]) / turn));
}
