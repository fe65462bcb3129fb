import { SAME } from './check.ts';
import type { Rect } from './types.ts';

type Axis = 'x' | 'y';

/**
 * Whether rectangles can be parted by straight cuts, each right through what is left, with a kerf of at least `kerf`.
 *
 * Any cut that parts a group may be taken: if a group can be sawn at all, so can every part of it, since leaving pieces out
 * of a workable sawing order never spoils it. So it is enough to part wherever there is a gap, and to go on in the parts.
 */
export function isGuillotine(rects: readonly Rect[], kerf: number): boolean {
  if (rects.length <= 1) return true;
  for (const axis of ['x', 'y'] as const) {
    const groups = partAlong(rects, axis, kerf);
    if (groups.length > 1) return groups.every((group) => isGuillotine(group, kerf));
  }
  return false;
}

/** Groups with a free band of one kerf between them, in order along the axis. */
function partAlong(rects: readonly Rect[], axis: Axis, kerf: number): Rect[][] {
  const sorted = [...rects].sort((a, b) => a[axis] - b[axis]);
  const groups: Rect[][] = [];
  let end = Number.NEGATIVE_INFINITY;
  for (const rect of sorted) {
    const last = groups[groups.length - 1];
    if (last === undefined || rect[axis] >= end + kerf - SAME) groups.push([rect]);
    else last.push(rect);
    end = Math.max(end, rect[axis] + sizeOf(rect, axis));
  }
  return groups;
}

function sizeOf(rect: Rect, axis: Axis): number {
  return axis === 'x' ? rect.length : rect.width;
}
