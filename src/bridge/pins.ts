import { coneDepth, coneDiameter } from '../geometry/cone.ts';
import type { Instrument } from '../profile/types.ts';
import type { PinHole } from './types.ts';

/** The last stretch is reamed by trying the pin in its own hole (common practice, no source). */
const BY_TRYING = 2;

/** Drilling and reaming of every pin hole, bass side first; none where the strings are held otherwise. */
export function workPins({ bridge: { anchor }, strings }: Instrument): PinHole[] {
  if (anchor.kind !== 'pins') return [];
  const { drill, reamerTaper, reamerTip, through, proud, slotClearance } = anchor;
  return strings.map((string, i): PinHole => {
    const seat = anchor.seats[i] ?? anchor.seat;
    const advance = coneDepth(seat, drill, reamerTaper);
    const largestDrill = coneDiameter(seat, through, reamerTaper);
    return {
      position: i + 1,
      pitch: string.pitch,
      seat,
      drill,
      advance,
      tipBelow: reamerTip === null ? null : coneDepth(seat, reamerTip, reamerTaper),
      tryFrom: Math.max(0, advance - BY_TRYING),
      proudAt: Math.max(0, advance - proud),
      coneAllThrough: drill <= largestDrill,
      largestDrill,
      stringSlot: string.gauge + slotClearance,
    };
  });
}
