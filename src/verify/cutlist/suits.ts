import type { Piece } from '../../parts/types.ts';
import type { Shop, StockItem } from '../../profile/types.ts';
import { SAME } from './check.ts';

/** A sheet may differ from the wanted thickness by this, a stick from the wanted diameter by that. Millimetres. */
const SHEET_WITHIN = 0.3;
const STICK_WITHIN = 0.1;

/** Whether the wood is right: kind, material, class, thickness. */
export function isRightWood(piece: Piece, stock: StockItem): boolean {
  const named = piece.material === null || spelt(piece.material) === spelt(stock.material);
  const classed = piece.materialClass === null || piece.materialClass === stock.materialClass;
  return piece.kind === stock.kind && named && classed && isThickEnough(piece, stock);
}

/** Whether one piece alone could be sawn from an empty piece of stock. */
export function hasRoom(piece: Piece, stock: StockItem, shop: Shop): boolean {
  const room = [stock.length - 2 * shop.allowances.trim, stock.width - 2 * shop.allowances.trim] as const;
  if (piece.kind === 'stick') return piece.length < room[0];
  const straight = piece.length < room[0] && piece.width < room[1];
  return straight || (!piece.grain && piece.width < room[0] && piece.length < room[1]);
}

function isThickEnough(piece: Piece, stock: StockItem): boolean {
  const spare = stock.thickness - piece.thickness;
  switch (piece.kind) {
    case 'board':
      return spare >= -SAME;
    case 'sheet':
      return Math.abs(spare) <= SHEET_WITHIN + SAME;
    case 'stick':
      return Math.abs(spare) <= STICK_WITHIN + SAME;
  }
}

const spelt = (name: string): string => name.toLowerCase().split(/\s+/u).filter(Boolean).join(' ');
