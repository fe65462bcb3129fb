import { type BoardSurface, boardHeight } from '../geometry/boardSurface.ts';
import { bounds } from '../geometry/ring.ts';
import type { Instrument } from '../profile/types.ts';
import { type BoardEnd, type BoardTaper, insetEnd, insetTaper, layOutOutline } from './board.ts';
import { nutEndCarrier } from './nutSeat.ts';
import type { Layout } from './types.ts';

/** The wall of a channel is carried on this far past the board's ends that it runs out at. */
const PAST_ENDS = 1;

/** The board's outline, the edge of its wood at the top, and the channel between them where its binding is let into one. */
export function layOutEdges(
  instrument: Instrument,
  taper: BoardTaper,
  end: BoardEnd,
  surface: BoardSurface,
): Pick<Layout['board'], 'outline' | 'wood' | 'channel'> {
  const { binding } = instrument.fingerboard;
  const nutEnd = nutEndCarrier(instrument);
  const atEnd = binding?.around === 'sides and end' ? binding.width : 0;
  const inner = woodTaper(instrument, taper);
  const outline = layOutOutline(nutEnd, taper, end);
  const woodEnd = insetEnd(end, atEnd);
  const wood = layOutOutline(nutEnd, inner, woodEnd);
  if (binding === null || binding.channelDepth === null) return { outline, wood, channel: null };
  const { x } = bounds(outline);
  const past: BoardEnd = { kind: 'straight', at: x[1] + PAST_ENDS, lean: 0, rounding: 0 };
  const ring = layOutOutline(
    { at: x[0] - PAST_ENDS, lean: 0 },
    inner,
    binding.around === 'sides' ? past : woodEnd,
  );
  const lowest = Math.min(...outline.map((v) => boardHeight(surface, v.x, v.y)));
  return { outline, wood, channel: { ring, below: binding.channelDepth - lowest } };
}

/** Taper of the board's wood at its top, its binding taken off. */
export function woodTaper({ fingerboard: { binding } }: Instrument, taper: BoardTaper): BoardTaper {
  return insetTaper(taper, binding?.width ?? 0);
}
