import type { Vec } from '../geometry/types.ts';
import { add, distance, scale, subtract, unit } from '../geometry/vec.ts';
import type { Instrument } from '../profile/types.ts';
import { meetEdge } from '../spacing/slant.ts';
import type { BoardTaper } from './board.ts';
import type { FretSlot, SlotCut, SlotEnd } from './types.ts';

/**
 * What is cut of each slot. An end at the finished edge stops short of it by the margin that the profile asks for, measured along
 * the slot; where the board gets a binding, and the margin does not reach past it, it runs out at the edge of the board's wood.
 */
export function layOutSlotCuts(
  slots: readonly FretSlot[],
  { slotsStopShort }: Instrument['fingerboard'],
  wood: BoardTaper,
): SlotCut[] {
  return slots.map((slot) => {
    const ends = [0, 1].map((k) => cutEnd(slot, k, slotsStopShort, wood));
    const [bass, treble] = ends;
    if (bass === undefined || treble === undefined) throw new Error(`a slot without ends: ${slot.id}`);
    return {
      id: slot.id,
      line: [bass.at, treble.at],
      ends: [bass.end, treble.end],
      walls: [bass.wall, treble.wall],
    };
  });
}

interface CutEnd {
  readonly at: Vec;
  readonly end: SlotEnd;
  readonly wall: number | null;
}

function cutEnd({ line, ends }: FretSlot, k: number, margin: number, wood: BoardTaper): CutEnd {
  const [own, other] = k === 0 ? line : [line[1], line[0]];
  if (ends[k] !== 'edge') return { at: own, end: 'stopped', wall: null };
  const edge = onEdge(line, wood, k === 0 ? -1 : 1);
  const wall = margin - distance(own, edge);
  if (margin === 0 || wall <= 0) return { at: edge, end: 'edge', wall: null };
  return { at: add(own, scale(unit(subtract(other, own)), margin)), end: 'stopped', wall };
}

/** Where the line of a slot meets the edge of the wood. */
function onEdge([from, to]: FretSlot['line'], wood: BoardTaper, side: -1 | 1): Vec {
  const lean = (to[0] - from[0]) / (to[1] - from[1]);
  return meetEdge({ at: from[0] - lean * from[1], lean }, wood, side);
}
