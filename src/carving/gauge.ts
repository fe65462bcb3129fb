import { fitRing } from '../geometry/fitRing.ts';
import type { Ring, Vec } from '../geometry/types.ts';
import { sectionChain } from './section.ts';
import type { Section } from './types.ts';

/** Arcs of a gauge leave the section by at most this. Millimetres. */
const ARCS = 0.002;
/** Chords that the arcs are fitted to. */
const CHORDS = 0.0005;

/**
 * A gauge for the outside of the back: a plate with the section cut out of its upper side, so that its two tips stand level with
 * the board's underside when it fits. `wall` is the wood beside and below the opening. Its lower left corner lies at the
 * origin; counter-clockwise.
 */
export function gaugeRing(section: Section, wall: number): Ring {
  const { halfWidth, depth } = section;
  const half = halfWidth + wall;
  const place = ([y, z]: Vec): Vec => [y + half, z + depth + wall];
  const opening = sectionChain(section, CHORDS).map(place);
  const plate: Vec[] = [[0, 0], [2 * half, 0], place([half, 0])];
  return fitRing([...plate, ...opening, place([-half, 0])], ARCS);
}

/** How large a gauge's plate is. */
export function gaugeSize({ halfWidth, depth }: Section, wall: number): { width: number; height: number } {
  return { width: 2 * (halfWidth + wall), height: depth + wall };
}
