import type { Piece } from '../parts/types.ts';
import type { StockItem } from '../profile/types.ts';
import type { Placement, Space } from './guillotine.ts';
import { SAME_LENGTH } from './match.ts';
import type { Bin } from './pack.ts';
import type { Offcut, PlacedPiece, SawCut, StockLayout } from './types.ts';

/** An offcut is kept when it is longer and wider than this; of a stick, longer. */
const LEAST_OFFCUT = 50;

/** A packed piece of stock as a bench reads it: pieces, saw cuts in order, offcuts worth keeping. */
export function layoutOf(bin: Bin, number: number, pieces: readonly Piece[], kerf: number): StockLayout {
  const { stock } = bin;
  return {
    stock: stock.id,
    number,
    kind: stock.kind,
    material: stock.material,
    materialClass: stock.materialClass,
    length: stock.length,
    width: stock.width,
    thickness: stock.thickness,
    price: stock.price,
    placed: bin.placements.map((p) => placedPiece(p, pieces, stock)),
    cuts: bin.placements.flatMap((p) => cutsOf(p, kerf, stock)),
    offcuts: bin.spaces.map((s) => offcutOf(s, kerf, stock)).filter((o) => isKept(o, stock.kind)),
  };
}

/** The piece a unit is one of. */
export function pieceOf(pieces: readonly Piece[], index: number): Piece {
  const piece = pieces[index];
  if (piece === undefined) throw new Error(`piece ${index} of ${pieces.length}`);
  return piece;
}

function placedPiece(
  { unit, x, y, turned }: Placement,
  pieces: readonly Piece[],
  stock: StockItem,
): PlacedPiece {
  const piece = pieceOf(pieces, unit.piece);
  return {
    piece: piece.id,
    title: piece.title,
    number: unit.number,
    x,
    y,
    length: turned ? unit.width : unit.length,
    width: stock.kind === 'stick' ? stock.width : turned ? unit.length : unit.width,
    thickness: piece.thickness,
    turned,
  };
}

/** The rectangle of wood in a space: a space is one kerf longer and wider. */
function woodOf(space: Space, kerf: number): Offcut {
  return { x: space.x, y: space.y, length: space.length - kerf, width: space.width - kerf };
}

function offcutOf(space: Space, kerf: number, stock: StockItem): Offcut {
  const wood = woodOf(space, kerf);
  return stock.kind === 'stick' ? { ...wood, width: stock.width } : wood;
}

function isKept(offcut: Offcut, kind: StockLayout['kind']): boolean {
  return offcut.length > LEAST_OFFCUT && (kind === 'stick' || offcut.width > LEAST_OFFCUT);
}

/** The cuts that free a piece from its rectangle, none where the wood already ends. */
function cutsOf(placement: Placement, kerf: number, stock: StockItem): SawCut[] {
  return stock.kind === 'stick' ? cutsOfStick(placement, kerf, stock) : cutsOfPlate(placement, kerf);
}

function cutsOfStick({ unit, space }: Placement, kerf: number, stock: StockItem): SawCut[] {
  const wood = woodOf(space, kerf);
  if (wood.length <= unit.length + SAME_LENGTH) return [];
  return [{ direction: 'across', at: wood.x + unit.length, from: 0, to: stock.width }];
}

function cutsOfPlate(placement: Placement, kerf: number): SawCut[] {
  const { unit, turned, first } = placement;
  const wood = woodOf(placement.space, kerf);
  const length = turned ? unit.width : unit.length;
  const width = turned ? unit.length : unit.width;
  const across: SawCut = {
    direction: 'across',
    at: wood.x + length,
    from: wood.y,
    to: wood.y + (first === 'across' ? wood.width : width),
  };
  const along: SawCut = {
    direction: 'along',
    at: wood.y + width,
    from: wood.x,
    to: wood.x + (first === 'along' ? wood.length : length),
  };
  const isNeeded = (cut: SawCut): boolean =>
    cut === across ? wood.length > length + SAME_LENGTH : wood.width > width + SAME_LENGTH;
  return (first === 'across' ? [across, along] : [along, across]).filter(isNeeded);
}
