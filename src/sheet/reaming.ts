import { coneDepth, coneDiameter } from '../geometry/cone.ts';
import type { Pins } from '../profile/types.ts';
import type { Reaming } from './types.ts';

/** The reaming numbers of an instrument's bridge pins: a cone all through needs a drill no wider than its thin end. */
export function reamingOf(pins: Pins): Reaming {
  const { drill, seat, reamerTaper, pinTaper, through } = pins;
  const largest = coneDiameter(seat, through, reamerTaper);
  return {
    drill,
    seat,
    reamerTaper,
    pinTaper,
    through,
    advance: coneDepth(seat, drill, reamerTaper),
    largestDrillForFullCone: largest,
    coneAllThrough: drill <= largest,
  };
}
