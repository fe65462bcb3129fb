import { MM_PER_INCH } from '../../../units/convert.ts';
import { REASONING_SCRIPT, SHEET_SCRIPT } from '../client/script.ts';
import type { Strokes } from './strokes.ts';

/** A program made ready to be drawn; only the kit's own functions look into it. */
export type Model = object;

/** Where a view of the plan lies: its middle in mm, and pixels a millimetre. */
export interface PlanView {
  readonly x: number;
  readonly y: number;
  readonly scale: number;
}

interface Line {
  readonly length: number;
}

interface Section {
  readonly left: Float64Array;
}

export interface Figure {
  readonly value: number;
}

/** A surface with its size in pixels, as the page's drawings want it. */
export interface Sheet {
  readonly ctx: Strokes;
  readonly width: number;
  readonly height: number;
  readonly ratio: number;
  readonly byPixels: boolean;
  readonly look: { readonly ink: string; readonly paper: string };
  x: ((mm: number) => number) | null;
  y: ((mm: number) => number) | null;
}

interface Shows {
  readonly line: Line;
  readonly chosen: number;
  readonly measured: readonly never[];
  readonly marks: readonly object[];
}

/** The functions of the page that draw, run here as a browser runs them. */
export interface DrawingKit {
  readonly shown: { unit: 'mm' | 'in'; mmPerInch: number };
  readonly lengthText: (mm: number) => string;
  readonly unpackMoves: (packed: unknown) => { readonly count: number };
  readonly modelFrom: (program: object, moves: object) => Model;
  readonly defaultLine: (model: Model) => Line;
  readonly sectionOf: (model: Model, line: Line, count: number) => Section;
  readonly figuresOf: (
    model: Model,
    section: Section,
  ) => Readonly<Record<'over' | 'under' | 'deep' | 'high', Figure>>;
  readonly marksOf: (model: Model, chosen: number) => readonly object[];
  readonly fitPlan: (model: Model, width: number, most: number) => { view: PlanView; height: number };
  readonly fitSection: (model: Model, line: Line, width: number, height: number) => object;
  readonly drawPlan: (sheet: Sheet, model: Model, view: PlanView, last: number, shows: Shows) => void;
  readonly drawSide: (sheet: Sheet, model: Model, view: PlanView, last: number) => void;
  readonly drawSection: (
    sheet: Sheet,
    model: Model,
    section: Section,
    view: object,
    now: Float64Array,
    at: number,
  ) => void;
}

const NAMES: readonly (keyof DrawingKit)[] = [
  'shown',
  'lengthText',
  'unpackMoves',
  'modelFrom',
  'defaultLine',
  'sectionOf',
  'figuresOf',
  'marksOf',
  'fitPlan',
  'fitSection',
  'drawPlan',
  'drawSide',
  'drawSection',
];

/**
 * The page's own drawing, so that a picture and the page cannot come apart. What is run is this tool's own text, which
 * touches nothing outside itself; a profile's words reach it as data alone.
 */
export function drawingKit(unit: 'mm' | 'in'): DrawingKit {
  const make = new Function(`${REASONING_SCRIPT}${SHEET_SCRIPT}\nreturn { ${NAMES.join(', ')} };`);
  const kit = make() as DrawingKit;
  kit.shown.unit = unit;
  kit.shown.mmPerInch = MM_PER_INCH;
  return kit;
}
