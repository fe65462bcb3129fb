/**
 * Level passes of a flat cutter over the back of a neck. On each level the cutter clears the wood beside the line in which the level
 * meets the back, no nearer to it than its radius. Away from the back several levels are cleared at once; the steps that this leaves
 * beside the back are cut level by level afterwards.
 */
import { halfWidthAtHeight, sectionsOfBack } from '../carving/shaftBack.ts';
import type { RoughBackOperation, RouterJob } from '../machining/types.ts';
import { outside, thereAndBack } from './rows.ts';
import { thinOut } from './thinOut.ts';
import type { Move, Point } from './types.ts';

/** Most of a flat cutter's diameter taken sideways by one level pass (common practice, no source). */
const STEP_OVER = 0.45;
/** Between places at which a level's line is looked at. Millimetres. */
const LOOK = 0.25;
/** The innermost pass lies this much farther out than it must: for the straight stretches between its points. */
const APART = 0.01;
/** Passes beside the back go on so far over what the level below has cleared: no sliver stands between the two. */
const OVERLAP = 0.5;

/** Where a level meets the back. */
interface Level {
  readonly z: number;
  /** x of the cutter's centre at both ends. */
  readonly ends: readonly [number, number];
  /** |y| of the innermost pass at even steps from one end to the other. */
  readonly inner: readonly number[];
  /** Half width of what is kept at this level, at the same places. */
  readonly kept: readonly number[];
}

/** Moves of all levels, from the top down. */
export function roughBackMoves(operation: RoughBackOperation, job: RouterJob): Move[] {
  const { back, step, atOnce } = operation;
  const depth = back.top - back.least;
  const count = Math.max(1, Math.ceil(depth / step - 1e-9));
  const heights = Array.from({ length: count }, (_, k) => back.top - (depth * (k + 1)) / count);
  const groups = Array.from({ length: Math.ceil(count / atOnce) }, (_, g) =>
    heights.slice(g * atOnce, (g + 1) * atOnce),
  );
  return groups.flatMap((group) => groupMoves(group, operation, job));
}

/** The lowest level of a group over the whole width, then those above it where steps were left. */
function groupMoves(group: readonly number[], operation: RoughBackOperation, job: RouterJob): Move[] {
  const lowest = levelAt(group.at(-1) ?? Number.NaN, operation, job);
  if (lowest === null) return [];
  const edge = Math.max(...operation.box.y.map(Math.abs));
  const whole = sidesOf(lowest, () => edge, edge, operation, job);
  const steps = group.slice(0, -1).flatMap((z) => {
    const level = levelAt(z, operation, job);
    return level === null ? [] : sidesOf(level, (i) => keptUnder(lowest, level, i), null, operation, job);
  });
  return [...whole, ...steps];
}

/** Half width of what the lowest level of a group has left, at a place of a level above it. */
function keptUnder(lowest: Level, level: Level, i: number): number {
  const x = level.ends[0] + i * stepAlong(level);
  const k = Math.round((x - lowest.ends[0]) / stepAlong(lowest));
  // Past its ends stands the ramp, which the ways in and out along the ends of this level cut.
  return lowest.kept[Math.min(lowest.kept.length - 1, Math.max(0, k))] ?? 0;
}

const stepAlong = ({ ends, inner }: Level): number => (ends[1] - ends[0]) / (inner.length - 1);

/** Null where the ramps leave no way between them. */
function levelAt(z: number, { back }: RoughBackOperation, job: RouterJob): Level | null {
  const radius = (job.tool.diameter + job.tool.tolerance) / 2;
  const away = (back.top - z) / back.ramps.rise + radius + APART;
  const ends = [back.ramps.x[0] + away, back.ramps.x[1] - away] as const;
  if (ends[1] - ends[0] < 1) return null;
  const count = Math.ceil((ends[1] - ends[0]) / LOOK);
  const gap = (ends[1] - ends[0]) / count;
  const around = Math.ceil(radius / gap);
  const sectionAt = sectionsOfBack(back);
  const height = z - back.base;
  // From a radius before one end to a radius past the other.
  const lines = Array.from({ length: count + 1 + 2 * around }, (_, k) =>
    halfWidthAtHeight(sectionAt(ends[0] + (k - around) * gap), height),
  );
  const inner = Array.from({ length: count + 1 }, (_, i) => {
    let least = 0;
    for (let k = -around; k <= around; k += 1) {
      const kept = lines[i + around + k] ?? 0;
      const square = radius * radius - (k * gap) ** 2;
      if (kept > 0 && square > 0) least = Math.max(least, kept + Math.sqrt(square) + APART);
    }
    return least;
  });
  return { z, ends, inner, kept: lines.slice(around, around + count + 1) };
}

/** Passes on both sides of the middle: the innermost first, so that neither end keeps scallops for the next level to meet. */
function sidesOf(
  level: Level,
  outerAt: (i: number) => number,
  edge: number | null,
  { box }: RoughBackOperation,
  job: RouterJob,
): Move[] {
  const { diameter } = job.tool;
  const reach = level.inner.map((y, i) => {
    const outer = Math.min(outerAt(i), Math.max(...box.y.map(Math.abs)));
    return edge === null ? Math.max(0, outer + OVERLAP - diameter / 2 - y) : Math.max(0, outer - y);
  });
  const count = Math.ceil(Math.max(...reach) / (STEP_OVER * diameter) - 1e-9);
  if (edge === null && level.inner.every((y, i) => y - diameter / 2 >= outerAt(i) + OVERLAP)) return [];
  return [1, -1].flatMap((side) => {
    const rows = Array.from({ length: count + 1 }, (_, k): Point[] => {
      const share = count === 0 ? 0 : k / count;
      const points = level.inner.map((y, i) => ({
        x: level.ends[0] + i * stepAlong(level),
        y: side * (y + (reach[i] ?? 0) * share),
        z: level.z,
      }));
      return thinOut(points, APART / 2);
    });
    const [inner = [], ...others] = rows;
    const air = outside(box, side, diameter / 2);
    // Out along the other end as well: the ramp there has a step of its own.
    const out: Point = { x: level.ends[1], y: air, z: level.z };
    return thereAndBack([[...inner, out], ...others.toReversed()], air, job);
  });
}
