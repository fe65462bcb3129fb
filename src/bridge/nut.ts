import { distance } from '../geometry/vec.ts';
import type { Layout } from '../layout/types.ts';
import type { Instrument, InstrumentString } from '../profile/types.ts';
import { fallUnder } from './fall.ts';
import type { NutSlot, NutWork } from './types.ts';

/**
 * The nut's slots. `heights` are the undersides of the open strings at the nut above the plane of the fret tops, string
 * by string. A slot's floor stands above the fret tops' line under
 * it by that, and that line above the board by the crown's height.
 */
export function workNut(instrument: Instrument, layout: Layout, heights: readonly number[]): NutWork {
  const [bassCorner, trebleCorner] = layout.nutLine;
  const length = distance(bassCorner, trebleCorner);
  const slots = layout.strings.map((line, i): NutSlot => {
    const string = instrument.strings[i];
    const next = layout.strings[i + 1];
    const height = heights[i];
    if (string === undefined || height === undefined) throw new Error(`string ${i + 1} has no height`);
    const fall = fallUnder(line, layout, instrument.targets.actionFret);
    const face = fall.board(line.nut[0]);
    const aboveBoard = instrument.fretWire.crownHeight + height + face - fall.measured(line.nut[0]);
    return {
      position: line.position,
      pitch: line.pitch,
      gauge: line.gauge,
      fromBassEdge: distance(bassCorner, line.nut),
      gapToNext: next === undefined ? null : distance(next.nut, line.nut) - (next.gauge + line.gauge) / 2,
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
    length,
    thickness: instrument.nut.thickness,
    marginBass: first.fromBassEdge - first.gauge / 2,
    marginTreble: length - last.fromBassEdge - last.gauge / 2,
    tallest: Math.max(...slots.map((slot) => slot.aboveNeck + slot.depth)),
  };
}

/** A wound string lies in its slot to half its thickness, a plain one with all of it (common practice, no source). */
function slotDepth({ gauge, make }: InstrumentString): number {
  return make === 'wound' ? gauge / 2 : gauge;
}
