import { type Area, areaSize, figuresOf, isInArea, polygonSize } from '../geometry/area.ts';
import type { Extent, Fit } from '../geometry/form.ts';
import { common, grown } from '../geometry/kernel/area.ts';
import { bounds, translate } from '../geometry/ring.ts';
import type { Box, Region, Vec } from '../geometry/types.ts';
import type { MarkerArtwork } from '../profile/types.ts';
import { crossingsOf } from './crossings.ts';
import { applyToCurve, flattenChain, type Matrix } from './curves.ts';
import { fitFigure } from './fitFigure.ts';
import { endOf, isClosed, startOf } from './joinChains.ts';
import { readDxf } from './readDxf.ts';
import { readSvg } from './readSvg.ts';
import type { Chain, Outline, Problem, Read } from './types.ts';

/** One figure ready to be laid out: its middle from that of the whole artwork, and its fit about its own middle. */
export interface Figure {
  readonly at: Vec;
  readonly pocket: Region;
  readonly part: Region;
  readonly box: Extent;
}

/** What of a drawing is wanted: its file, size and turn. */
export type WantedArtwork = Pick<MarkerArtwork, 'file' | 'size' | 'rotate'>;

export type Figures =
  | { readonly ok: true; readonly figures: readonly Figure[]; readonly deviation: number }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Chords of the artwork at its final size leave its curves by at most this. Millimetres. */
const SAGITTA = 0.0004;
/** The size of the drawing is known to this share before its scale is. */
const SIZE_SHARE = 1e-6;
/** Points closer than this are one. Millimetres. */
const SAME = 1e-6;
/** Wood between two figures of one artwork. Millimetres (common practice, no source). */
const WALL = 0.5;
/** An outline that encloses less has no room for any cutter. Square millimetres. */
const LEAST_SIZE = 0.01;

/** Figures from the text of a drawing, of the size and turn that a profile wants; or all that stands against it, with lines and places. */
export function makeFigures(text: string, wanted: WantedArtwork, fit: Fit): Figures {
  const read = readByKind(text, wanted.file);
  if (!read.ok) return read;
  const open = openChains(read.chains);
  if (open.length > 0) return { ok: false, problems: open };
  if (read.chains.length === 0) return refused('artwork-empty', 'There is no outline in the drawing.', 1);
  const drawn = drawnBox(read.chains);
  const matrix = placing(drawn, wanted);
  const outlines = read.chains.map((chain) => outlineOf(chain, matrix));
  const back = (p: Vec): string => place(p, matrix, drawn);
  const crossings = crossingsOf(outlines).map(
    (c): Problem => ({
      code: 'artwork-crosses-itself',
      text:
        c.first === c.second
          ? `${capital(c.first.what)} crosses or touches itself ${back(c.at)}.`
          : `${capital(c.first.what)} (line ${c.first.line}) and ${c.second.what} cross or touch ${back(c.at)}.`,
      line: c.second.line,
      remedy: 'Unite overlapping outlines, or draw them apart.',
    }),
  );
  if (crossings.length > 0) return { ok: false, problems: crossings };
  const empty = outlines.find((o) => o.points.length < 3 || Math.abs(polygonSize(o.points)) < LEAST_SIZE);
  if (empty !== undefined) {
    return refused('artwork-empty', `${capital(empty.what)} encloses nothing at this size.`, empty.line);
  }
  return fitAll(outlines, fit, back);
}

function readByKind(text: string, file: string): Read {
  if (/\.svg$/i.test(file)) return readSvg(text);
  if (/\.dxf$/i.test(file)) return readDxf(text);
  const problem = {
    code: 'artwork-of-unknown-kind',
    text: 'Artwork is read from .svg and .dxf files.',
    line: 1,
  };
  return { ok: false, problems: [problem] };
}

function refused(code: string, text: string, line: number): Figures {
  return { ok: false, problems: [{ code, text, line }] };
}

function openChains(chains: readonly Chain[]): Problem[] {
  const open = chains.filter((chain) => !isClosed(chain));
  if (open.length === 0) return [];
  const drawn = drawnBox(chains);
  return open.map((chain): Problem => {
    const [start, end] = [startOf(chain), endOf(chain)].map((p) => cornerPlace(p, drawn));
    return {
      code: 'artwork-open',
      text: `${capital(chain.what)} is open: it begins ${start} and ends ${end}.`,
      line: chain.line,
      remedy: 'Close it in the drawing.',
    };
  });
}

/** Box of the drawing in its own millimetres. */
function drawnBox(chains: readonly Chain[]): Box {
  const rough = boxOf(chains.flatMap((c) => flattenChain(c.curves, 1)));
  const size = Math.max(rough.x[1] - rough.x[0], rough.y[1] - rough.y[0]);
  return boxOf(chains.flatMap((c) => flattenChain(c.curves, Math.max(SAME, size * SIZE_SHARE))));
}

function boxOf(points: readonly Vec[]): Box {
  let [x0, x1, y0, y1] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const [x, y] of points) {
    [x0, x1] = [Math.min(x0, x), Math.max(x1, x)];
    [y0, y1] = [Math.min(y0, y), Math.max(y1, y)];
  }
  return { x: [x0, x1], y: [y0, y1] };
}

/** Middle of the drawing to 0, 0, then scaled, then turned. */
function placing({ x, y }: Box, { size, rotate }: WantedArtwork): Matrix {
  const scale = size.kind === 'scale' ? size.scale : size.width / (x[1] - x[0]);
  const [cos, sin] = [Math.cos(rotate) * scale, Math.sin(rotate) * scale];
  const [mx, my] = [(x[0] + x[1]) / 2, (y[0] + y[1]) / 2];
  return [cos, sin, -sin, cos, -cos * mx + sin * my, -sin * mx - cos * my];
}

function outlineOf({ curves, what, line }: Chain, matrix: Matrix): Outline {
  const points = flattenChain(
    curves.map((c) => applyToCurve(matrix, c)),
    SAGITTA,
  );
  const apart = points.filter((p, i) => {
    const before = points[(i + points.length - 1) % points.length] ?? p;
    return Math.hypot(p[0] - before[0], p[1] - before[1]) > SAME;
  });
  return { points: apart, what, line };
}

/** A point of the artwork as laid out, in the drawing. */
function place([x, y]: Vec, [a, b, , , e, f]: Matrix, drawn: Box): string {
  const square = a * a + b * b;
  const [dx, dy] = [x - e, y - f];
  return cornerPlace([(a * dx + b * dy) / square, (a * dy - b * dx) / square], drawn);
}

function cornerPlace([x, y]: Vec, drawn: Box): string {
  return `at ${(x - drawn.x[0]).toFixed(3)}, ${(y - drawn.y[0]).toFixed(3)} mm from the lower left corner of the drawing`;
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function fitAll(outlines: readonly Outline[], fit: Fit, back: (p: Vec) => string): Figures {
  const figures = figuresOf(nested(outlines));
  const problems: Problem[] = [];
  const made: Figure[] = [];
  let deviation = 0;
  for (const figure of figures) {
    const { what, line } = ownerOf(figure, outlines);
    const fitted = fitFigure(figure, fit);
    const fine = fitted === null ? [figure[0]?.[0] ?? ([0, 0] as const)] : fitted.tooFine;
    problems.push(...fine.map((at) => tooFine(what, line, back(at), fit)));
    if (fitted === null) continue;
    deviation = Math.max(deviation, fitted.deviation.most);
    made.push(figureAbout(fitted.pocket, fitted.part));
  }
  problems.push(...tooClose(figures, outlines, back));
  return problems.length > 0 ? { ok: false, problems } : { ok: true, figures: made, deviation };
}

function tooFine(what: string, line: number, at: string, { corner }: Fit): Problem {
  return {
    code: 'artwork-too-fine',
    text: `${capital(what)} is too fine ${at}: a cutter of ${(2 * corner).toFixed(2)} mm does not get through.`,
    line,
    remedy:
      'Draw it wider there, scale it up, or state a smaller faceMarkers.cornerRadius (half the cutter’s diameter).',
  };
}

/** Outlines within an even number of others stand for wood taken away, those within an odd number for wood left. */
function nested(outlines: readonly Outline[]): Area {
  return outlines.map(({ points }) => {
    const [first] = points;
    const depth = outlines.filter((o) => o.points !== points && first && isInArea([o.points], first)).length;
    const isHole = depth % 2 === 1;
    return polygonSize(points) > 0 === isHole ? points.toReversed() : points;
  });
}

/** The outline that a figure's own is made of, whichever way round. */
function ownerOf(figure: Area, outlines: readonly Outline[]): Outline {
  const size = Math.abs(polygonSize(figure[0] ?? []));
  const own = outlines.find((o) => Math.abs(Math.abs(polygonSize(o.points)) - size) < 1e-9);
  const [first] = outlines;
  const found = own ?? first;
  if (found === undefined) throw new Error('a figure without an outline');
  return found;
}

function figureAbout(pocket: Region, part: Region): Figure {
  const { x, y } = bounds(pocket.outer);
  const middle: Vec = [(x[0] + x[1]) / 2, (y[0] + y[1]) / 2];
  const about = ({ outer, holes }: Region): Region => ({
    outer: translate(outer, [-middle[0], -middle[1]]),
    holes: holes.map((hole) => translate(hole, [-middle[0], -middle[1]])),
  });
  const own = bounds(part.outer);
  return {
    at: middle,
    pocket: about(pocket),
    part: about(part),
    box: { along: own.x[1] - own.x[0], across: own.y[1] - own.y[0] },
  };
}

function tooClose(
  figures: readonly Area[],
  outlines: readonly Outline[],
  back: (p: Vec) => string,
): Problem[] {
  const wide = figures.map((figure) => grown(figure, WALL / 2));
  return wide.flatMap((a, i) =>
    wide.slice(i + 1).flatMap((b): Problem[] => {
      const both = common(a, b);
      const at = both[0]?.[0];
      if (at === undefined || areaSize(both) <= 0) return [];
      const { what, line } = ownerOf(figures[i] ?? [], outlines);
      return [
        {
          code: 'artwork-too-close',
          text: `${capital(what)} leaves less than ${WALL} mm of wood to another figure ${back(at)}.`,
          line,
        },
      ];
    }),
  );
}
