import type { StockItem } from '../profile/types.ts';
import {
  type Choice,
  chooseSpace,
  divide,
  type Placement,
  type Rules,
  type Space,
  type Unit,
} from './guillotine.ts';
import { usable } from './match.ts';

/** Pieces that share stock, and all the stock any of them could come from. */
export interface Batch {
  readonly units: readonly Unit[];
  readonly stock: readonly StockItem[];
  /** Stock that suits a piece, by the piece's number. */
  readonly suits: ReadonlyMap<number, ReadonlySet<StockItem>>;
  readonly kerf: number;
  readonly trim: number;
}

/** One piece of stock in use. */
export interface Bin {
  readonly stock: StockItem;
  readonly spaces: readonly Space[];
  readonly placements: readonly Placement[];
}

export interface Packing {
  readonly bins: readonly Bin[];
  readonly left: readonly Unit[];
}

/** How one attempt goes about it. `stock`: in the order in which it is taken down from the rack. */
export interface Attempt {
  readonly order: readonly Unit[];
  readonly rules: Rules;
  readonly stock: readonly StockItem[];
}

interface OpenBin {
  readonly stock: StockItem;
  readonly spaces: Space[];
  readonly placements: Placement[];
}

/** Places the units one after the other where they fit best, and takes a new piece of stock only when none in use has room. */
export function pack(batch: Batch, attempt: Attempt): Packing {
  const bins: OpenBin[] = [];
  const left: Unit[] = [];
  for (const unit of attempt.order) {
    const place = placeInOpen(bins, unit, batch, attempt) ?? placeInNew(bins, unit, batch, attempt);
    if (place === null) left.push(unit);
    else settle(place.bin, place.choice, unit, batch, attempt);
  }
  return { bins, left };
}

interface Place {
  readonly bin: OpenBin;
  readonly choice: Choice;
}

function placeInOpen(bins: readonly OpenBin[], unit: Unit, batch: Batch, attempt: Attempt): Place | null {
  const suits = suitable(batch, unit);
  let best: Place | null = null;
  for (const bin of bins) {
    if (!suits.has(bin.stock)) continue;
    const choice = chooseSpace(bin.spaces, unit, batch.kerf, attempt.rules.rank);
    if (choice !== null && (best === null || choice.score < best.choice.score)) best = { bin, choice };
  }
  return best;
}

function placeInNew(bins: OpenBin[], unit: Unit, batch: Batch, attempt: Attempt): Place | null {
  const suits = suitable(batch, unit);
  const stock = attempt.stock.find((s) => suits.has(s) && countOf(bins, s) < s.count);
  if (stock === undefined) return null;
  const bin: OpenBin = { stock, spaces: [wholeSpace(stock, batch)], placements: [] };
  const choice = chooseSpace(bin.spaces, unit, batch.kerf, attempt.rules.rank);
  if (choice === null)
    throw new Error(`piece ${unit.piece} does not fit the stock that suits it: ${stock.id}`);
  bins.push(bin);
  return { bin, choice };
}

function settle(bin: OpenBin, choice: Choice, unit: Unit, batch: Batch, attempt: Attempt): void {
  const space = bin.spaces[choice.index];
  if (space === undefined) throw new Error(`no rectangle ${choice.index} on ${bin.stock.id}`);
  const { placement, rest } = divide(space, unit, batch.kerf, choice.turned, attempt.rules.split);
  bin.spaces.splice(choice.index, 1, ...rest);
  bin.placements.push(placement);
}

/** The trimmed stock, one kerf longer and wider than it is. */
function wholeSpace(stock: StockItem, batch: Batch): Space {
  const room = usable(stock, batch.trim);
  return {
    x: batch.trim,
    y: stock.kind === 'stick' ? 0 : batch.trim,
    length: room.length + batch.kerf,
    width: room.width + batch.kerf,
  };
}

function suitable(batch: Batch, unit: Unit): ReadonlySet<StockItem> {
  const suits = batch.suits.get(unit.piece);
  if (suits === undefined) throw new Error(`no stock listed for piece ${unit.piece}`);
  return suits;
}

/** How many pieces of one stock item are in use. */
export function countOf(bins: readonly { readonly stock: StockItem }[], stock: StockItem): number {
  return bins.reduce((count, bin) => count + (bin.stock === stock ? 1 : 0), 0);
}
