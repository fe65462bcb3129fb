/** Defaults of what the nut stands in. */
import type { NutSeat } from '../boardTypes.ts';
import type { GivenInstrument } from '../schema/instrument.ts';
import { type Fill, PRACTICE } from './fill.ts';

/** A ledge is as long as the nut is thick: nothing of a slot's own is left to say of it. */
export function resolveNutSeat(given: GivenInstrument['nut']['seat'], fill: Fill): NutSeat | null {
  if (given === undefined)
    return fill.shown(
      'nut.seat',
      undefined,
      null,
      'none',
      `the board is sawn off at the nut face (${PRACTICE})`,
    );
  const { kind, depth } = given;
  if (kind === 'ledge') return { kind, depth, clearance: 0, boardBehind: 0 };
  return {
    kind,
    depth,
    clearance: fill.length(
      'nut.seat.clearance',
      given.clearance,
      0.05,
      `so that the nut goes in by hand (${PRACTICE})`,
    ),
    boardBehind: fill.length(
      'nut.seat.boardBehind',
      given.boardBehind,
      6,
      `enough wood behind the nut not to break out (${PRACTICE})`,
    ),
  };
}
