import type { SawCut } from '../../cutlist/types.ts';
import { SAME } from './check.ts';
import type { Rect } from './types.ts';

/**
 * Saws a rectangle by the cuts, in order, and gives back the rectangles that are left, or the first cut that does not run
 * right through one of them. The kerf lies past the cut; it may fall off the edge.
 */
export function saw(
  wood: Rect,
  cuts: readonly SawCut[],
  kerf: number,
): { readonly rects: readonly Rect[] } | { readonly fault: string } {
  let rects: Rect[] = [wood];
  for (const [i, cut] of cuts.entries()) {
    const index = rects.findIndex((rect) => runsThrough(cut, rect));
    const rect = rects[index];
    if (rect === undefined) {
      return {
        fault: `cut ${i + 1} (${cut.direction}, at ${cut.at}) does not run right through a piece of wood`,
      };
    }
    rects = [...rects.slice(0, index), ...part(rect, cut, kerf), ...rects.slice(index + 1)];
  }
  return { rects };
}

/** Whether two rectangles are the same. */
export function isSame(a: Rect, b: Rect): boolean {
  const off = Math.max(
    Math.abs(a.x - b.x),
    Math.abs(a.y - b.y),
    Math.abs(a.length - b.length),
    Math.abs(a.width - b.width),
  );
  return off <= SAME;
}

function runsThrough(cut: SawCut, rect: Rect): boolean {
  const [start, size, from, to] =
    cut.direction === 'across'
      ? [rect.x, rect.length, rect.y, rect.y + rect.width]
      : [rect.y, rect.width, rect.x, rect.x + rect.length];
  const isInside = cut.at > start + SAME && cut.at < start + size;
  return isInside && Math.abs(cut.from - from) <= SAME && Math.abs(cut.to - to) <= SAME;
}

function part(rect: Rect, cut: SawCut, kerf: number): Rect[] {
  const [near, far] =
    cut.direction === 'across'
      ? [
          { ...rect, length: cut.at - rect.x },
          { ...rect, x: cut.at + kerf, length: rect.x + rect.length - cut.at - kerf },
        ]
      : [
          { ...rect, width: cut.at - rect.y },
          { ...rect, y: cut.at + kerf, width: rect.y + rect.width - cut.at - kerf },
        ];
  return far.length > 0 && far.width > 0 ? [near, far] : [near];
}
