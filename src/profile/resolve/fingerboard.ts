/** Defaults of the fingerboard. */
import type { Binding, EndArtwork, Fingerboard, RadiusAlong } from '../boardTypes.ts';
import type { GivenInstrument } from '../schema/instrument.ts';
import { type Fill, PRACTICE } from './fill.ts';

type Given = GivenInstrument['fingerboard'];

/** The whole section. A board with binding and one without differ in what is common for the ends of slots. */
export function resolveFingerboard(board: Given, fill: Fill): Fingerboard {
  const { radiusAt: _radiusAt, binding: _binding, ...plain } = board;
  return {
    ...plain,
    widthAt: { fret: board.widthAt.fret ?? null, width: board.widthAt.width },
    blankThickness: fill.length(
      'fingerboard.blankThickness',
      board.blankThickness,
      board.thickness,
      'the blank is already planed to the finished thickness at its middle',
    ),
    ...resolveEnd(board, fill),
    radiusAlong: resolveAlong(board, fill),
    surfaceWhenSlotted: fill.plain(
      'fingerboard.surfaceWhenSlotted',
      board.surfaceWhenSlotted,
      'flat',
      `the board is slotted flat and radiused afterwards (${PRACTICE})`,
    ),
    slotFloor: fill.plain(
      'fingerboard.slotFloor',
      board.slotFloor,
      'follows',
      'every part of the tang has the same room, and the middle keeps its strength',
    ),
    slotsStopShort: fill.length(
      'fingerboard.slotsStopShort',
      board.slotsStopShort,
      0,
      `slots run out at the edges, as a saw cuts them (${PRACTICE})`,
    ),
    binding: resolveBinding(board, fill),
  };
}

type End = Pick<Fingerboard, 'endAngle' | 'endArc' | 'endRounding' | 'endArtwork'>;

function resolveEnd(board: Given, fill: Fill): End {
  return {
    endArtwork: resolveEndArtwork(board, fill),
    endAngle: fill.angle('fingerboard.endAngle', board.endAngle, 0, 'the body end is square'),
    endArc: fill.shown(
      'fingerboard.endArc',
      board.endArc ?? undefined,
      null,
      'none',
      'the body end is straight',
    ),
    endRounding: fill.length(
      'fingerboard.endRounding',
      board.endRounding,
      0,
      'sharp corners at the body end',
    ),
  };
}

function resolveEndArtwork({ endArtwork }: Given, fill: Fill): EndArtwork | null {
  const at = 'fingerboard.endArtwork';
  if (endArtwork === undefined)
    return fill.shown(at, undefined, null, 'none', 'the body end is a line or an arc');
  return {
    file: endArtwork.file,
    cornerRadius: fill.length(
      `${at}.cornerRadius`,
      endArtwork.cornerRadius,
      1.6,
      `what a 1/8 in cutter gets into (${PRACTICE})`,
    ),
  };
}

function resolveAlong({ radiusAt, radiusAlong }: Given, fill: Fill): RadiusAlong {
  const kind = fill.plain(
    'fingerboard.radiusAlong',
    radiusAlong,
    radiusAt === undefined ? 'constant' : 'cone',
    radiusAt === undefined ? 'no second radius is given' : 'a second radius is given',
  );
  // A cone without its second radius, or a second radius without a cone, is told by the checks.
  if (radiusAt !== undefined) return { kind: 'cone', fret: radiusAt.fret ?? null, radius: radiusAt.radius };
  return kind === 'matched' ? { kind } : { kind: 'constant' };
}

function resolveBinding({ binding }: Given, fill: Fill): Binding | null {
  if (binding === undefined)
    return fill.shown('fingerboard.binding', undefined, null, 'none', 'no binding is asked for');
  const at = 'fingerboard.binding';
  return {
    material: fill.plain(`${at}.material`, binding.material, 'binding', 'any strip of that width'),
    width: binding.width,
    around: fill.plain(`${at}.around`, binding.around, 'sides', `the end is left bare (${PRACTICE})`),
    trim: fill.length(`${at}.trim`, binding.trim, 20, `10 mm to cut off at each end (${PRACTICE})`),
    channelDepth: fill.shown(
      `${at}.channelDepth`,
      binding.channelDepth,
      null,
      'none',
      'the strips are as high as the board, which is made narrower by them',
    ),
  };
}
