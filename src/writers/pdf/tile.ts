import type { Box, Vec } from '../../geometry/types.ts';
import type { Paper } from './paper.ts';

/** Printers leave a rim of white. */
const RIM = 7;
/** Left strip for the upright check bars, bottom strip for the level ones and the title block. */
const STRIP = { left: 12, bottom: 24 };
/** Neighbouring sheets show this much of the same. */
export const OVERLAP = 12;
/** Half a register cross's length. */
export const REGISTER_ARM = 5;

/** One sheet: what part of the drawing it shows, and where that lies on the paper. */
export interface Sheet {
  /** Counted from 1, along and then across the drawing. */
  readonly column: number;
  readonly row: number;
  readonly paper: { readonly width: number; readonly height: number };
  /** In the drawing's frame. */
  readonly shows: Box;
  /** Lower left corner of that on the paper, from the paper's lower left corner. */
  readonly at: Vec;
  /** Places in the drawing that this sheet shares with a neighbour. */
  readonly registers: readonly Vec[];
}

/**
 * Cuts a drawing into sheets at 1:1, upright or lying, whichever takes fewer. `stretch` is by how much everything is drawn
 * larger, along and across the paper, to make up for a printer that shrinks; register crosses stand beside the `texts`
 * where there is room. Millimetres.
 */
export function tile(drawn: Box, paper: Paper, stretch: Vec, texts: readonly Box[] = []): Sheet[] {
  const size: Vec = [drawn.x[1] - drawn.x[0], drawn.y[1] - drawn.y[0]];
  const sheets = (width: number, height: number): Sheet[] =>
    sheetsOf({ drawn, size, texts }, [width, height], stretch);
  if (paper.kind === 'roll') {
    // The roll's width runs across the drawing; a drawing too wide for it is cut lengthwise.
    const length = size[0] * stretch[0] + 2 * RIM + STRIP.left;
    return sheets(Math.max(length, 150), paper.width);
  }
  const upright = sheets(paper.width, paper.height);
  const lying = sheets(paper.height, paper.width);
  return lying.length <= upright.length ? lying : upright;
}

/** A drawing's box, its width and height, and the boxes of its texts. */
interface Drawn {
  readonly drawn: Box;
  readonly size: Vec;
  readonly texts: readonly Box[];
}

function sheetsOf({ drawn, size, texts }: Drawn, paper: Vec, stretch: Vec): Sheet[] {
  const field: Vec = [
    (paper[0] - 2 * RIM - STRIP.left) / stretch[0],
    (paper[1] - 2 * RIM - STRIP.bottom) / stretch[1],
  ];
  const columns = countOf(size[0], field[0]);
  const rows = countOf(size[1], field[1]);
  const starts = [startsOf(drawn.x, columns, field[0]), startsOf(drawn.y, rows, field[1])] as const;
  return Array.from({ length: columns * rows }, (_, i): Sheet => {
    const [column, row] = [i % columns, Math.floor(i / columns)];
    const from: Vec = [starts[0][column] ?? 0, starts[1][row] ?? 0];
    const shows: Box = { x: [from[0], from[0] + field[0]], y: [from[1], from[1] + field[1]] };
    return {
      column: column + 1,
      row: row + 1,
      paper: { width: paper[0], height: paper[1] },
      shows,
      at: [RIM + STRIP.left, RIM + STRIP.bottom],
      registers: registersOf({ drawn, texts }, shows, starts, [column, row], field),
    };
  });
}

/** Sheets needed for a length when neighbours overlap. */
function countOf(length: number, field: number): number {
  if (!(field > 2 * OVERLAP)) throw new Error(`a field of ${field} mm cannot overlap`);
  return Math.max(1, Math.ceil((length - OVERLAP) / (field - OVERLAP) - 1e-9));
}

/** Starts spread evenly over the drawing, centred on it where one sheet is enough. */
function startsOf([from, to]: readonly [number, number], count: number, field: number): number[] {
  if (count === 1) return [(from + to - field) / 2];
  return Array.from({ length: count }, (_, i) => from + ((to - from - field) * i) / (count - 1));
}

type Starts = readonly [readonly number[], readonly number[]];

/** Where two crosses stand along a seam, the best place of each first: about a quarter and three quarters of its length. */
const PLACES = [0.25, 0.75].map((middle) => [0, -1, 1, -2, 2, -3, 3, -4, 4].map((k) => middle + k * 0.05));

/** Crosses in the middle of each overlap, two along the length that both sheets show. */
function registersOf(
  { drawn, texts }: Pick<Drawn, 'drawn' | 'texts'>,
  shows: Box,
  starts: Starts,
  [column, row]: Vec,
  field: Vec,
): Vec[] {
  const seams = (list: readonly number[], place: number, wide: number): number[] =>
    [place - 1, place]
      .filter((i) => i >= 0 && i < list.length - 1)
      .map((i) => ((list[i] ?? 0) + wide + (list[i + 1] ?? 0)) / 2);
  const common = (range: readonly [number, number], whole: readonly [number, number]): [number, number] => [
    Math.max(range[0], whole[0] - OVERLAP),
    Math.min(range[1], whole[1] + OVERLAP),
  ];
  const [up, along] = [common(shows.y, drawn.y), common(shows.x, drawn.x)];
  return [
    ...seams(starts[0], column, field[0]).flatMap((x) => beside(texts, up, (y): Vec => [x, y])),
    ...seams(starts[1], row, field[1]).flatMap((y) => beside(texts, along, (x): Vec => [x, y])),
  ];
}

/** Two places on a seam, off every text where that can be. */
function beside(
  texts: readonly Box[],
  [from, to]: readonly [number, number],
  at: (along: number) => Vec,
): Vec[] {
  return PLACES.map((shares) => {
    const places = shares.map((share) => at(from + (to - from) * share));
    const [best = at((from + to) / 2)] = places;
    return places.find((place) => !texts.some((box) => touches(box, place))) ?? best;
  });
}

function touches({ x, y }: Box, [px, py]: Vec): boolean {
  const [dx, dy] = [Math.max(x[0] - px, px - x[1]), Math.max(y[0] - py, py - y[1])];
  return dx < REGISTER_ARM && dy < REGISTER_ARM;
}
