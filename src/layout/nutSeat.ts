import type { Instrument } from '../profile/types.ts';
import type { SlotCarrier } from '../spacing/slant.ts';
import type { BoardTaper } from './board.ts';
import { nutFaceCarrier } from './scale.ts';
import { edgeToEdge } from './slots.ts';
import type { PlacedNutSeat } from './types.ts';

/** The board's nut end as a line across it: the nut face, or behind what the nut stands in. */
export function nutEndCarrier(instrument: Instrument): SlotCarrier {
  const { seat } = instrument.nut;
  return behindFace(instrument, seatLength(instrument) + (seat?.boardBehind ?? 0));
}

/** Between the nut face and the other wall of a slot, or the end of a ledge. */
export function layOutNutSeat(instrument: Instrument, taper: BoardTaper): PlacedNutSeat | null {
  const { seat } = instrument.nut;
  if (seat === null) return null;
  return {
    kind: seat.kind,
    front: edgeToEdge(nutFaceCarrier(instrument), taper),
    back: edgeToEdge(behindFace(instrument, seatLength(instrument)), taper),
    depth: seat.depth,
  };
}

/** How long the seat is for its nut, square to the nut face. */
function seatLength({ nut: { seat, thickness } }: Instrument): number {
  return seat === null ? 0 : thickness + seat.clearance;
}

/** The line that lies behind the nut face by a distance square to it. */
function behindFace(instrument: Instrument, distance: number): SlotCarrier {
  const face = nutFaceCarrier(instrument);
  return { ...face, at: face.at - distance * Math.hypot(1, face.lean) };
}
