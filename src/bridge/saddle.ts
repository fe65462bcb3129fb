import { fitCircleTop } from '../geometry/fitCircleTop.ts';
import type { Vec } from '../geometry/types.ts';
import type { Layout } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import { fallUnder } from './fall.ts';
import type { SaddlePoint, SaddleWork } from './types.ts';

/**
 * The saddle's top, string by string. `heights` are the undersides of the open strings at the saddle above the plane of the
 * fret tops under each, as the wanted action asks.
 *
 * Above the bridge's face: that height, less the fall of the fret tops under the string below the crest (see `fallUnder`), plus how far a straightedge on the fret tops' crest clears the bridge once strung.
 */
export function workSaddle(instrument: Instrument, layout: Layout, heights: readonly number[]): SaddleWork {
  const { saddle } = instrument.bridge;
  const strung = strungClearance(instrument);
  const [bass, treble] = layout.saddleLine;
  const bassEnd = Math.abs(bass[1]);
  const stretch = slopeLength(bass, treble);
  const points = layout.strings.map((line, i): SaddlePoint => {
    const aboveFrets = heights[i];
    if (aboveFrets === undefined) throw new Error(`string ${i + 1} has no height`);
    const fall = fallUnder(line, layout, instrument.targets.actionFret).measured(line.saddle[0]);
    return {
      position: line.position,
      pitch: line.pitch,
      along: saddle.ends + Math.abs(line.saddle[1] - bass[1]) * stretch,
      aboveFrets,
      fall,
      aboveBridge: aboveFrets - fall + strung,
      lean: line.saddle[0] - onLine(bass, treble, line.saddle[1]),
    };
  });
  return {
    points,
    length: 2 * saddle.ends + Math.abs(treble[1] - bass[1]) * stretch,
    width: saddle.width,
    slotDepth: saddle.slotDepth,
    tallest: saddle.slotDepth + Math.max(...points.map((p) => p.aboveBridge)),
    top:
      points.length < 3 || bassEnd === 0
        ? null
        : fitCircleTop(points.map((p): Vec => [p.along, p.aboveBridge])),
  };
}

/** Straightedge above the bridge's face once the strings pull. */
export function strungClearance({ bridge }: Instrument): number {
  return bridge.straightedge - bridge.drop;
}

/** Length along a slanted line for each millimetre across. */
function slopeLength(bass: Vec, treble: Vec): number {
  const across = Math.abs(treble[1] - bass[1]);
  return across === 0 ? 1 : Math.hypot(treble[0] - bass[0], across) / across;
}

function onLine(bass: Vec, treble: Vec, y: number): number {
  if (treble[1] === bass[1]) return bass[0];
  return bass[0] + ((treble[0] - bass[0]) * (y - bass[1])) / (treble[1] - bass[1]);
}
