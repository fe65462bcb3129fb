import type { CutPlan, StockLayout } from '../../cutlist/types.ts';
import type { Shop } from '../../profile/types.ts';
import type { Measured } from './types.ts';

/** 144 cubic inches of 25.4 mm. */
const CUBIC_MM_IN_BOARD_FOOT = 2_359_737.216;

/** How far each total is from what the layouts and the shop's own prices add up to, as a share of it. */
export function measureTotals(plan: CutPlan, shop: Shop): Measured[] {
  const { totals, layouts } = plan;
  const kinds = ['board', 'sheet', 'stick'].filter((kind) => layouts.some((l) => l.kind === kind));
  return [
    apart('cost', totals.cost, costOf(layouts, shop)),
    apart('pieces of stock without a price', totals.unpriced, unpricedIn(layouts, shop)),
    apart('kinds of stock', totals.kinds.length, kinds.length),
    ...kinds.flatMap((kind) => measureKind(kind, plan, shop)),
  ];
}

function measureKind(kind: string, plan: CutPlan, shop: Shop): Measured[] {
  const layouts = plan.layouts.filter((l) => l.kind === kind);
  const stated = plan.totals.kinds.find((k) => k.kind === kind);
  const placed = layouts.flatMap((l) => l.placed);
  const across = (r: { width: number }): number => (kind === 'stick' ? 1 : r.width);
  const used = layouts.reduce((sum, l) => sum + l.length * across(l), 0);
  const cut = placed.reduce((sum, p) => sum + p.length * across(p), 0);
  const feet = layouts.reduce((sum, l) => sum + l.length * l.width * l.thickness, 0) / CUBIC_MM_IN_BOARD_FOOT;
  return [
    apart(`${kind}: stock used`, stated?.stockUsed, layouts.length),
    apart(`${kind}: pieces`, stated?.pieces, placed.length),
    apart(`${kind}: cost`, stated?.cost, costOf(layouts, shop)),
    apart(`${kind}: yield`, stated?.yield, cut / used),
    apart(`${kind}: board feet`, stated?.boardFeet ?? 0, kind === 'board' ? feet : 0),
  ];
}

function costOf(layouts: readonly StockLayout[], shop: Shop): number {
  return layouts.reduce((sum, l) => sum + (priceOf(l, shop) ?? 0), 0);
}

function unpricedIn(layouts: readonly StockLayout[], shop: Shop): number {
  return layouts.filter((l) => priceOf(l, shop) === null).length;
}

function priceOf(layout: StockLayout, shop: Shop): number | null {
  return shop.stock.find((s) => s.id === layout.stock)?.price ?? null;
}

function apart(place: string, stated: number | undefined, counted: number): Measured {
  const value = Math.abs((stated ?? Number.NaN) - counted) / Math.max(1, Math.abs(counted));
  return { value, place: `${place}: stated ${stated}, counted ${counted}` };
}
