import type { WirePiece, WireStick, WireSticks } from './types.ts';

/** Slack for a piece that just fits. Millimetres. */
const HAIR = 1e-6;
/** Placings that the search for fewer sticks tries at most: a count, not a time, so that results never differ. */
const MOST_TRIED = 200_000;

/**
 * Which pieces to nip from which stick. Best fit, longest first; where a lower bound allows fewer sticks, every way of filling
 * them is tried within a bounded count. Null when a piece is longer than a stick.
 */
export function planSticks(pieces: readonly WirePiece[], length: number): WireSticks | null {
  if (pieces.some((piece) => piece.cut > length + HAIR)) return null;
  const sorted = pieces.toSorted((a, b) => b.cut - a.cut || (a.slot < b.slot ? -1 : 1));
  const cuts = sorted.map((piece) => piece.cut);
  const least = lowerBound(cuts, length);
  let best = bestFit(cuts, length);
  let exhausted = true;
  for (let count = least; count < best.length; count += 1) {
    const { found, tried } = fillExactly(cuts, length, count);
    if (found !== null) {
      best = found;
      break;
    }
    // Once a search was cut short, a larger count that fits is no longer known to be the least.
    if (tried >= MOST_TRIED) exhausted = false;
  }
  const sticks = best.map((stick) => stickOf(stick, sorted, length));
  return { length, sticks, isLeast: exhausted };
}

function stickOf(stick: readonly number[], sorted: readonly WirePiece[], length: number): WireStick {
  const pieces = stick.flatMap((i) => sorted[i] ?? []);
  const used = pieces.reduce((sum, piece) => sum + piece.cut, 0);
  return { pieces, used, left: length - used };
}

/** Each piece into the fullest stick that still holds it; lists of indices into `cuts`, which run from long to short. */
function bestFit(cuts: readonly number[], length: number): number[][] {
  const sticks: { readonly held: number[]; left: number }[] = [];
  cuts.forEach((cut, i) => {
    const fitting = sticks.filter((stick) => stick.left >= cut - HAIR).sort((a, b) => a.left - b.left);
    const [stick] = fitting;
    if (stick === undefined) sticks.push({ held: [i], left: length - cut });
    else {
      stick.held.push(i);
      stick.left -= cut;
    }
  });
  return sticks.map((stick) => stick.held);
}

/**
 * Sticks that are needed whatever is done: pieces longer than half a stick stand alone, pieces too long to lie beside those take
 * room of their own (bound L2; Martello, S., and Toth, P., Knapsack Problems, Wiley 1990, chapter 8).
 */
export function lowerBound(cuts: readonly number[], length: number): number {
  const bounds = [0, ...cuts.filter((cut) => cut <= length / 2)].map((limit) => {
    const large = cuts.filter((cut) => cut > length - limit + HAIR);
    const medium = cuts.filter((cut) => cut <= length - limit + HAIR && cut > length / 2 + HAIR);
    const small = cuts.filter((cut) => cut <= length / 2 + HAIR && cut >= limit);
    const free = medium.length * length - sum(medium);
    return large.length + medium.length + Math.max(0, Math.ceil((sum(small) - free) / length - HAIR));
  });
  return Math.max(...bounds);
}

function sum(list: readonly number[]): number {
  return list.reduce((total, length) => total + length, 0);
}

interface Search {
  readonly cuts: readonly number[];
  readonly left: number[];
  readonly held: number[][];
  /** What may still be left over in all sticks together. */
  readonly waste: number;
  tried: number;
}

function fillExactly(
  cuts: readonly number[],
  length: number,
  count: number,
): { readonly found: number[][] | null; readonly tried: number } {
  const search: Search = {
    cuts,
    left: Array.from({ length: count }, () => length),
    held: Array.from({ length: count }, () => []),
    waste: count * length - sum(cuts),
    tried: 0,
  };
  const found = placeFrom(search, 0);
  return { found: found ? search.held.map((held) => [...held]) : null, tried: search.tried };
}

/** Places the pieces from `i` on, long ones first; of sticks with equal room only the first is tried. */
function placeFrom(search: Search, i: number): boolean {
  const cut = search.cuts[i];
  if (cut === undefined) return true;
  const shortest = search.cuts.at(-1) ?? 0;
  const seen = new Set<number>();
  for (let k = 0; k < search.left.length; k += 1) {
    const room = search.left[k] ?? 0;
    if (room < cut - HAIR || seen.has(room)) continue;
    seen.add(room);
    search.tried += 1;
    if (search.tried >= MOST_TRIED) return false;
    put(search, k, i, cut);
    if (lost(search, shortest) <= search.waste + HAIR && placeFrom(search, i + 1)) return true;
    takeBack(search, k, room);
  }
  return false;
}

function put(search: Search, k: number, i: number, cut: number): void {
  search.left[k] = (search.left[k] ?? 0) - cut;
  search.held[k]?.push(i);
}

function takeBack(search: Search, k: number, room: number): void {
  search.left[k] = room;
  search.held[k]?.pop();
}

/** Room that no piece can use any more: what is shorter than the shortest of them. */
function lost({ left }: Search, shortest: number): number {
  return sum(left.filter((room) => room < shortest - HAIR));
}
