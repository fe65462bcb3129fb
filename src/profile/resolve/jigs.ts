/** Defaults of the jigs. A jig that is not named is not made. */
import type { GivenInstrument } from '../schema/instrument.ts';
import type { Instrument, RadiusBlock } from '../types.ts';
import { resolveCaul, resolveGauges, resolveTemplate } from './bridgeParts.ts';
import { type Fill, PRACTICE } from './fill.ts';

type Jigs = Instrument['jigs'];
type GivenJigs = NonNullable<GivenInstrument['jigs']>;

/** The jigs that are wanted, with their sizes; null for the others. */
export function resolveJigs(
  given: Partial<GivenInstrument>,
  board: GivenInstrument['fingerboard'],
  fill: Fill,
): Jigs {
  const jigs = given.jigs ?? {};
  const none = (path: string): null => fill.shown(path, undefined, null, 'none', 'this jig is not asked for');
  return {
    radiusBlock: jigs.radiusBlock ? resolveBlock(jigs.radiusBlock, board, fill) : none('jigs.radiusBlock'),
    pinTemplate: jigs.pinTemplate ? resolvePins(jigs.pinTemplate, fill) : none('jigs.pinTemplate'),
    slotTemplate: jigs.slotTemplate ? resolveSlots(jigs.slotTemplate, fill) : none('jigs.slotTemplate'),
    bridgeTemplate: jigs.bridgeTemplate
      ? resolveTemplate(jigs.bridgeTemplate, fill)
      : none('jigs.bridgeTemplate'),
    bridgeCaul: jigs.bridgeCaul ? resolveCaul(jigs.bridgeCaul, given, fill) : none('jigs.bridgeCaul'),
    pinGauges: jigs.pinGauges ? resolveGauges(jigs.pinGauges, fill) : none('jigs.pinGauges'),
    nutAndSaddle: jigs.nutAndSaddle
      ? {
          material: fill.plain('jigs.nutAndSaddle.material', jigs.nutAndSaddle.material, 'bone', PRACTICE),
          over: fill.length('jigs.nutAndSaddle.over', jigs.nutAndSaddle.over, 1, 'enough to true a blank'),
        }
      : none('jigs.nutAndSaddle'),
    sideMarkerTemplate: jigs.sideMarkerTemplate
      ? resolveSides(jigs.sideMarkerTemplate, board, fill)
      : none('jigs.sideMarkerTemplate'),
    lettering: jigs.lettering
      ? {
          height: fill.length('jigs.lettering.height', jigs.lettering.height, 3, 'easy to read at the bench'),
        }
      : fill.shown('jigs.lettering', undefined, null, 'none', 'no letters are asked for'),
  };
}

function resolveBlock(
  block: NonNullable<GivenJigs['radiusBlock']>,
  board: GivenInstrument['fingerboard'],
  fill: Fill,
): RadiusBlock {
  const at = 'jigs.radiusBlock';
  // Wide enough to rest on both edges of the widest place, rounded up to whole centimetres.
  const width = Math.min(150, Math.ceil((board.widthAt.width + 4) / 10) * 10);
  return {
    materialClass: fill.plain(`${at}.materialClass`, block.materialClass, 'plywood', PRACTICE),
    length: fill.length(`${at}.length`, block.length, 200, PRACTICE),
    width: fill.length(`${at}.width`, block.width, width, 'a little wider than the board'),
    height: fill.length(`${at}.height`, block.height, 40, 'high enough to grip'),
    plateThickness: fill.length(`${at}.plateThickness`, block.plateThickness, 3, 'a usual sheet'),
    plates: fill.plain(`${at}.plates`, block.plates, 5, 'carries the sole evenly'),
    dowelDiameter: fill.length(`${at}.dowelDiameter`, block.dowelDiameter, 8, 'a usual dowel'),
    padding: fill.length(`${at}.padding`, block.padding, 1.5, 'a thin sole and the abrasive'),
    radius: fill.shown(
      `${at}.radius`,
      block.radius,
      null,
      'that of the board',
      'it sands the board’s own radius',
    ),
  };
}

function resolvePins(
  template: NonNullable<GivenJigs['pinTemplate']>,
  fill: Fill,
): NonNullable<Jigs['pinTemplate']> {
  const at = 'jigs.pinTemplate';
  return {
    materialClass: fill.plain(`${at}.materialClass`, template.materialClass, 'plywood', 'a usual sheet'),
    thickness: fill.length(`${at}.thickness`, template.thickness, 3, 'a usual sheet'),
    margin: fill.length(`${at}.margin`, template.margin, 12, 'room to clamp'),
    pilot: fill.length(`${at}.pilot`, template.pilot, 1.6, 'guides the point of a drill'),
  };
}

function resolveSlots(
  template: NonNullable<GivenJigs['slotTemplate']>,
  fill: Fill,
): NonNullable<Jigs['slotTemplate']> {
  const at = 'jigs.slotTemplate';
  return {
    materialClass: fill.plain(`${at}.materialClass`, template.materialClass, 'plywood', 'a usual sheet'),
    thickness: fill.length(`${at}.thickness`, template.thickness, 3, 'a usual sheet'),
    width: fill.length(`${at}.width`, template.width, 30, 'stiff enough to lay along the board'),
  };
}

function resolveSides(
  template: NonNullable<GivenJigs['sideMarkerTemplate']>,
  board: GivenInstrument['fingerboard'],
  fill: Fill,
): NonNullable<Jigs['sideMarkerTemplate']> {
  const at = 'jigs.sideMarkerTemplate';
  // Above the underside as much as the board is thick, below it a batten; whole millimetres.
  const width = Math.ceil(Math.max(board.thickness, board.blankThickness ?? 0) + 14);
  return {
    materialClass: fill.plain(`${at}.materialClass`, template.materialClass, 'plywood', 'a usual sheet'),
    thickness: fill.length(`${at}.thickness`, template.thickness, 3, 'a usual sheet'),
    width: fill.length(`${at}.width`, template.width, width, 'the board and room for a batten below it'),
    pilot: fill.length(
      `${at}.pilot`,
      template.pilot,
      1,
      `an awl or a thin drill finds the middle (${PRACTICE})`,
    ),
  };
}
