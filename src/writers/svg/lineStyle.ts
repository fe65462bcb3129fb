/**
 * How a line is drawn, after the line types of ISO 128-2 (type numbers from memory): 01.2 continuous wide for edges seen,
 * 01.1 continuous narrow, 02.1 dashed narrow for what is hidden, 04.1 long-dashed dotted narrow for centre lines,
 * 05.1 long-dashed double-dotted narrow for the outline before forming.
 */
export type LineStyle = 'edge' | 'narrow' | 'hidden' | 'centre' | 'before';

/** Millimetres on paper. */
export const LINE_WIDTH: Record<LineStyle, number> = {
  edge: 0.5,
  narrow: 0.25,
  hidden: 0.25,
  centre: 0.25,
  before: 0.25,
};

/** Dashes and gaps, millimetres on paper; empty for a continuous line. */
export const DASHES: Record<LineStyle, readonly number[]> = {
  edge: [],
  narrow: [],
  hidden: [3, 1],
  centre: [8, 1, 0.5, 1],
  before: [8, 1, 0.5, 1, 0.5, 1],
};

const STYLES: Readonly<Record<string, LineStyle>> = {
  BOARD_OUTLINE: 'edge',
  OUTLINE: 'edge',
  OPENINGS: 'edge',
  HOLES: 'edge',
  POCKETS: 'edge',
  BRIDGE_PINS: 'edge',
  TRUSS_ROD: 'hidden',
  SIDE_MARKERS: 'hidden',
  NECK_BACK: 'hidden',
  EDGE_HOLES: 'hidden',
  UNDERSIDE_POCKETS: 'hidden',
  CENTRELINE: 'centre',
  FRET_SLOTS: 'narrow',
  BLANK: 'before',
};

/** The line a layer is drawn with: continuous narrow unless its meaning asks for another. */
export function styleOf(layer: string): LineStyle {
  return STYLES[layer] ?? 'narrow';
}
