import type { Piece } from '../parts/types.ts';
import type { Shop } from '../profile/types.ts';
import type { Finding } from '../report/finding.ts';
import { formatShort } from '../units/format.ts';
import { whyNot } from './match.ts';

/** What to buy for a piece that fits on nothing, in words, with the shop's trim added to its size. */
export function buyFor(piece: Piece, shop: Shop): string {
  const { trim } = shop.allowances;
  const length = mm(piece.length + 2 * trim);
  const what = materialOf(piece);
  if (piece.kind === 'stick') {
    return `a stick of ${what}, ${mm(piece.thickness)} mm in diameter, at least ${length} mm long`;
  }
  const size = `at least ${length} x ${mm(piece.width + 2 * trim)} mm`;
  return piece.kind === 'sheet'
    ? `a sheet of ${what}, ${mm(piece.thickness)} mm thick, ${size}`
    : `a board of ${what}, ${size} and at least ${mm(piece.thickness)} mm thick`;
}

/** What is missing, what was tried, and what to buy. A warning: the plan for the other pieces stands. */
export function unplacedFinding(piece: Piece, missing: number, shop: Shop): Finding {
  const others = shop.stock.map((s) => [s, whyNot(piece, s, shop)] as const);
  const sameKind = others.filter(([s]) => s.kind === piece.kind);
  const tried = sameKind.map(([s, why]) => `"${s.id}": ${why ?? `all ${s.count} are used up`}`);
  return {
    code: 'piece-fits-no-stock',
    severity: 'warning',
    where: { source: 'shop', path: 'stock' },
    text: `${piece.title}: ${missing} of ${piece.count} ${missing === 1 ? 'has' : 'have'} no stock. Needed: ${sizeOf(piece)}.`,
    found: tried.length === 0 ? `no ${piece.kind} in the shop file at all` : tried.join('; '),
    allowed: buyFor(piece, shop),
    remedy: `buy ${buyFor(piece, shop)}, add it to the stock in the shop file, and plan again`,
  };
}

function sizeOf(piece: Piece): string {
  const what = materialOf(piece);
  if (piece.kind === 'stick')
    return `${mm(piece.length)} mm of ${what}, ${mm(piece.thickness)} mm in diameter`;
  const grain = piece.grain ? ', grain along the length' : '';
  return `${mm(piece.length)} x ${mm(piece.width)} x ${mm(piece.thickness)} mm of ${what}${grain}`;
}

function materialOf(piece: Piece): string {
  return piece.material ?? piece.materialClass ?? 'any wood';
}

function mm(value: number): string {
  return formatShort(value, 2);
}
