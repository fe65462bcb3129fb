import { applyToCurve, IDENTITY, type Matrix, times } from './curves.ts';
import { drawingFrame, readTransform } from './svgFrame.ts';
import { outlinesOf } from './svgShapes.ts';
import type { Chain, Problem, Read } from './types.ts';
import { readTags, type Tag } from './xml.ts';

const SHAPES = new Set(['path', 'circle', 'ellipse', 'rect', 'polygon', 'polyline', 'line']);
const GROUPS = new Set(['svg', 'g', 'a', 'switch']);
/** What is in these is not drawn, or says something about the drawing. */
const PASSED_OVER = new Set([
  'defs',
  'metadata',
  'title',
  'desc',
  'style',
  'script',
  'clipPath',
  'mask',
  'pattern',
  'marker',
  'symbol',
  'linearGradient',
  'radialGradient',
  'filter',
  'namedview',
]);

interface Reading {
  readonly chains: Chain[];
  readonly problems: Problem[];
  /** Matrices of the groups that are open, the innermost last. */
  readonly open: { readonly name: string; readonly matrix: Matrix }[];
  /** Name of the passed-over element that is open, and how many of its kind. */
  skipping: { readonly name: string; depth: number } | null;
}

/** Outlines of an SVG drawing in millimetres, y up, transforms of elements and groups worked in. */
export function readSvg(text: string): Read {
  const tags = readTags(text);
  if ('brokenAt' in tags) return refused('not-svg', 'The file is no well-formed SVG here.', tags.brokenAt);
  const [root] = tags;
  if (root?.name !== 'svg') return refused('not-svg', 'The file does not begin with an svg element.', 1);
  const frame = drawingFrame(root.attributes);
  if (frame === null) return refused('not-svg', 'The viewBox of the drawing makes no sense.', root.line);
  const reading: Reading = { chains: [], problems: [], open: [], skipping: null };
  for (const tag of tags) takeTag(reading, tag, frame);
  return reading.problems.length > 0
    ? { ok: false, problems: reading.problems }
    : { ok: true, chains: reading.chains };
}

function refused(code: string, text: string, line: number): Read {
  return { ok: false, problems: [{ code, text, line }] };
}

function takeTag(reading: Reading, tag: Tag, frame: Matrix): void {
  if (reading.skipping !== null) skip(reading, tag);
  else if (tag.kind === 'close') {
    if (reading.open.at(-1)?.name === tag.name) reading.open.pop();
  } else if (PASSED_OVER.has(tag.name) || isHidden(tag)) {
    if (tag.kind === 'open') reading.skipping = { name: tag.name, depth: 1 };
  } else takeDrawn(reading, tag, frame);
}

function skip(reading: Reading, { name, kind }: Tag): void {
  const { skipping } = reading;
  if (skipping === null || name !== skipping.name || kind === 'empty') return;
  skipping.depth += kind === 'open' ? 1 : -1;
  if (skipping.depth === 0) reading.skipping = null;
}

function isHidden({ attributes }: Tag): boolean {
  return (
    attributes.get('display') === 'none' || /(?:^|;)\s*display\s*:\s*none/.test(attributes.get('style') ?? '')
  );
}

function takeDrawn(reading: Reading, tag: Tag, frame: Matrix): void {
  const around = reading.open.at(-1)?.matrix ?? frame;
  const own = transformOf(tag);
  if (own === null) {
    problem(reading, tag, 'artwork-unreadable', `The transform of this ${tag.name} cannot be read.`);
    return;
  }
  const matrix = times(around, own);
  if (GROUPS.has(tag.name) && !(tag.name === 'svg' && reading.open.length > 0)) {
    if (tag.kind === 'open') reading.open.push({ name: tag.name, matrix });
    return;
  }
  if (SHAPES.has(tag.name)) takeShape(reading, tag, matrix);
  else {
    problem(reading, tag, 'artwork-unsupported', `A ${tag.name} has no outline that can be cut.`);
    if (tag.kind === 'open') reading.skipping = { name: tag.name, depth: 1 };
  }
}

function transformOf({ name, attributes }: Tag): Matrix | null {
  const written = attributes.get('transform');
  return written === undefined || name === 'svg' ? IDENTITY : readTransform(written);
}

function takeShape(reading: Reading, tag: Tag, matrix: Matrix): void {
  const subpaths = outlinesOf(tag);
  if (subpaths === null) {
    problem(reading, tag, 'artwork-unreadable', `The outline of this ${tag.name} cannot be read.`);
    return;
  }
  const id = tag.attributes.get('id');
  const what = id === undefined ? `a ${tag.name}` : `the ${tag.name} "${id.slice(0, 40)}"`;
  for (const { curves, closed } of subpaths) {
    reading.chains.push({ curves: curves.map((c) => applyToCurve(matrix, c)), closed, what, line: tag.line });
  }
}

function problem(reading: Reading, tag: Tag, code: string, text: string): void {
  const remedy = code === 'artwork-unsupported' ? 'Convert it to paths, or take it out of the drawing.' : '';
  reading.problems.push({ code, text, line: tag.line, ...(remedy === '' ? {} : { remedy }) });
}
