import type { Piece } from '../parts/types.ts';
import type { Shop, StockItem } from '../profile/types.ts';
import type { Finding, Outcome } from '../report/finding.ts';
import type { Unit } from './guillotine.ts';
import { layoutOf, pieceOf } from './layoutOf.ts';
import { lyingWidth, mayTurn, whyNot } from './match.ts';
import type { Batch, Bin, Packing } from './pack.ts';
import { search } from './search.ts';
import { totalsOf } from './totals.ts';
import type { CutPlan, StockLayout, UnplacedPiece } from './types.ts';
import { buyFor, unplacedFinding } from './unplaced.ts';

/**
 * Places every piece on the shop's stock so that a saw can cut it, cheapest stock first; a piece that fits nowhere becomes
 * a warning with what to buy. Millimetres; the frame is that of `CutPlan`.
 * @example planCuts(piecesOf(instrument, parts), shop)
 */
export function planCuts(pieces: readonly Piece[], shop: Shop): Outcome<CutPlan> {
  pieces.forEach((piece) => {
    refuseNonsense(piece);
  });
  const packings = batchesOf(pieces, shop).map(search);
  const layouts = layoutsOf(packings, pieces, shop);
  const left = leftOf(packings, pieces);
  const plan: CutPlan = {
    sawKerf: shop.allowances.sawKerf,
    trim: shop.allowances.trim,
    currency: shop.currency,
    layouts,
    unplaced: left.map((unit) => unplacedPiece(unit, pieces, shop)),
    totals: totalsOf(layouts),
  };
  return { ok: true, value: plan, findings: findingsFor(left, pieces, shop) };
}

function refuseNonsense(piece: Piece): void {
  for (const size of [piece.length, piece.width, piece.thickness]) {
    if (!(size > 0 && Number.isFinite(size))) throw new Error(`piece ${piece.id} has a size of ${size}`);
  }
  if (!Number.isInteger(piece.count) || piece.count < 0) {
    throw new Error(`piece ${piece.id} has a count of ${piece.count}`);
  }
}

/** Pieces that share stock are planned together, others apart. Pieces that no stock suits are in no batch. */
function batchesOf(pieces: readonly Piece[], shop: Shop): Batch[] {
  const suits = new Map(
    pieces.map((piece, i) => [i, new Set(shop.stock.filter((s) => canCut(piece, s, shop)))] as const),
  );
  const groups = groupByStock([...suits]);
  return groups.map((members) => ({
    units: members.flatMap((i) => unitsOf(pieceOf(pieces, i), i)),
    stock: shop.stock.filter((s) => members.some((i) => suits.get(i)?.has(s))),
    suits,
    kerf: shop.allowances.sawKerf,
    trim: shop.allowances.trim,
  }));
}

function canCut(piece: Piece, stock: StockItem, shop: Shop): boolean {
  return piece.count > 0 && stock.count > 0 && whyNot(piece, stock, shop) === null;
}

function groupByStock(suits: readonly (readonly [number, ReadonlySet<StockItem>])[]): number[][] {
  let groups: { members: number[]; stock: Set<StockItem> }[] = [];
  for (const [piece, stock] of suits) {
    if (stock.size === 0) continue;
    const joined = groups.filter((g) => [...stock].some((s) => g.stock.has(s)));
    groups = [
      ...groups.filter((g) => !joined.includes(g)),
      {
        members: [...joined.flatMap((g) => g.members), piece],
        stock: new Set([...joined.flatMap((g) => [...g.stock]), ...stock]),
      },
    ];
  }
  return groups.map((g) => g.members);
}

function unitsOf(piece: Piece, index: number): Unit[] {
  return Array.from({ length: piece.count }, (_, i) => ({
    piece: index,
    number: i + 1,
    length: piece.length,
    width: lyingWidth(piece),
    mayTurn: mayTurn(piece),
  }));
}

function layoutsOf(packings: readonly Packing[], pieces: readonly Piece[], shop: Shop): StockLayout[] {
  const bins = packings.flatMap((p) => p.bins);
  return shop.stock.flatMap((stock) =>
    bins
      .filter((bin: Bin) => bin.stock === stock)
      .map((bin, i) => layoutOf(bin, i + 1, pieces, shop.allowances.sawKerf)),
  );
}

/** Units without stock, in the order of the pieces. */
function leftOf(packings: readonly Packing[], pieces: readonly Piece[]): Unit[] {
  const placed = new Set(
    packings.flatMap((p) =>
      p.bins.flatMap((b) => b.placements.map(({ unit }) => `${unit.piece} ${unit.number}`)),
    ),
  );
  return pieces
    .flatMap((piece, i) => unitsOf(piece, i))
    .filter((unit) => !placed.has(`${unit.piece} ${unit.number}`));
}

function unplacedPiece(unit: Unit, pieces: readonly Piece[], shop: Shop): UnplacedPiece {
  const piece = pieceOf(pieces, unit.piece);
  return { piece: piece.id, title: piece.title, number: unit.number, buy: buyFor(piece, shop) };
}

function findingsFor(left: readonly Unit[], pieces: readonly Piece[], shop: Shop): Finding[] {
  return pieces
    .map((piece, i) => ({ piece, missing: left.filter((u) => u.piece === i).length }))
    .filter(({ missing }) => missing > 0)
    .map(({ piece, missing }) => unplacedFinding(piece, missing, shop));
}
