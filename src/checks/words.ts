import type { Vec } from '../geometry/types.ts';
import type { Layout } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import { formatShort } from '../units/format.ts';

/** A length for a sentence, to the hundredth that a caliper shows. */
export function mm(length: number): string {
  return `${formatShort(length, 2)} mm`;
}

/** A place in words, from the nut face and the centreline. */
export function placeIn(layout: Layout, { hand }: Instrument, [x, y]: Vec): string {
  const along = `${mm(x - layout.nutFace)} from the nut face`;
  if (Math.abs(y) < 0.005) return `${along}, on the centreline`;
  const side = y > 0 === (hand === 'right') ? 'treble' : 'bass';
  return `${along}, ${mm(Math.abs(y))} from the centreline on the ${side} side`;
}
