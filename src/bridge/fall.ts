import { boardHeight } from '../geometry/boardSurface.ts';
import type { Layout, StringLine } from '../layout/types.ts';

/** How much lower than at the board's crest the frets' tops lie under a string, at a place along the board. */
export interface Fall {
  /** Of the board itself under the string. */
  readonly board: (x: number) => number;
  /**
   * Of the straight line that the string's heights are measured from: through the fret tops under it at the first fret and
   * at the action's fret. Carried on to nut and saddle it is what lies under those heights there.
   */
  readonly measured: (x: number) => number;
}

/** The fall under one string of a radiused board, which grows as the strings spread. */
export function fallUnder(line: StringLine, layout: Layout, actionFret: number): Fall {
  const along = (x: number): number =>
    line.nut[1] + ((line.saddle[1] - line.nut[1]) * (x - line.nut[0])) / (line.saddle[0] - line.nut[0]);
  const board = (x: number): number => -boardHeight(layout.board.surface, x, along(x));
  const near = fretUnder(line, 1);
  const far = fretUnder(line, actionFret);
  const slope = (board(far) - board(near)) / (far - near);
  return { board, measured: (x) => board(near) + slope * (x - near) };
}

/** x at which the string crosses a fret. */
function fretUnder({ fretX }: StringLine, fret: number): number {
  const x = fretX[fret - 1];
  if (x === undefined) throw new Error(`the string crosses no fret ${fret}`);
  return x;
}
