import type { Instrument } from '../profile/types.ts';
import { type BoardTaper, halfWidthAt } from './board.ts';
import { equalCents, fretDistance } from './scale.ts';
import type { FretSlot } from './types.ts';

/** Fret slots square to the centreline, from edge to edge of the finished board, nut side first. */
export function layOutSlots(instrument: Instrument, taper: BoardTaper): FretSlot[] {
  return Array.from({ length: instrument.frets.count }, (_, i) => {
    const fret = i + 1;
    const cents = equalCents(fret, instrument.frets.perOctave);
    const x = fretDistance(instrument.scale.length, cents);
    const half = halfWidthAt(taper, x);
    return {
      id: slotId(fret),
      fret,
      cents,
      x,
      line: [
        [x, -half],
        [x, half],
      ],
    };
  });
}

/** x of a fret on the centreline; fret 0 is scale zero. */
export function fretX(instrument: Instrument, fret: number): number {
  return fretDistance(instrument.scale.length, equalCents(fret, instrument.frets.perOctave));
}

/** Two digits, so that ids sort as frets do. */
export function fretId(fret: number): string {
  return String(fret).padStart(2, '0');
}

/** Name of a fret's slot, as `fret-slot-07`. */
export function slotId(fret: number): string {
  return `fret-slot-${fretId(fret)}`;
}
