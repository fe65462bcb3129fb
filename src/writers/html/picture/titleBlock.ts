import { LINE_KEY } from '../sheet.ts';
import { words, wrapped } from './lettering.ts';
import { short } from './thinned.ts';

export interface Cell {
  readonly label: string;
  readonly text: string;
  /** How many of the four columns it takes. */
  readonly span: 1 | 2 | 4;
  readonly isLoud?: boolean;
}

export interface Block {
  readonly elements: string;
  readonly height: number;
}

const COLUMNS = 4;
const TEXT = 15;
const LABEL = 12;
const LINE = 19;
const PAD = 10;

/** Cells in rows of four columns, ruled; a row is as high as its longest text asks. */
export function titleBlock(cells: readonly Cell[], width: number): Block {
  const column = width / COLUMNS;
  const pieces: string[] = [];
  let top = 0;
  for (const row of rowsOf(cells)) {
    const set = row.map((cell) => wrapped(cell.text, cell.span * column - 2 * PAD, TEXT));
    const height = 28 + LINE * Math.max(1, ...set.map((lines) => lines.length));
    let x = 0;
    row.forEach((cell, i) => {
      if (x > 0) pieces.push(rule(x, top, x, top + height));
      pieces.push(words(x + PAD, top + 17, cell.label, LABEL, 'faint'));
      const look = cell.isLoud === true ? 'bold' : 'plain';
      set[i]?.forEach((line, k) => {
        pieces.push(words(x + PAD, top + 36 + LINE * k, line, TEXT, look));
      });
      x += cell.span * column;
    });
    top += height;
    pieces.push(rule(0, top, width, top));
  }
  return { elements: pieces.join('\n'), height: top };
}

function rowsOf(cells: readonly Cell[]): Cell[][] {
  const rows: Cell[][] = [];
  let used = COLUMNS;
  for (const cell of cells) {
    if (used + cell.span > COLUMNS) {
      rows.push([]);
      used = 0;
    }
    rows.at(-1)?.push(cell);
    used += cell.span;
  }
  return rows;
}

export function rule(x0: number, y0: number, x1: number, y1: number, width = 1): string {
  return `<path d="M${short(x0)} ${short(y0)}L${short(x1)} ${short(y1)}" stroke="currentColor" stroke-width="${width}"/>`;
}

/** What the lines mean, in as many rows as the width asks. */
export function lineKey(width: number): Block {
  const pieces: string[] = [];
  let [x, y] = [PAD, 20];
  for (const [name, weight, dashes] of LINE_KEY) {
    const wide = 56 + 0.58 * 13 * name.length + 18;
    if (x > PAD && x + wide > width) [x, y] = [PAD, y + 22];
    const pattern = dashes === '' ? '' : ` stroke-dasharray="${dashes}"`;
    pieces.push(
      `<path d="M${short(x)} ${y - 4}h46" stroke="currentColor" stroke-width="${weight}"${pattern}/>`,
      words(x + 54, y, name, 13),
    );
    x += wide;
  }
  return { elements: pieces.join('\n'), height: y + 12 };
}
