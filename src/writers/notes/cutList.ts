import type { BuyRow, CutPlan, KindTotals, Offcut, SawCut, StockLayout } from '../../cutlist/types.ts';
import type { Piece } from '../../parts/types.ts';
import { formatInches, formatMm, formatNumber, formatShort } from '../../units/format.ts';
import { nearest64 } from '../../units/stockSize.ts';
import { cautionsFor, type Situation } from './cautions.ts';
import { bullets, code, numbered, page, plain, table } from './markdown.ts';
import { cautionList } from './situations.ts';

/** Names of kinds of stock, one and many. */
const KIND_WORDS = { board: 'boards', sheet: 'sheets', stick: 'sticks' } as const;

/**
 * A cut plan as Markdown: totals, each piece of stock with its pieces, saw cuts and offcuts, and what to buy. Sizes in
 * millimetres, decimal inches and the nearest sixty-fourth of an inch with what the true size has beyond it.
 */
export function writeCutListMarkdown(
  plan: CutPlan,
  toBuy: readonly BuyRow[] = [],
  pieces: readonly Piece[] = [],
): string {
  return page([
    '# Cut list',
    `Saw kerf ${formatShort(plan.sawKerf, 2)} mm counted between pieces; ${formatShort(plan.trim, 2)} mm trimmed off every edge of a board or sheet, and off both ends of a stick, before anything else is cut. Corners are measured from the untrimmed end and edge.`,
    'Sixty-fourths are for buying and rough sawing: the remainder beside each says how much the true size is over (+) or under (-).',
    ...missingBlocks(plan),
    '## Totals',
    totalsBlock(plan),
    ...plan.layouts.flatMap((layout) => layoutBlocks(layout, plan)),
    ...furtherBlocks(pieces),
    ...buyBlocks(toBuy),
    '## Cautions',
    cautionList(cautionsFor(sawing(plan))),
  ]);
}

function missingBlocks(plan: CutPlan): string[] {
  if (plan.unplaced.length === 0) return [];
  return [
    '## No stock for these',
    bullets(plan.unplaced.map((p) => `**${plain(p.title)}**, no. ${p.number}: buy ${plain(p.buy)}.`)),
  ];
}

function totalsBlock(plan: CutPlan): string {
  const { kinds, cost, unpriced } = plan.totals;
  if (kinds.length === 0) return 'No stock is used.';
  const rows = kinds.map((k) => [
    KIND_WORDS[k.kind],
    String(k.stockUsed),
    String(k.pieces),
    `${formatNumber(100 * k.yield, 0)} %`,
    boardFeetOf(k),
    formatNumber(k.cost, 2),
  ]);
  const heads = ['Stock', 'Used', 'Pieces', 'Yield', 'Board feet', `Cost, ${plain(plan.currency)}`];
  const note = unpriced === 0 ? '' : ` ${unpriced} of the stock used has no price in the shop file.`;
  return `${table(heads, rows, [1, 2, 3, 4, 5])}\n\nCost of the stock used: ${formatNumber(cost, 2)} ${plain(plan.currency)}.${note} Board feet by true size (144 cubic inches); a yard may count the nominal thickness.`;
}

function boardFeetOf(totals: KindTotals): string {
  return totals.boardFeet === null ? '' : formatNumber(totals.boardFeet, 2);
}

function layoutBlocks(layout: StockLayout, plan: CutPlan): string[] {
  const price =
    layout.price === null ? 'price not known' : `${formatNumber(layout.price, 2)} ${plain(plan.currency)}`;
  return [
    `## ${plain(layout.stock)} no. ${layout.number}: ${layout.kind} of ${plain(layout.material)}`,
    `${sizeWords(layout)}; ${price}.`,
    piecesTable(layout),
    '**Saw cuts, in order, once the edges are trimmed** (measure to the finished edge; the kerf lies past it):',
    layout.cuts.length === 0 ? 'None: the trimmed stock is the piece.' : numbered(layout.cuts.map(cutWords)),
    offcutWords(layout.offcuts),
  ];
}

function piecesTable(layout: StockLayout): string {
  const heads = [
    'Piece',
    'No.',
    'Length, mm',
    'in',
    'nearest 1/64',
    'Width, mm',
    'in',
    'nearest 1/64',
    'Thickness, mm',
    'Corner x, mm',
    'Corner y, mm',
    'Note',
  ];
  const rows = layout.placed.map((p) => [
    `${plain(p.title)} (${code(p.piece)})`,
    String(p.number),
    ...lengthCells(p.length),
    ...lengthCells(p.width),
    formatMm(p.thickness, 2),
    formatMm(p.x, 2),
    formatMm(p.y, 2),
    noteOf(p.turned, p.thickness, layout),
  ]);
  return table(heads, rows, [1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
}

function lengthCells(mm: number): [string, string, string] {
  const near = nearest64(mm);
  const remainder = `${near.remainder < 0 ? '' : '+'}${formatMm(near.remainder, 2)} mm`;
  return [formatMm(mm, 2), formatInches(mm, 3), `${near.text} ${remainder}`];
}

function noteOf(turned: boolean, thickness: number, layout: StockLayout): string {
  const spare = layout.thickness - thickness;
  const plane =
    layout.kind === 'board' && spare > 0.01 ? `thickness from ${formatMm(layout.thickness, 2)} mm` : '';
  return [turned ? 'lies across the stock' : '', plane].filter((w) => w !== '').join('; ');
}

function cutWords(cut: SawCut): string {
  const [way, from, along] =
    cut.direction === 'across'
      ? ['across', 'from the end', 'from the edge']
      : ['along', 'from the edge', 'from the end'];
  return `${way}, at ${formatMm(cut.at, 2)} mm (${formatInches(cut.at, 3)} in) ${from}, through the piece that runs ${formatMm(cut.from, 2)} to ${formatMm(cut.to, 2)} mm ${along}`;
}

function offcutWords(offcuts: readonly Offcut[]): string {
  if (offcuts.length === 0) return 'No offcut worth keeping.';
  const sizes = offcuts.map((o) => `${formatShort(o.length, 1)} x ${formatShort(o.width, 1)} mm`);
  return `Offcuts worth keeping: ${sizes.join('; ')}.`;
}

function sizeWords(layout: StockLayout): string {
  if (layout.kind === 'stick') {
    return `${formatShort(layout.length, 2)} mm long (${nearest64(layout.length).text}), ${formatShort(layout.thickness, 2)} mm in diameter`;
  }
  const sizes = [layout.length, layout.width, layout.thickness];
  return `${sizes.map((s) => formatShort(s, 2)).join(' x ')} mm (${sizes.map((s) => nearest64(s).text).join(' x ')})`;
}

/** How pieces are sawn further once they are out of their stock. */
function furtherBlocks(pieces: readonly Piece[]): string[] {
  const lines = pieces.flatMap(({ id, title, note }) =>
    note === undefined ? [] : [`**${plain(title)}** (${code(id)}): ${plain(note)}.`],
  );
  return lines.length === 0 ? [] : ['## Sawn further', bullets(lines)];
}

function buyBlocks(toBuy: readonly BuyRow[]): string[] {
  if (toBuy.length === 0) return [];
  const rows = toBuy.map((row) => [plain(row.what), plain(row.amount), plain(row.note)]);
  return ['## To buy or to have ready', table(['What', 'How much', 'Note'], rows)];
}

function sawing(plan: CutPlan): Situation {
  return {
    workers: ['saw'],
    classes: plan.layouts.map((l) => l.materialClass),
    materials: plan.layouts.map((l) => l.material),
    tools: [],
    parts: [],
    clearedBefore: false,
    strings: false,
    trussRod: false,
  };
}
