import type { Ring, Vertex } from '../geometry/types.ts';
import type { Instrument } from '../profile/types.ts';
import { equalCents, fretDistance, halfWidthOn, taperThrough } from '../units/boardFormulas.ts';
import type { Layout } from './types.ts';

/** Half the board's width grows evenly along x: half = at0 + slope x. */
export type BoardTaper = Layout['board']['halfWidth'];

/** Taper through the width at the nut face and the width at the stated fret. */
export function layOutTaper(instrument: Instrument): BoardTaper {
  const { widthAtNut, widthAt } = instrument.fingerboard;
  const x = fretDistance(instrument.scale.length, equalCents(widthAt.fret, instrument.frets.perOctave));
  return taperThrough([instrument.nut.setForward, widthAtNut], [x, widthAt.width]);
}

/** Half the board's width at x, millimetres. */
export const halfWidthAt: (taper: BoardTaper, x: number) => number = halfWidthOn;

/**
 * Finished edge of the board, counter-clockwise, from the nut face to `end`, with the two corners at the body end
 * rounded by arcs that touch edge and end.
 */
export function layOutOutline(nutFace: number, end: number, taper: BoardTaper, rounding: number): Ring {
  const nutHalf = halfWidthAt(taper, nutFace);
  const endHalf = halfWidthAt(taper, end);
  if (rounding === 0) {
    return corners([
      [nutFace, -nutHalf, 0],
      [end, -endHalf, 0],
      [end, endHalf, 0],
      [nutFace, nutHalf, 0],
    ]);
  }
  // The edge leans outward by `lean`, so the corner is that much sharper than square and the tangents that much longer.
  const lean = Math.atan(taper.slope);
  const turn = Math.PI / 2 + lean;
  const tangent = rounding * Math.tan(turn / 2);
  const back = [end - tangent * Math.cos(lean), endHalf - tangent * Math.sin(lean)] as const;
  const bulge = Math.tan(turn / 4);
  return corners([
    [nutFace, -nutHalf, 0],
    [back[0], -back[1], bulge],
    [end, -(endHalf - tangent), 0],
    [end, endHalf - tangent, bulge],
    [back[0], back[1], 0],
    [nutFace, nutHalf, 0],
  ]);
}

function corners(list: readonly (readonly [number, number, number])[]): Vertex[] {
  return list.map(([x, y, bulge]) => ({ x, y, bulge }));
}
