import type { Piece } from '../parts/types.ts';
import type { Shop, StockItem } from '../profile/types.ts';
import { formatShort } from '../units/format.ts';

/** A sheet's thickness is what the piece is; the two may differ by no more than this. */
const SHEET_THICKNESS_WITHIN = 0.3;

/** A stick has to go through holes made for it. */
const STICK_DIAMETER_WITHIN = 0.1;

/** Doubles that differ by less are the same length: 1e-6 mm is far below any saw. */
export const SAME_LENGTH = 1e-6;

/** A stick is cut along its length only: while pieces are placed, every stick and its pieces count as this wide. */
const STICK_WIDTH = 1;

/** What is left of a piece of stock once its edges are trimmed: all four, of a stick the two ends. */
export function usable(stock: StockItem, trim: number): { readonly length: number; readonly width: number } {
  return {
    length: stock.length - 2 * trim,
    width: stock.kind === 'stick' ? STICK_WIDTH : stock.width - 2 * trim,
  };
}

/** Whether a piece may lie with its length across the stock: only when its grain does not matter. */
export function mayTurn(piece: Piece): boolean {
  return piece.kind !== 'stick' && !piece.grain;
}

/**
 * Why a piece cannot be cut from an otherwise empty piece of stock, in words that go after the stock's name; null when it can.
 * @example whyNot(piece, stock, shop) // '12 mm too short once 2 mm are trimmed off each end'
 */
export function whyNot(piece: Piece, stock: StockItem, shop: Shop): string | null {
  return kindProblem(piece, stock) ?? thicknessProblem(piece, stock) ?? sizeProblem(piece, stock, shop);
}

function kindProblem(piece: Piece, stock: StockItem): string | null {
  if (stock.kind !== piece.kind) return `a ${stock.kind}, not a ${piece.kind}`;
  if (piece.material !== null && plain(piece.material) !== plain(stock.material)) {
    return `${stock.material}, not ${piece.material}`;
  }
  if (piece.materialClass !== null && piece.materialClass !== stock.materialClass) {
    return `${stock.materialClass}, not ${piece.materialClass}`;
  }
  return null;
}

function thicknessProblem(piece: Piece, stock: StockItem): string | null {
  const over = stock.thickness - piece.thickness;
  const has = formatShort(stock.thickness, 2);
  if (piece.kind === 'board') return over >= -SAME_LENGTH ? null : `only ${has} mm thick`;
  const within = piece.kind === 'sheet' ? SHEET_THICKNESS_WITHIN : STICK_DIAMETER_WITHIN;
  if (Math.abs(over) <= within + SAME_LENGTH) return null;
  return piece.kind === 'sheet' ? `${has} mm thick` : `${has} mm in diameter`;
}

function sizeProblem(piece: Piece, stock: StockItem, shop: Shop): string | null {
  const { trim } = shop.allowances;
  const room = usable(stock, trim);
  const straight = lacks(piece.length, lyingWidth(piece), room);
  if (straight === null) return null;
  if (mayTurn(piece) && lacks(piece.width, piece.length, room) === null) return null;
  return `${straight} once ${formatShort(trim, 2)} mm are trimmed off each ${piece.kind === 'stick' ? 'end' : 'edge'}`;
}

/** A piece's width while it is placed. */
export function lyingWidth(piece: Piece): number {
  return piece.kind === 'stick' ? STICK_WIDTH : piece.width;
}

function lacks(length: number, width: number, room: { length: number; width: number }): string | null {
  const short = length - room.length;
  const narrow = width - room.width;
  const words = [
    short > SAME_LENGTH ? `${formatShort(short, 2)} mm too short` : '',
    narrow > SAME_LENGTH ? `${formatShort(narrow, 2)} mm too narrow` : '',
  ].filter((w) => w !== '');
  return words.length === 0 ? null : words.join(' and ');
}

/** Names are the same when they differ in case and spaces only. */
function plain(name: string): string {
  return name.trim().replace(/\s+/gu, ' ').toLowerCase();
}
