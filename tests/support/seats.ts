/** Boards whose nut stands in a slot or on a ledge. */
import type { Instrument, NutSeat } from '../../src/profile/types.ts';
import { parlour } from './instrument.ts';

export const nutSlot: NutSeat = { kind: 'slot', depth: 3, clearance: 0.05, boardBehind: 8 };
export const nutLedge: NutSeat = { kind: 'ledge', depth: 3.5, clearance: 0, boardBehind: 0 };

/** An instrument with its nut seated so; other fields of the nut besides. */
export function seated(
  seat: NutSeat,
  nut: Partial<Instrument['nut']> = {},
  instrument: Instrument = parlour,
): Instrument {
  return { ...instrument, nut: { ...instrument.nut, ...nut, seat } };
}

/** The parlour with two scales, its nut leaning. */
export const twoScales: Instrument = {
  ...parlour,
  scale: {
    ...parlour.scale,
    length: 640,
    slant: { difference: 24, squareShare: 0.35, squareWords: 'fret 7', half: { nut: 20, saddle: 28 } },
  },
};
