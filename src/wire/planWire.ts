import type { Layout } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import { wirePieces } from './pieces.ts';
import { planSticks } from './sticks.ts';
import type { WirePlan } from './types.ts';

/** Every piece of wire in the order in which frets go in, and the sticks to buy. Millimetres. */
export function planWire(layout: Layout, { fretWire }: Pick<Instrument, 'fretWire'>): WirePlan {
  const pieces = wirePieces(layout, fretWire.trim);
  return {
    pieces,
    trim: fretWire.trim,
    total: pieces.reduce((sum, piece) => sum + piece.cut, 0),
    sticks: fretWire.stick === null ? null : planSticks(pieces, fretWire.stick),
  };
}
