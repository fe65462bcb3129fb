/** "Did you mean ...?" */
import leven from 'leven';

/**
 * The known name nearest to what was written, or null when none is near: at most a third of its letters wrong
 * (rounded up), and never more than three. Capitals, hyphens and blanks do not count as wrong.
 */
export function nearestName(written: string, known: readonly string[]): string | null {
  const plain = bare(written);
  const ranked = known
    .map((name) => ({ name, distance: leven(plain, bare(name), { maxDistance: 4 }) }))
    .filter(({ name, distance }) => distance <= Math.min(3, Math.ceil(bare(name).length / 3)))
    .sort((a, b) => a.distance - b.distance);
  return ranked[0]?.name ?? null;
}

/** A remedy sentence for a name that is not known, or undefined when nothing is near. */
export function didYouMean(written: string, known: readonly string[]): string | undefined {
  const nearest = nearestName(written, known);
  return nearest === null ? undefined : `Did you mean "${nearest}"?`;
}

const bare = (name: string): string => name.toLowerCase().replace(/[\s_-]/g, '');
