import { deviation } from './compare.ts';
import type { FoundShape, MeantShape } from './types.ts';

export interface Matching {
  /** Greatest deviation among pairs within the limit, and the pair. */
  readonly worst: { readonly by: number; readonly found: FoundShape } | null;
  readonly pairs: number;
  /** Meant, with the nearest thing of its kind on its layer, should there be one. */
  readonly missing: readonly { readonly meant: MeantShape; readonly nearest: number }[];
  readonly extra: readonly FoundShape[];
}

/** Pairs every meant shape with one found on the same layer, each used once, within `limit` mm. */
export function matchShapes(
  meant: readonly MeantShape[],
  found: readonly FoundShape[],
  limit: number,
): Matching {
  const free = bySort(found);
  const missing: { meant: MeantShape; nearest: number }[] = [];
  let worst: Matching['worst'] = null;
  for (const shape of meant) {
    const candidates = free.get(sortOf(shape)) ?? new Set();
    const { by, best } = nearestOf(shape, candidates);
    if (best === null || !(by <= limit)) {
      missing.push({ meant: shape, nearest: by });
      continue;
    }
    candidates.delete(best);
    if (worst === null || by > worst.by) worst = { by, found: best };
  }
  return {
    worst,
    pairs: meant.length - missing.length,
    missing,
    extra: [...free.values()].flatMap((set) => [...set]),
  };
}

/** Shapes that lie on another one within `limit` mm, whatever their layers. */
export function repeats(found: readonly FoundShape[], limit: number): FoundShape[] {
  return found.filter((shape, i) =>
    found.slice(0, i).some((other) => other.kind === shape.kind && deviation(other, shape) <= limit),
  );
}

function nearestOf(
  shape: MeantShape,
  candidates: ReadonlySet<FoundShape>,
): { by: number; best: FoundShape | null } {
  let by = Number.POSITIVE_INFINITY;
  let best: FoundShape | null = null;
  for (const candidate of candidates) {
    const gap = deviation(shape, candidate);
    if (gap < by) {
      by = gap;
      best = candidate;
    }
  }
  return { by, best };
}

function bySort(found: readonly FoundShape[]): Map<string, Set<FoundShape>> {
  const sorts = new Map<string, Set<FoundShape>>();
  for (const shape of found) {
    const set = sorts.get(sortOf(shape)) ?? new Set();
    sorts.set(sortOf(shape), set.add(shape));
  }
  return sorts;
}

function sortOf(shape: MeantShape): string {
  return `${shape.kind} ${shape.layer}`;
}
