import type { Layout } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import { makeFingerboard } from './fingerboard.ts';
import { makeRadiusBlockPlates, radiusBlockDowels } from './radiusBlock.ts';
import type { PartSettings } from './settings.ts';
import { makePinTemplate, makeSlotTemplate } from './templates.ts';
import type { Part, Piece } from './types.ts';

/** Every part and jig the profile asks for. */
export function makeParts(instrument: Instrument, layout: Layout, settings: PartSettings): Part[] {
  const { radiusBlock, pinTemplate, slotTemplate } = instrument.jigs;
  const parts = [makeFingerboard(instrument, layout, settings)];
  if (slotTemplate !== null) parts.push(makeSlotTemplate(layout, slotTemplate, settings));
  if (pinTemplate !== null) parts.push(makePinTemplate(layout, pinTemplate, settings));
  if (radiusBlock !== null) parts.push(makeRadiusBlockPlates(instrument, radiusBlock, settings));
  return parts;
}

/** What has to be sawn from stock: a blank for each part, and the pieces no program shapes. */
export function piecesOf(instrument: Instrument, parts: readonly Part[]): Piece[] {
  const { radiusBlock } = instrument.jigs;
  const blanks = parts.map((part) => blankPiece(part));
  return radiusBlock === null ? blanks : [...blanks, radiusBlockDowels(radiusBlock)];
}

function blankPiece(part: Part): Piece {
  const { box, thickness } = part.blank;
  const isBoard = part.id === 'fingerboard';
  return {
    id: part.id,
    title: part.title,
    kind: isBoard ? 'board' : 'sheet',
    material: isBoard ? part.material : null,
    materialClass: part.materialClass,
    length: box.x[1] - box.x[0],
    width: box.y[1] - box.y[0],
    thickness,
    count: 1,
    grain: isBoard,
  };
}
