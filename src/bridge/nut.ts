import type { Layout } from '../layout/types.ts';
import type { Instrument, InstrumentString } from '../profile/types.ts';
import { fallUnder } from './fall.ts';
import { bassSide, halfWidth } from './place.ts';
import type { NutSlot, NutWork } from './types.ts';

/**
 * The nut's slots. `heights` are the undersides of the open strings at the nut above the plane of the fret tops, string
 * by string. A slot's floor stands above the fret tops' line under
 * it by that, and that line above the board by the crown's height.
 */
export function workNut(instrument: Instrument, layout: Layout, heights: readonly number[]): NutWork {
  const side = bassSide(layout);
  const half = halfWidth(layout, layout.nutFace);
  const slots = layout.strings.map((line, i): NutSlot => {
    const string = instrument.strings[i];
    const next = layout.strings[i + 1];
    const height = heights[i];
    if (string === undefined || height === undefined) throw new Error(`string ${i + 1} has no height`);
    const fall = fallUnder(line, layout, instrument.targets.actionFret);
    const face = fall.board(layout.nutFace);
    const aboveBoard = instrument.fretWire.crownHeight + height + face - fall.measured(layout.nutFace);
    return {
      position: line.position,
      pitch: line.pitch,
      gauge: line.gauge,
      fromBassEdge: half - side * line.nut[1],
      gapToNext:
        next === undefined ? null : Math.abs(next.nut[1] - line.nut[1]) - (next.gauge + line.gauge) / 2,
      width: line.gauge + instrument.nut.slotClearance,
      aboveBoard,
      aboveNeck: instrument.fingerboard.thickness - face + aboveBoard,
      depth: slotDepth(string),
    };
  });
  const [first, last] = [slots[0], slots.at(-1)];
  if (first === undefined || last === undefined) throw new Error('an instrument without strings');
  return {
    slots,
    length: 2 * half,
    thickness: instrument.nut.thickness,
    marginBass: first.fromBassEdge - first.gauge / 2,
    marginTreble: 2 * half - last.fromBassEdge - last.gauge / 2,
    tallest: Math.max(...slots.map((slot) => slot.aboveNeck + slot.depth)),
  };
}

/** A wound string lies in its slot to half its thickness, a plain one with all of it (common practice, no source). */
function slotDepth({ gauge, make }: InstrumentString): number {
  return make === 'wound' ? gauge / 2 : gauge;
}
