import type { Layout } from '../layout/types.ts';
import { type Dome, domeRise } from './angle.ts';
import type { ExtensionPlace } from './types.ts';

export interface ExtensionInputs {
  readonly joint: number;
  readonly jointFret: number;
  readonly slope: number;
  readonly dome: Dome;
  /** Underside of the board above the rim's plane at the joint. */
  readonly boardAboveRim: number;
  /** Wanted at the end of the board. */
  readonly fallAway: number;
}

/**
 * The board over the body: gap = board's underside at the joint + along x slope - the top's rise. Positive wants a wedge;
 * negative means that the board fouls the top and the neck cannot seat.
 */
export function overTheBody(layout: Layout, given: ExtensionInputs): ExtensionPlace[] {
  const end = layout.board.end - given.joint;
  const frets = layout.slots.filter((slot) => slot.fret > given.jointFret);
  const places = [
    { what: 'joint', along: 0 },
    ...frets.map((slot) => ({ what: `fret ${slot.label}`, along: slot.x - given.joint })),
    { what: 'end of the board', along: end },
  ];
  return places.map(({ what, along }) => ({
    what,
    along,
    gap: given.boardAboveRim + along * given.slope - domeRise(given.dome, along),
    fallAway: end > 0 ? (given.fallAway * along) / end : 0,
  }));
}
