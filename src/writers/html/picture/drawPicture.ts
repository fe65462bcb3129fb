import { escapeXml } from '../../svg/xml.ts';
import { pageData } from '../preview.ts';
import type { PreviewProgram } from '../types.ts';
import { type DrawingKit, drawingKit, type Figure, type Model, type PlanView, type Sheet } from './kit.ts';
import { words } from './lettering.ts';
import { recordStrokes } from './strokes.ts';
import { short } from './thinned.ts';
import { type Cell, lineKey, rule, titleBlock } from './titleBlock.ts';

export interface PictureHead {
  /** The instrument's name. */
  readonly title: string;
  /** Which sheet, counted from 1, and of how many. */
  readonly number: number;
  readonly count: number;
  readonly unit: 'mm' | 'in';
}

/** Pixels. */
export const PICTURE_WIDTH = 1400;
const MARGIN = 14;
const INNER = PICTURE_WIDTH - 2 * MARGIN;
const HEAD = 46;
const PLAN_MOST = 620;
const SECTION = 290;
const SIDE = 190;
/** Ink and paper of the pages in daylight. */
const LOOK = { ink: '#1c2730', paper: '#fbf8ef' } as const;

/** One program as an SVG picture: plan, section and side view as the page draws them, and the title block. No script in it. */
export function drawPicture(program: PreviewProgram, head: PictureHead): string {
  const kit = drawingKit(head.unit);
  // Through the page's own text, so that both draw from the same numbers.
  const data = JSON.parse(JSON.stringify(pageData(program))) as { readonly moves: unknown };
  const moves = kit.unpackMoves(data.moves);
  const model = kit.modelFrom(data, moves);
  const line = kit.defaultLine(model);
  const section = kit.sectionOf(model, line, 900);
  const { view, height } = kit.fitPlan(model, INNER, PLAN_MOST);
  const shows = { line, chosen: -1, measured: [], marks: kit.marksOf(model, -1) };
  const rows = [
    headRow(program, head),
    viewRow('Plan from above', height, 'p', (s) => kit.drawPlan(s, model, view, moves.count, shows)),
    viewRow('Section A\u2013A', SECTION, 's', (s) =>
      kit.drawSection(s, model, section, kit.fitSection(model, line, INNER, SECTION), section.left, -1),
    ),
    sideRow(kit, model, view, moves.count),
    titleBlock(cellsOf(program, kit, kit.figuresOf(model, section)), INNER),
    lineKey(INNER),
  ];
  return framed(
    rows,
    `${program.operation}, ${program.part}: ${head.title}`,
    program.proof.passed ? 'proven' : 'not proven',
  );
}

interface Row {
  readonly elements: string;
  readonly height: number;
}

function headRow({ operation, part }: PreviewProgram, { title, number, count }: PictureHead): Row {
  return {
    elements: [
      words(10, 30, `Sheet ${number} of ${count}: ${operation}, ${part}`, 20, 'bold'),
      `<text x="${INNER - 10}" y="30" font-size="15" text-anchor="end">${escapeXml(title)}</text>`,
    ].join('\n'),
    height: HEAD,
  };
}

function sideRow(kit: DrawingKit, model: Model, view: PlanView, last: number): Row {
  return viewRow('Side view', SIDE, 'e', (s) => kit.drawSide(s, model, view, last));
}

function viewRow(name: string, height: number, prefix: string, draw: (sheet: Sheet) => void): Row {
  const { strokes, elements } = recordStrokes(prefix, INNER, height);
  draw({ ctx: strokes, width: INNER, height, ratio: 1, byPixels: false, look: LOOK, x: null, y: null });
  const box = `<clipPath id="${prefix}0"><path d="M0 0H${INNER}V${short(height)}H0Z"/></clipPath>`;
  const ground = `<rect x="1" y="1" width="${20 + 9.5 * name.length}" height="30" fill="${LOOK.paper}"/>`;
  const label = `${ground}\n${words(10, 22, name.toUpperCase(), 12, 'bold')}`;
  return { elements: `${box}\n<g clip-path="url(#${prefix}0)">\n${elements()}\n</g>\n${label}`, height };
}

function cellsOf(
  program: PreviewProgram,
  kit: DrawingKit,
  found: Readonly<Record<'over' | 'under' | 'deep' | 'high', Figure>>,
): Cell[] {
  const { stock, proof } = program;
  const length = kit.lengthText;
  const size = [stock.x, stock.y, stock.z].map(([low, high]) => length(high - low)).join(' \u00d7 ');
  const along = (figure: Figure): string =>
    figure.value > Number.NEGATIVE_INFINITY ? length(Math.max(0, figure.value)) : 'nothing to measure';
  const verdict = proof.passed ? 'proven' : 'NOT PROVEN: do not cut';
  return [
    { label: 'Program file', text: program.path, span: 1 },
    { label: 'Machine', text: program.machine, span: 1 },
    { label: 'Tool', text: program.tool, span: 1 },
    { label: 'Machine time', text: `${program.minutes.toFixed(1)} min`, span: 1 },
    { label: 'Work zero', text: program.workZero, span: 2 },
    { label: 'Stock', text: size, span: 1 },
    { label: 'Deepest cut', text: length(program.deepest), span: 1 },
    { label: 'Proof', text: verdict, span: 1, isLoud: !proof.passed },
    { label: 'Largest overcut', text: length(proof.maxOvercut), span: 1 },
    { label: 'Largest undercut', text: length(proof.maxUndercut), span: 1 },
    { label: 'Limit', text: length(proof.tolerance), span: 1 },
    { label: 'Along the section: cut beyond the walls', text: along(found.over), span: 1 },
    { label: 'Left short of the walls', text: along(found.under), span: 1 },
    { label: 'Cut below the floor', text: along(found.deep), span: 1 },
    { label: 'Left above the floor', text: along(found.high), span: 1 },
    { label: 'Cautions', text: program.cautions.join('; '), span: 4 },
  ];
}

/** Rows below each other in the double frame of a drawing sheet. */
function framed(rows: readonly Row[], title: string, about: string): string {
  const pieces: string[] = [];
  let y = MARGIN;
  rows.forEach((row, i) => {
    pieces.push(`<g transform="translate(${MARGIN} ${short(y)})">\n${row.elements}\n</g>`);
    y += row.height;
    if (i < rows.length - 1) pieces.push(rule(MARGIN, y, MARGIN + INNER, y, i === rows.length - 3 ? 2.5 : 1));
  });
  const height = Math.ceil(y + MARGIN);
  const frame = (inset: number, width: number): string =>
    `<rect x="${inset}" y="${inset}" width="${PICTURE_WIDTH - 2 * inset}" height="${height - 2 * inset}" stroke="currentColor" stroke-width="${width}"/>`;
  return `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="${PICTURE_WIDTH}" height="${height}" viewBox="0 0 ${PICTURE_WIDTH} ${height}" role="img" color="${LOOK.ink}" fill="none" font-family="DejaVu Sans Condensed, sans-serif">
<title>${escapeXml(title)}</title>
<desc>${about}</desc>
<rect width="100%" height="100%" fill="${LOOK.paper}"/>
${frame(5, 1)}
${frame(MARGIN - 1, 2.5)}
<g fill="${LOOK.ink}">
${pieces.join('\n')}
</g>
</svg>
`;
}
