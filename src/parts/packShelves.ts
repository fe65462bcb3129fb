/** Small parts on pieces of stock, in rows one above the other: nothing is sawn here, so no cut must run right across. */
import type { Vec } from '../geometry/types.ts';

export interface Item {
  readonly length: number;
  readonly width: number;
}

export interface Room extends Item {
  /** Waste between two parts and beside the edges of a piece. */
  readonly between: number;
}

export interface PackedItem {
  /** Number of the item, from 0. */
  readonly item: number;
  /** Its middle on the piece. */
  readonly at: Vec;
  /** Turned a quarter counter-clockwise. */
  readonly turned: boolean;
}

interface Lying {
  readonly item: number;
  readonly turned: boolean;
  readonly dx: number;
  readonly dy: number;
}

/** A row: where it begins in y, how high it is, and how far it is filled. */
interface Row {
  readonly y: number;
  readonly height: number;
  filled: number;
}

interface Piece {
  readonly rows: Row[];
  readonly placed: PackedItem[];
}

/** Rounding of sums. Millimetres. */
const HAIR = 1e-9;

/** Whether an item has room on a piece, lying one way or the other. */
export function hasRoom(item: Item, room: Room): boolean {
  return lieOf(item, 0, room) !== null;
}

/** Items on as few pieces as rows give, the highest first, each lying flat where it can. One list for each piece. */
export function packShelves(items: readonly Item[], room: Room): PackedItem[][] {
  const lying = items.map((item, i) => {
    const lie = lieOf(item, i, room);
    if (lie === null)
      throw new Error(`an item of ${item.length} by ${item.width} on a piece of ${room.length}`);
    return lie;
  });
  const pieces: Piece[] = [];
  for (const lie of lying.toSorted((a, b) => b.dy - a.dy || b.dx - a.dx || a.item - b.item)) {
    const isPlaced = pieces.some((piece) => place(piece, lie, room));
    if (isPlaced) continue;
    const piece: Piece = { rows: [], placed: [] };
    pieces.push(piece);
    if (!place(piece, lie, room)) throw new Error(`item ${lie.item} does not fit an empty piece`);
  }
  return pieces.map((piece) => piece.placed);
}

/** Its longer side along the piece where that fits, so that rows are low. */
function lieOf({ length, width }: Item, item: number, { length: l, width: w, between }: Room): Lying | null {
  const ways = [
    { item, turned: false, dx: length, dy: width },
    { item, turned: true, dx: width, dy: length },
  ].filter(({ dx, dy }) => dx + 2 * between <= l + HAIR && dy + 2 * between <= w + HAIR);
  return ways.toSorted((a, b) => a.dy - b.dy)[0] ?? null;
}

function place(piece: Piece, lie: Lying, { length, width, between }: Room): boolean {
  const row =
    piece.rows.find((r) => lie.dy <= r.height + HAIR && r.filled + lie.dx + between <= length + HAIR) ??
    newRow(piece, lie, width, between);
  if (row === null) return false;
  piece.placed.push({
    item: lie.item,
    at: [row.filled + lie.dx / 2, row.y + lie.dy / 2],
    turned: lie.turned,
  });
  row.filled += lie.dx + between;
  return true;
}

function newRow(piece: Piece, lie: Lying, width: number, between: number): Row | null {
  const last = piece.rows.at(-1);
  const y = last === undefined ? between : last.y + last.height + between;
  if (y + lie.dy + between > width + HAIR) return null;
  const row: Row = { y, height: lie.dy, filled: between };
  piece.rows.push(row);
  return row;
}
