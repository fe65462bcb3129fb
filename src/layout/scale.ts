import type { Instrument } from '../profile/types.ts';
import { shareAt } from '../spacing/cents.ts';
import { carrierAt, type SlotCarrier } from '../spacing/slant.ts';

/**
 * Distance from scale zero of the stop that sounds `cents` above the open string, along the scale.
 * x = S (1 - 2^(-c/1200)). Millimetres.
 *
 * @example fretDistance(628, 1200) // 314
 */
export function fretDistance(scaleLength: number, cents: number): number {
  return scaleLength * shareAt(cents);
}

/** The line across the board on which the stop of `cents` lies, square or slanted. */
export function carrierOf(instrument: Instrument, cents: number): SlotCarrier {
  return carrierAt(instrument.scale, shareAt(cents));
}

/** The line of a fret by its place among the frets; fret 0 is scale zero. */
export function fretCarrier(instrument: Instrument, fret: number): SlotCarrier {
  return carrierOf(instrument, fretCents(instrument, fret));
}

/** Cents of a fret by its place among the frets; fret 0 is the open string. */
export function fretCents({ frets }: Instrument, fret: number): number {
  if (fret === 0) return 0;
  const found = frets.list[fret - 1];
  if (found === undefined) throw new Error(`no fret ${fret} among ${frets.list.length}`);
  return found.cents;
}

/** The nut face as a line across the board: that of scale zero, moved along the centreline. */
export function nutFaceCarrier(instrument: Instrument): SlotCarrier {
  const zero = carrierOf(instrument, 0);
  return { at: instrument.nut.setForward, lean: zero.lean };
}
