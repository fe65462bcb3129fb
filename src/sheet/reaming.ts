import type { Instrument } from '../profile/types.ts';
import type { Reaming } from './types.ts';

/**
 * Reaming of a straight hole to a cone. Lengths in mm, included angle in radians: advance after first contact
 * (D - d) / (2 tan(a/2)), which is also how deep the cone reaches; a cone all through thickness t needs d <= D - 2 t tan(a/2).
 * @example advanceAfterContact(5.6, 4.7625, 3 * Math.PI / 180) // 15.992
 */
export function advanceAfterContact(seat: number, drill: number, taper: number): number {
  return (seat - drill) / (2 * Math.tan(taper / 2));
}

/** The largest drill that leaves a cone through all of the wood, mm. */
export function largestDrillForFullCone(seat: number, through: number, taper: number): number {
  return seat - 2 * through * Math.tan(taper / 2);
}

/** The reaming numbers of an instrument's bridge pins. */
export function reamingOf(pins: Instrument['bridge']['pins']): Reaming {
  const { drill, seat, reamerTaper, pinTaper, through } = pins;
  const largest = largestDrillForFullCone(seat, through, reamerTaper);
  return {
    drill,
    seat,
    reamerTaper,
    pinTaper,
    through,
    advance: advanceAfterContact(seat, drill, reamerTaper),
    largestDrillForFullCone: largest,
    coneAllThrough: drill <= largest,
  };
}
