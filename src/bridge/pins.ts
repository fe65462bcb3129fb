import { coneDepth, coneDiameter } from '../geometry/cone.ts';
import type { Instrument } from '../profile/types.ts';
import type { PinHole } from './types.ts';

/** The last stretch is reamed by trying the pin in its own hole (common practice, no source). */
const BY_TRYING = 2;

/** Drilling and reaming of every pin hole, bass side first. */
export function workPins({ bridge, strings }: Instrument): PinHole[] {
  const { drill, reamerTaper, reamerTip, through, proud, slotClearance } = bridge.pins;
  return strings.map((string, i): PinHole => {
    const seat = bridge.pins.seats[i] ?? bridge.pins.seat;
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
