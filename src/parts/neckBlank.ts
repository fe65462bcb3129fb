/** The neck's blank: the truss rod's channel, the index pins' holes, and the pieces of wood it is glued from. */
import type { IndexPin, Layout, NeckLayout } from '../layout/types.ts';
import type { Instrument, NeckBlank } from '../profile/types.ts';
import type { PartSettings } from './settings.ts';
import type { Feature, HoleFeature, Part, Piece, PocketFeature } from './types.ts';

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
  const pins = layout.indexPins.filter(({ at }) => at[0] < neck.end);
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
        box: { x: [neck.breakX, neck.end + settings.allowances.ends], y: [-half, half] },
        thickness: blank.thickness,
        top: { kind: 'plane', z: 0 },
      },
      features,
      datum: 'scale zero on the centreline, z = 0 on the face that the board is glued to',
      sawnFrom: 'neck-board',
      zero: ZERO,
    },
  ];
}

const ZERO =
  'X0 on the line where the face of the head begins (the back of the nut: square it across with a knife), Y0 halfway between the blank’s two long edges (touch both and halve), Z0 on the face that the board is glued to; the head hangs over the end of the table';

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
    boardPiece(blank, neck, settings),
    ...heelBlocks(instrument, blank, settings),
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
export function neckBoard({ scarf, head, breakX, end }: NeckLayout, { allowances }: PartSettings): NeckBoard {
  const spare = 2 * allowances.ends;
  if (scarf === null) {
    const length = end - breakX + (head === null ? 0 : head.length * Math.cos(head.angle)) + spare;
    return { length, shaftBack: length, shaftTop: length };
  }
  const shaftBack = end - scarf.seamBack + allowances.ends;
  const shaftTop = end - scarf.seamTop + allowances.ends;
  const kerf = allowances.sawKerf / Math.sin(head?.angle ?? Math.PI / 2);
  return { length: shaftBack + kerf + (head?.length ?? 0) + allowances.ends, shaftBack, shaftTop };
}

function boardPiece(blank: NeckBlank, neck: NeckLayout, settings: PartSettings): Piece {
  const { length } = neckBoard(neck, settings);
  const title = neck.scarf === null ? 'Neck blank' : 'Neck board, for shaft and head';
  return piece('neck-board', title, blank, {
    length,
    width: blank.width,
    thickness: blank.thickness,
    count: 1,
  });
}

/** How many blocks lie under the shaft to make up the heel's depth; each is as long as heel and tenon. */
export function heelStack(
  { neckJoint: joint }: Instrument,
  blank: NeckBlank,
): { count: number; length: number } {
  if (joint === null || blank.heel === 'one piece') return { count: 0, length: 0 };
  const under = joint.heelDepth + joint.boardAboveRim - blank.thickness;
  return {
    count: Math.max(0, Math.ceil(under / blank.thickness - 1e-9)),
    length: blank.heelLength + blank.pastJoint,
  };
}

function heelBlocks(instrument: Instrument, blank: NeckBlank, settings: PartSettings): Piece[] {
  const { count, length } = heelStack(instrument, blank);
  if (count === 0) return [];
  return [
    piece('neck-heel', 'Heel block, grain as the shaft’s', blank, {
      length: length + settings.allowances.ends,
      width: blank.width,
      thickness: blank.thickness,
      count,
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
