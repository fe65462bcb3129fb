/** The neck's blank: the truss rod's channel, the index pins' holes, and the pieces of wood it is glued from. */

import { bounds } from '../geometry/ring.ts';
import type { IndexPin, Layout, NeckLayout } from '../layout/types.ts';
import type { Instrument, NeckBlank } from '../profile/types.ts';
import { formatShort } from '../units/format.ts';
import type { PartSettings } from './settings.ts';
import type { BenchStep, Feature, HoleFeature, Part, Piece, PocketFeature } from './types.ts';

/** How deep the index pins' holes go into the neck: as deep as the pins stand in a usual board. */
const PIN_DEPTH = 6;

/**
 * The neck's blank, squared and, of a scarfed neck, glued: the board's face up, the head hanging over the table's end. None where
 * nothing is cut into it.
 */
export function makeNeckBlank(instrument: Instrument, layout: Layout, settings: PartSettings): Part[] {
  const { neckBlank: blank } = instrument;
  const { neck, rodCuts } = layout;
  if (neck === null || blank === null) return [];
  const pins = layout.indexPins.filter((pin) => pin.at[0] + pin.diameter / 2 < neck.end);
  const features: Feature[] = [
    ...pins.map((pin) => pinHole(pin)),
    ...rodCuts.map(
      (cut): PocketFeature => ({
        id: cut.id,
        work: 'neckBlank',
        kind: 'pocket',
        region: { outer: cut.ring, holes: [] },
        floor: { kind: 'plane', z: -cut.depth },
      }),
    ),
  ];
  if (features.length === 0) return [];
  const half = blank.width / 2;
  return [
    {
      id: 'neck-blank',
      title: 'Neck blank',
      material: blank.wood,
      materialClass: blank.materialClass,
      blank: {
        box: { x: [neck.breakX, neck.end + pastEnd(layout, neck, settings)], y: [-half, half] },
        thickness: blank.thickness,
        top: { kind: 'plane', z: 0 },
      },
      features,
      datum: 'scale zero on the centreline, z = 0 on the face that the board is glued to',
      sawnFrom: 'neck-board',
      zero: ZERO,
      benchSteps: fillerStep(instrument),
    },
  ];
}

function fillerStep({ trussRod }: Instrument): BenchStep[] {
  if (trussRod?.filler === undefined) return [];
  return [
    {
      step: 'glue-rod-filler',
      follows: 'neckBlank',
      why: `the rod lies in its channel, turns or bends as it should, and is covered by a strip ${formatShort(trussRod.filler, 2)} mm thick; no glue may reach the rod; plane the strip level with the neck`,
    },
  ];
}

/** The blank past the neck's end: so much that a pocket which comes out there ends in waste. */
function pastEnd({ rodCuts }: Layout, neck: NeckLayout, { allowances }: PartSettings): number {
  const last = Math.max(neck.end, ...rodCuts.map(({ ring }) => bounds(ring).x[1]));
  return last === neck.end ? allowances.ends : Math.max(allowances.ends, last - neck.end + WASTE);
}

/** Wood left past a pocket in the waste. */
const WASTE = 3;

/** Short, because it stands in one line of each program. */
const ZERO =
  'X0 on the back of the nut, where the head’s face begins; Y0 halfway between the blank’s long edges; Z0 on the face for the board; the head hangs over the table’s end';

function pinHole(pin: IndexPin): HoleFeature {
  return {
    id: `neck-${pin.id}`,
    work: 'neckBlank',
    kind: 'hole',
    at: pin.at,
    diameter: pin.diameter,
    depth: PIN_DEPTH,
    through: false,
  };
}

/** The wood of a neck as it is sawn: one board, the blocks of a stacked heel, the strip over the rod. */
export function neckPieces(instrument: Instrument, layout: Layout, settings: PartSettings): Piece[] {
  const { neckBlank: blank, trussRod } = instrument;
  const { neck } = layout;
  if (neck === null || blank === null) return [];
  return [
    boardPiece(blank, layout, neck, settings),
    ...heelBlocks(blank, neck, settings),
    ...(trussRod?.filler === undefined
      ? []
      : [
          piece('truss-rod-filler', 'Strip over the truss rod', blank, {
            length: trussRod.length,
            width: trussRod.width,
            thickness: trussRod.filler,
            count: 1,
          }),
        ]),
  ];
}

/** Lengths along the board that a neck comes out of, from the end of the shaft. */
export interface NeckBoard {
  readonly length: number;
  /** Length of the shaft at its back: the saw comes out here. */
  readonly shaftBack: number;
  /** Length of the shaft at its top: the saw goes in here. */
  readonly shaftTop: number;
}

/**
 * How long the board is, and where the scarf is sawn. The bevel of the shaft and that of the head are the same cut: the head's piece is
 * turned over, so that its short side becomes the face.
 */
export function neckBoard(
  { scarf, head, breakX, end }: NeckLayout,
  { allowances }: PartSettings,
  past = allowances.ends,
): NeckBoard {
  if (scarf === null) {
    const tip = head === null ? 0 : head.length * Math.cos(head.angle);
    const length = end - breakX + tip + allowances.ends + past;
    return { length, shaftBack: length, shaftTop: length };
  }
  const shaftBack = end - scarf.seamBack + past;
  const shaftTop = end - scarf.seamTop + past;
  const kerf = allowances.sawKerf / Math.sin(head?.angle ?? Math.PI / 2);
  return { length: shaftBack + kerf + (head?.length ?? 0) + allowances.ends, shaftBack, shaftTop };
}

function boardPiece(blank: NeckBlank, layout: Layout, neck: NeckLayout, settings: PartSettings): Piece {
  const board = neckBoard(neck, settings, pastEnd(layout, neck, settings));
  const title = neck.scarf === null ? 'Neck blank' : 'Neck board, for shaft and head';
  const size = { length: board.length, width: blank.width, thickness: blank.thickness, count: 1 };
  return { ...piece('neck-board', title, blank, size), note: sawingNote(board, neck, settings) };
}

/** Where the saw goes, from the shaft's end of the board. */
function sawingNote(board: NeckBoard, { scarf, head }: NeckLayout, { allowances }: PartSettings): string {
  if (scarf === null || head === null)
    return 'head and shaft are sawn from it along the side view (drawings/neck-side.dxf)';
  const mm = (length: number): string => `${formatShort(length, 2)} mm`;
  return (
    `saw the scarf at ${degrees(head.angle)}: in at ${mm(board.shaftTop)} from the shaft’s end on the face that the board is glued to, out at ${mm(board.shaftBack)} on the back; the bevel is ${mm(scarf.bevel)} long. ` +
    `Turn the other piece over: what was its back becomes the face of the head. Its bevel was made by the same cut, ${mm(allowances.sawKerf)} of kerf counted`
  );
}

function heelBlocks(blank: NeckBlank, { heel }: NeckLayout, settings: PartSettings): Piece[] {
  if (heel === null || heel.blocks === 0) return [];
  return [
    piece('neck-heel', 'Heel block, grain as the shaft’s', blank, {
      length: heel.x[1] - heel.x[0] + settings.allowances.ends,
      width: blank.width,
      thickness: blank.thickness,
      count: heel.blocks,
    }),
  ];
}

function piece(
  id: string,
  title: string,
  { wood, materialClass }: NeckBlank,
  size: Pick<Piece, 'length' | 'width' | 'thickness' | 'count'>,
): Piece {
  return { id, title, kind: 'board', material: wood, materialClass, ...size, grain: true };
}

const degrees = (angle: number): string => `${formatShort((angle * 180) / Math.PI, 2)} deg`;
