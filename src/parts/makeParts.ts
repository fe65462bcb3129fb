import type { Layout } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import type { Finding } from '../report/finding.ts';
import { bridgePieces, makeBridgeParts } from './bridgeParts.ts';
import { makeBridgeTemplate } from './bridgeTemplate.ts';
import { type EndShapes, makeEndPieces } from './endPieces.ts';
import { makeFingerboard } from './fingerboard.ts';
import { makeHeadParts } from './headstock.ts';
import { makeInlays } from './inlays.ts';
import { inscribePinTemplate, inscribeSlotTemplate } from './inscribe.ts';
import { makeJointTemplates } from './jointTemplates.ts';
import type { Lettered } from './lettering.ts';
import { makeNeckBlank } from './neckBlank.ts';
import { makeNeckGauges } from './neckGauges.ts';
import { makeRadiusBlockPlates, radiusBlockDowels } from './radiusBlock.ts';
import type { PartSettings } from './settings.ts';
import { inscribeSideMarkerTemplate, makeSideMarkerTemplate } from './sideMarkerTemplate.ts';
import { makePinTemplate, makeSlotTemplate } from './templates.ts';
import type { Part, Piece } from './types.ts';

/** Every part and jig the profile asks for; nut and saddle where their heights are known. */
export function makeParts(
  instrument: Instrument,
  layout: Layout,
  settings: PartSettings,
  ends: EndShapes | null = null,
): Part[] {
  const { radiusBlock } = instrument.jigs;
  const templates = makeTemplates(instrument, layout, settings).map(({ part }) => part);
  const neck = [
    ...makeHeadParts(instrument, layout, settings),
    ...makeNeckBlank(instrument, layout, settings),
    ...makeNeckGauges(instrument, layout, settings),
    ...makeJointTemplates(instrument, layout, settings),
  ];
  const parts = [
    makeFingerboard(instrument, layout, settings),
    ...neck,
    ...makeBridgeParts(instrument, layout, settings),
    ...templates,
  ];
  if (radiusBlock !== null) parts.push(makeRadiusBlockPlates(instrument, radiusBlock, settings));
  const { nutAndSaddle } = instrument.jigs;
  if (nutAndSaddle !== null && ends !== null) parts.push(...makeEndPieces(ends, nutAndSaddle));
  return [...parts, ...makeInlays(instrument, layout)];
}

/** What there is to say of the parts: letters that are spelt otherwise, and those that found no place. */
export function findingsOfParts(instrument: Instrument, layout: Layout, settings: PartSettings): Finding[] {
  return makeTemplates(instrument, layout, settings).flatMap(({ findings }) => findings);
}

function makeTemplates(instrument: Instrument, layout: Layout, settings: PartSettings): Lettered[] {
  const { pinTemplate, slotTemplate, sideMarkerTemplate, bridgeTemplate } = instrument.jigs;
  const templates: Lettered[] = [];
  if (slotTemplate !== null) {
    const part = makeSlotTemplate(layout, slotTemplate, settings);
    templates.push(inscribeSlotTemplate(part, layout, instrument));
  }
  if (pinTemplate !== null) {
    const part = makePinTemplate(layout, pinTemplate, settings, instrument.bridge.body?.indexPin ?? null);
    templates.push(inscribePinTemplate(part, layout, instrument));
  }
  if (bridgeTemplate !== null && layout.bridge !== null)
    templates.push(makeBridgeTemplate(instrument, layout, layout.bridge, bridgeTemplate, settings));
  if (sideMarkerTemplate !== null && layout.sideMarkers.length > 0) {
    const part = makeSideMarkerTemplate(instrument, layout, sideMarkerTemplate, settings);
    templates.push(inscribeSideMarkerTemplate(part, layout, instrument));
  }
  return templates;
}

/** What has to be sawn from stock: a blank for each part, and the pieces no program shapes. */
export function piecesOf(instrument: Instrument, parts: readonly Part[]): Piece[] {
  const { radiusBlock } = instrument.jigs;
  const blanks = parts
    .filter((part) => part.bought !== true && part.sawnFrom === undefined)
    .map((part) => blankPiece(part));
  const dowels = radiusBlock === null ? [] : [radiusBlockDowels(radiusBlock)];
  return [...blanks, ...dowels, ...bridgePieces(instrument)];
}

function blankPiece(part: Part): Piece {
  const { box, thickness } = part.blank;
  const [along, across] = [box.x[1] - box.x[0], box.y[1] - box.y[0]];
  const isBoard = part.grain !== undefined;
  const isWood = isBoard || part.id === 'head-veneer';
  return {
    id: part.id,
    title: part.title,
    kind: isBoard ? 'board' : 'sheet',
    material: isWood ? part.material : null,
    materialClass: part.materialClass,
    length: part.grain === 'y' ? across : along,
    width: part.grain === 'y' ? along : across,
    thickness,
    count: 1,
    grain: isWood,
  };
}
