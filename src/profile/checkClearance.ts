/** Does the pocket in the board's underside leave the board whole? */
import type { Finding } from '../report/finding.ts';
import { boardEnd, fallAt, halfWidthAt, radiusAt } from './boardShape.ts';
import { type Check, check, HAIR, mm, when, wrong } from './check.ts';
import type { Instrument } from './types.ts';

/** Least wood of the board beside the pocket: what the glue holds (common practice, no source). Millimetres. */
const GLUED = 6;

type Needed = Pick<
  Instrument,
  'trussRod' | 'scale' | 'frets' | 'fingerboard' | 'nut' | 'bridge' | 'faceMarkers' | 'indexPins'
>;

export const clearanceFits: Check = check(
  ['trussRod', 'scale', 'frets', 'fingerboard', 'nut', 'bridge', 'faceMarkers', 'indexPins'],
  (sections: Needed) => {
    const { trussRod: rod, nut } = sections;
    if (rod === null || rod.clearance === null) return [];
    const { from, length, width } = rod.clearance;
    const [near, far] = [nut.setForward + from, nut.setForward + from + length];
    const most = 2 * (halfWidthAt(sections, near) - GLUED);
    return [
      ...when(length < width - HAIR, () =>
        wrong('clearance-too-short', 'trussRod.clearance.length', 'The pocket is shorter than it is wide.', {
          allowed: `at least ${mm(width)}: both its ends are half round`,
        }),
      ),
      ...when(width > most + HAIR, () =>
        wrong(
          'clearance-too-wide',
          'trussRod.clearance.width',
          `A pocket of ${mm(width)} does not leave ${mm(GLUED)} of the board on each side to glue.`,
          { allowed: `at most ${mm(most)}` },
        ),
      ),
      ...when(far > boardEnd(sections) - GLUED + HAIR, () =>
        wrong(
          'clearance-too-long',
          'trussRod.clearance.length',
          `The pocket ends ${mm(far)} from scale zero, the board at ${mm(boardEnd(sections))}.`,
          {
            allowed: `at most to ${mm(boardEnd(sections) - GLUED)}`,
            remedy: 'Shorten it, or begin nearer the nut.',
          },
        ),
      ),
      ...leavesWoodAbove(sections, [near, far]),
    ];
  },
);

/** Below the deepest slot where the board is thinnest over the pocket, and below any marker that may lie over it. */
function leavesWoodAbove(sections: Needed, [near, far]: readonly [number, number]): readonly Finding[] {
  const { trussRod, frets, fingerboard, faceMarkers } = sections;
  const clearance = trussRod?.clearance;
  if (clearance === undefined || clearance === null) return [];
  const half = clearance.width / 2;
  const fall = Math.max(...[near, far].map((x) => fallAt(radiusAt(sections, x), half)));
  const edges = Math.max(...[near, far].map((x) => fallAt(radiusAt(sections, x), halfWidthAt(sections, x))));
  // A floor that follows the surface falls with it; a flat one lies as deep everywhere as at the board's edges.
  const slot = fingerboard.thickness - frets.slotDepth - (fingerboard.slotFloor === 'flat' ? edges : fall);
  const over = faceMarkers.at.length + faceMarkers.artwork.length > 0;
  const marker = fingerboard.thickness - fall - (faceMarkers.thickness - faceMarkers.proud);
  const left = (over ? Math.min(slot, marker) : slot) - clearance.depth;
  const what = over && marker < slot ? 'the pocket of a face marker' : 'a fret slot';
  return when(left < frets.leastWoodBelow - HAIR && Number.isFinite(left), () =>
    wrong(
      'clearance-too-deep',
      'trussRod.clearance.depth',
      left <= 0
        ? `The pocket meets ${what} above it.`
        : `The pocket leaves ${mm(left)} of wood to ${what} above it.`,
      {
        found: mm(clearance.depth),
        allowed: `at most ${mm(Math.max(0, clearance.depth + left - frets.leastWoodBelow))}, so that ${mm(frets.leastWoodBelow)} are left (frets.leastWoodBelow)`,
        remedy: 'A shallower pocket, a thicker board, or let the rod deeper into the neck.',
      },
    ),
  );
}
