import type { Vec } from '../geometry/types.ts';
import { distance } from '../geometry/vec.ts';
import type { Layout } from '../layout/types.ts';
import type { Anchor } from '../profile/types.ts';
import type { BridgePlace, CentringCheck, SkewCheck } from './types.ts';

/**
 * Where the bridge goes, measured from the nut face after the neck is set, with two checks that need no drawing: to the outer
 * strings' ends on the bridge, or where those lie elsewhere to their points on the saddle.
 */
export function placeBridge(layout: Layout, anchor: Anchor['kind']): BridgePlace {
  const ends = outerEnds(layout, anchor);
  const side = bassSide(layout);
  const strings = layout.strings.map((line) => ({
    position: line.position,
    pitch: line.pitch,
    saddle: line.saddle[0] - layout.nutFace,
    pin: line.pin[0] - layout.nutFace,
    saddleAcross: -side * line.saddle[1],
    pinAcross: -side * line.pin[1],
  }));
  const [bass, treble] = layout.saddleLine;
  const span = Math.abs(treble[1] - bass[1]);
  const slant = span === 0 ? 0 : (treble[0] - bass[0]) / (treble[1] - bass[1]);
  return {
    strings,
    slot: {
      atCentre: bass[0] - slant * bass[1] - layout.nutFace,
      bass: bass[0] - layout.nutFace,
      treble: treble[0] - layout.nutFace,
      angle: span === 0 ? 0 : Math.atan((bass[0] - treble[0]) / span),
    },
    skew: skewOf(layout, ends),
    centring: centringOf(layout, ends, side),
  };
}

/** Sign of y on the side of string 1: -1 on a right-handed instrument, whose bass edge is the near one. */
export function bassSide(layout: Layout): -1 | 1 {
  const [bass, treble] = [layout.strings[0], layout.strings.at(-1)];
  if (bass === undefined || treble === undefined) throw new Error('an instrument without strings');
  return bass.nut[1] > treble.nut[1] ? 1 : -1;
}

/** Half the board's width at x, carried on past its end. */
export function halfWidth({ board }: Layout, x: number): number {
  return board.halfWidth.at0 + board.halfWidth.slope * x;
}

function outerEnds(layout: Layout, anchor: Anchor['kind']): readonly [Vec, Vec] {
  const [bass, treble] = [layout.strings[0], layout.strings.at(-1)];
  if (bass === undefined || treble === undefined) throw new Error('an instrument without strings');
  return anchor === 'tailpiece' ? [bass.saddle, treble.saddle] : [bass.pin, treble.pin];
}

/** From the corners of the nut's face, which slants with two scales. */
function skewOf(layout: Layout, [bassPin, treblePin]: readonly [Vec, Vec]): SkewCheck {
  const [bass, treble] = layout.nutLine;
  return {
    bass: distance(bass, bassPin),
    treble: distance(treble, treblePin),
    bassToTreble: distance(bass, treblePin),
    trebleToBass: distance(treble, bassPin),
  };
}

function centringOf(layout: Layout, [bass, treble]: readonly [Vec, Vec], side: -1 | 1): CentringCheck {
  return {
    bass: halfWidth(layout, bass[0]) - side * bass[1],
    treble: halfWidth(layout, treble[0]) + side * treble[1],
  };
}
