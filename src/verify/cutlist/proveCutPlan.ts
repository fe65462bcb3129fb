import type { CutPlan, PlacedPiece, StockLayout } from '../../cutlist/types.ts';
import type { Piece } from '../../parts/types.ts';
import type { Shop, StockItem } from '../../profile/types.ts';
import { checkFaults, checkWorst, SAME } from './check.ts';
import { isGuillotine } from './guillotine.ts';
import { isSame, saw } from './saw.ts';
import { hasRoom, isRightWood } from './suits.ts';
import { measureTotals } from './totals.ts';
import type { CutCheck, Measured, Rect } from './types.ts';

/** An offcut that is listed must be longer and wider than this; of a stick, longer. */
const LEAST_OFFCUT = 50;

/** One placed piece with all that belongs to it. */
interface Lying {
  readonly placed: PlacedPiece;
  readonly layout: StockLayout;
  readonly piece: Piece | undefined;
  readonly stock: StockItem | undefined;
}

interface Case {
  readonly plan: CutPlan;
  readonly pieces: readonly Piece[];
  readonly shop: Shop;
  readonly lying: readonly Lying[];
  /** How many pieces must lie somewhere: all that are wanted less those reported as having no stock. */
  readonly expected: number;
}

/**
 * Checks a cut plan against the wanted pieces and the shop: nothing lost, nothing twice, inside trimmed stock, kerfs
 * counted, grain kept, right wood, stock not exceeded, cuttable by straight cuts in the stated order. Lengths in mm.
 */
export function proveCutPlan(plan: CutPlan, pieces: readonly Piece[], shop: Shop): CutCheck[] {
  const wanted = pieces.reduce((sum, p) => sum + p.count, 0);
  const lying = plan.layouts.flatMap((layout) =>
    layout.placed.map(
      (placed): Lying => ({
        placed,
        layout,
        piece: pieces.find((p) => p.id === placed.piece),
        stock: shop.stock.find((s) => s.id === layout.stock),
      }),
    ),
  );
  const it: Case = { plan, pieces, shop, lying, expected: wanted - plan.unplaced.length };
  return [
    checkOnce(it, wanted),
    checkFaults('the stock is what the shop has', stockFaults(it), plan.layouts.length + 1),
    checkWorst('each piece has its size', it.lying.map(sizeError), it.expected, SAME),
    checkFaults('material and thickness are right', it.lying.map(woodFault), it.expected),
    checkFaults('the grain is kept', it.lying.map(grainFault), it.expected),
    checkWorst(
      'each piece is inside its trimmed stock',
      it.lying.map((l) => overrun(l, shop)),
      it.expected,
      SAME,
    ),
    checkWorst(
      'a kerf lies between any two pieces',
      it.lying.map((l) => kerfLack(l, shop)),
      it.expected,
      SAME,
    ),
    checkFaults(
      'straight cuts part all pieces',
      plan.layouts.map((l) => partFault(l, shop)),
      plan.layouts.length,
    ),
    checkFaults('the cuts in their order free each piece', sawFaults(it), it.expected),
    checkFaults('offcuts are free wood worth keeping', offcutFaults(it), countOffcuts(plan)),
    checkFaults('no piece is left out needlessly', leftOutFaults(it), plan.unplaced.length),
    checkWorst('the totals add up', measureTotals(plan, shop), 3 + 5 * plan.totals.kinds.length, 1e-9),
  ];
}

function checkOnce({ plan, pieces, lying }: Case, wanted: number): CutCheck {
  const named = [...lying.map((l) => l.placed), ...plan.unplaced].map((p) => `${p.piece} ${p.number}`);
  const names = pieces.flatMap((p) => Array.from({ length: p.count }, (_, i) => `${p.id} ${i + 1}`));
  const faults = names.map((name) => {
    const times = named.filter((n) => n === name).length;
    return times === 1 ? null : `${name} is listed ${times} times`;
  });
  const strangers = named.filter((n) => !names.includes(n)).map((n) => `${n} is not wanted`);
  const name = 'each piece is placed or reported once';
  if (wanted === 0) return checkFaults(name, ['there are no pieces'], 1);
  return checkFaults(name, [...faults, ...strangers], wanted + strangers.length);
}

function stockFaults({ plan, shop }: Case): (string | null)[] {
  const { sawKerf, trim } = shop.allowances;
  const allowances =
    plan.sawKerf === sawKerf && plan.trim === trim ? null : 'kerf or trim is not that of the shop';
  return [allowances, ...plan.layouts.map((layout) => stockFault(layout, plan, shop))];
}

function stockFault(layout: StockLayout, plan: CutPlan, shop: Shop): string | null {
  const name = `${layout.stock} no. ${layout.number}`;
  const stock = shop.stock.find((s) => s.id === layout.stock);
  if (stock === undefined) return `${name} is not in the shop`;
  const twice =
    plan.layouts.filter((l) => l.stock === layout.stock && l.number === layout.number).length !== 1;
  if (twice) return `${name} is used twice`;
  const counted = Number.isInteger(layout.number) && layout.number >= 1 && layout.number <= stock.count;
  if (!counted) return `${name}: the shop has ${stock.count}`;
  const keys = ['kind', 'material', 'materialClass', 'length', 'width', 'thickness', 'price'] as const;
  const wrong = keys.find((key) => layout[key] !== stock[key]);
  return wrong === undefined ? null : `${name}: ${wrong} is not that of the shop`;
}

function sizeError({ placed, layout, piece }: Lying): Measured {
  const place = nameOf(placed, layout);
  if (piece === undefined) return { value: Number.NaN, place };
  const isStick = piece.kind === 'stick';
  const length = placed.turned ? piece.width : piece.length;
  const width = isStick ? layout.width : placed.turned ? piece.length : piece.width;
  const errors = [placed.length - length, placed.width - width, placed.thickness - piece.thickness];
  return { value: Math.max(...errors.map(Math.abs)), place };
}

function woodFault({ placed, layout, piece, stock }: Lying): string | null {
  const right = piece !== undefined && stock !== undefined && isRightWood(piece, stock);
  return right ? null : `${nameOf(placed, layout)}: not its material or thickness`;
}

function grainFault({ placed, layout, piece }: Lying): string | null {
  const free = piece !== undefined && !piece.grain && piece.kind !== 'stick';
  return !placed.turned || free ? null : `${nameOf(placed, layout)} lies across the grain`;
}

function overrun({ placed, layout }: Lying, shop: Shop): Measured {
  const room = trimmed(layout, shop);
  const value = Math.max(
    room.x - placed.x,
    room.y - placed.y,
    placed.x + placed.length - room.x - room.length,
    placed.y + placed.width - room.y - room.width,
  );
  return { value, place: nameOf(placed, layout) };
}

/** The most that is missing of a kerf between a piece and any other on the same stock; an overlap is more than a kerf. */
function kerfLack({ placed, layout }: Lying, shop: Shop): Measured {
  const others = layout.placed.filter((other) => other !== placed);
  const lacks = others.map((other) => shop.allowances.sawKerf - gap(placed, other));
  return { value: Math.max(Number.NEGATIVE_INFINITY, ...lacks, 0), place: nameOf(placed, layout) };
}

/** Distance between two rectangles along the axis that parts them better; negative when they overlap. */
function gap(a: Rect, b: Rect): number {
  return Math.max(a.x - b.x - b.length, b.x - a.x - a.length, a.y - b.y - b.width, b.y - a.y - a.width);
}

function partFault(layout: StockLayout, shop: Shop): string | null {
  if (layout.placed.length === 0) return `${layout.stock} no. ${layout.number} is used for nothing`;
  const parted = isGuillotine(layout.placed, shop.allowances.sawKerf);
  return parted ? null : `${layout.stock} no. ${layout.number} cannot be sawn by straight cuts`;
}

function sawFaults({ plan, shop }: Case): (string | null)[] {
  return plan.layouts.flatMap((layout) => {
    const sawn = saw(trimmed(layout, shop), layout.cuts, shop.allowances.sawKerf);
    if ('fault' in sawn)
      return layout.placed.map(() => `${layout.stock} no. ${layout.number}: ${sawn.fault}`);
    return layout.placed.map((placed) =>
      sawn.rects.some((rect) => isSame(rect, placed)) ? null : `${nameOf(placed, layout)} is not sawn free`,
    );
  });
}

function offcutFaults({ plan, shop }: Case): (string | null)[] {
  const { sawKerf } = shop.allowances;
  return plan.layouts.flatMap((layout) =>
    layout.offcuts.map((offcut) => {
      const taken = [...layout.placed, ...layout.offcuts.filter((o) => o !== offcut)];
      const free = taken.every((rect) => gap(offcut, rect) >= sawKerf - SAME);
      const inside = isWithin(offcut, trimmed(layout, shop));
      const kept = offcut.length > LEAST_OFFCUT && (layout.kind === 'stick' || offcut.width > LEAST_OFFCUT);
      return free && inside && kept ? null : `an offcut of ${layout.stock} no. ${layout.number}`;
    }),
  );
}

function countOffcuts(plan: CutPlan): number {
  return plan.layouts.reduce((sum, l) => sum + l.offcuts.length, 0);
}

function isWithin(inner: Rect, outer: Rect): boolean {
  return (
    inner.x >= outer.x - SAME &&
    inner.y >= outer.y - SAME &&
    inner.x + inner.length <= outer.x + outer.length + SAME &&
    inner.y + inner.width <= outer.y + outer.width + SAME
  );
}

/** A piece may be reported as having no stock only when no unused piece of stock could hold it. */
function leftOutFaults({ plan, pieces, shop }: Case): (string | null)[] {
  return plan.unplaced.map((left) => {
    const piece = pieces.find((p) => p.id === left.piece);
    if (piece === undefined) return `${left.piece} is not wanted`;
    const unused = shop.stock.find(
      (s) =>
        plan.layouts.filter((l) => l.stock === s.id).length < s.count &&
        isRightWood(piece, s) &&
        hasRoom(piece, s, shop),
    );
    return unused === undefined ? null : `${left.piece} ${left.number} fits on unused ${unused.id}`;
  });
}

/** The wood left of a piece of stock once all its edges are trimmed; of a stick, its ends. */
function trimmed(layout: StockLayout, shop: Shop): Rect {
  const { trim } = shop.allowances;
  const side = layout.kind === 'stick' ? 0 : trim;
  return { x: trim, y: side, length: layout.length - 2 * trim, width: layout.width - 2 * side };
}

function nameOf(placed: PlacedPiece, layout: StockLayout): string {
  return `${placed.piece} ${placed.number} on ${layout.stock} no. ${layout.number}`;
}
