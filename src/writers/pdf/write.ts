/** Drawings as PDF at 1:1, on as many sheets as are needed, to be laid on the wood. */
import PDFDocument from 'pdfkit';
import type { Drawing, Layer, Shape } from '../../drawing/types.ts';
import { letter } from '../../geometry/lettering/letter.ts';
import { plainText } from '../../geometry/lettering/plainText.ts';
import type { Box, Vec } from '../../geometry/types.ts';
import { inchesFromMm } from '../../units/convert.ts';
import { extentOf, type TextWidth, textBoxes } from '../svg/extent.ts';
import { DASHES, LINE_WIDTH, styleOf } from '../svg/lineStyle.ts';
import { chainPath, ringPath } from '../svg/path.ts';
import { decimal } from '../svg/xml.ts';
import type { Paper } from './paper.ts';
import { REGISTER_ARM, type Sheet, tile } from './tile.ts';

const POINTS_PER_MM = 72 * inchesFromMm(1);
/** Room around everything drawn. */
const MARGIN = 4;
const THIN = 0.2;
/** The same moment in every file, so that the same drawing gives the same bytes. */
const NO_CLOCK = new Date(0);

export interface TemplateHead {
  readonly instrument: string;
  /** Of the profile, in hex. */
  readonly hash: string;
  /** By how much the printer is off: drawn lengths are multiplied by these, along and across the drawing. */
  readonly stretch: Vec;
}

/** A drawing's sheets as one PDF. Letters are drawn in strokes, so that no font has to be found where it is printed. */
export async function writePdf(drawing: Drawing, paper: Paper, head: TemplateHead): Promise<Uint8Array> {
  const doc = new PDFDocument({
    autoFirstPage: false,
    margin: 0,
    font: '',
    info: { Title: plain(`${head.instrument}: ${drawing.title}`), CreationDate: NO_CLOCK },
  });
  const bytes = collect(doc);
  const drawn = extentOf(drawing.layers, MARGIN, lettered);
  const sheets = tile(drawn, paper, head.stretch, textBoxes(drawing.layers, lettered));
  for (const [i, sheet] of sheets.entries()) {
    const { width, height } = sheet.paper;
    doc.addPage({ size: [width * POINTS_PER_MM, height * POINTS_PER_MM], margin: 0 });
    // From here on millimetres, from the upper left corner, y down.
    doc.scale(POINTS_PER_MM);
    drawShapes(doc, drawing, sheet, head.stretch);
    drawFrame(doc, sheet, head.stretch);
    drawBars(doc, sheet, head.stretch);
    drawTitle(doc, drawing, sheet, head, `sheet ${i + 1} of ${sheets.length}${nextTo(sheet, sheets)}`);
  }
  doc.end();
  return bytes;
}

type Doc = InstanceType<typeof PDFDocument>;

function collect(doc: Doc): Promise<Uint8Array> {
  const parts: Uint8Array[] = [];
  return new Promise((resolve, reject) => {
    doc.on('data', (part: Uint8Array) => parts.push(part));
    doc.on('error', reject);
    doc.on('end', () => resolve(Uint8Array.from(Buffer.concat(parts))));
  });
}

function drawShapes(doc: Doc, drawing: Drawing, sheet: Sheet, stretch: Vec): void {
  doc.save();
  const { shows, at, paper } = sheet;
  doc.rect(
    at[0],
    paper.height - at[1] - tall(shows) * stretch[1],
    wide(shows) * stretch[0],
    tall(shows) * stretch[1],
  );
  doc.clip();
  // The drawing's own millimetres, y turned down by the path data.
  doc.translate(at[0] - shows.x[0] * stretch[0], paper.height - at[1] + shows.y[0] * stretch[1]);
  doc.scale(stretch[0], stretch[1]);
  for (const layer of drawing.layers) drawLayer(doc, layer);
  for (const place of sheet.registers) registerCross(doc, place);
  doc.restore();
}

const wide = ({ x }: Box): number => x[1] - x[0];
const tall = ({ y }: Box): number => y[1] - y[0];

function drawLayer(doc: Doc, layer: Layer): void {
  const style = styleOf(layer.name);
  doc.save();
  doc.lineWidth(LINE_WIDTH[style] / 2).strokeColor('black');
  if (DASHES[style].length > 0) doc.addContent(`[${DASHES[style].join(' ')}] 0 d`);
  for (const shape of layer.shapes) drawShape(doc, shape);
  doc.restore();
}

function drawShape(doc: Doc, shape: Shape): void {
  switch (shape.kind) {
    case 'line':
      doc.path(chainPath([vertex(shape.from), vertex(shape.to)])).stroke();
      return;
    case 'circle':
      doc.circle(shape.centre[0], -shape.centre[1], shape.radius).stroke();
      doc.path(crossPath(shape.centre, Math.min(2, shape.radius))).stroke();
      return;
    case 'ring':
      doc.path(ringPath(shape.ring)).stroke();
      return;
    case 'chain':
      doc.path(chainPath(shape.vertices)).stroke();
      return;
    case 'point':
      doc.path(crossPath(shape.at, 1)).stroke();
      return;
    case 'text':
      drawText(doc, shape.text, shape.at, shape.height, shape.angle);
      return;
  }
}

const vertex = ([x, y]: Vec): { x: number; y: number; bulge: number } => ({ x, y, bulge: 0 });

function crossPath([x, y]: Vec, arm: number): string {
  const across = decimal(2 * arm);
  return `M${decimal(x - arm)} ${decimal(-y)}h${across}M${decimal(x)} ${decimal(-y - arm)}v${across}`;
}

function registerCross(doc: Doc, place: Vec): void {
  doc.lineWidth(THIN).undash();
  doc.path(crossPath(place, REGISTER_ARM)).stroke();
  doc.circle(place[0], -place[1], REGISTER_ARM / 2).stroke();
}

/** Strokes of a text; y up in the lettering, down on the page. */
function drawText(doc: Doc, text: string, at: Vec, height: number, angle: number): void {
  const { strokes } = letter(plain(text), height);
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const place = ([x, y]: Vec): string =>
    `${decimal(at[0] + x * c - y * s)} ${decimal(-(at[1] + x * s + y * c))}`;
  const path = strokes
    .map((stroke) => stroke.map((point, i) => `${i === 0 ? 'M' : 'L'}${place(point)}`).join(''))
    .join('');
  if (path !== '') doc.path(path).stroke();
}

const plain = (text: string): string => plainText(text).text;

const lettered: TextWidth = (text, height) => letter(plain(text), height).width;

/** The edge of what the sheet shows: cut along it, lay crosses on crosses. */
function drawFrame(doc: Doc, { shows, at, paper }: Sheet, stretch: Vec): void {
  doc
    .lineWidth(THIN / 2)
    .strokeColor('black')
    .undash();
  doc
    .rect(
      at[0],
      paper.height - at[1] - tall(shows) * stretch[1],
      wide(shows) * stretch[0],
      tall(shows) * stretch[1],
    )
    .stroke();
}

/** Bars of 100 mm and 4 in, level and upright, stretched as everything is: on a true print they measure what they say. */
function drawBars(doc: Doc, sheet: Sheet, stretch: Vec): void {
  doc.lineWidth(THIN);
  const left = sheet.at[0];
  const low = sheet.paper.height;
  const bars = [
    { length: 100, words: '100 mm', level: low - 22, upright: 16 },
    { length: 101.6, words: '4 in', level: low - 15, upright: 10 },
  ];
  for (const { length, words, level, upright } of bars) {
    const [along, up] = [length * stretch[0], length * stretch[1]];
    doc
      .path(
        `M${left} ${level - 1.5}v3M${left} ${level}h${decimal(along)}M${decimal(left + along)} ${level - 1.5}v3`,
      )
      .stroke();
    drawText(doc, words, [left + along + 2, -(level + 1)], 2.2, 0);
    const foot = low - sheet.at[1];
    doc
      .path(
        `M${upright - 1.5} ${foot}h3M${upright} ${foot}v${decimal(-up)}M${upright - 1.5} ${decimal(foot - up)}h3`,
      )
      .stroke();
    drawText(doc, words, [upright + 1, -(foot - up - 2)], 2.2, Math.PI / 2);
  }
}

function drawTitle(doc: Doc, drawing: Drawing, sheet: Sheet, head: TemplateHead, which: string): void {
  const left = sheet.at[0] + 128;
  const low = sheet.paper.height;
  const [sx, sy] = head.stretch;
  const off =
    sx === 1 && sy === 1 ? 'no correction' : `corrected by ${decimal(sx)} along, ${decimal(sy)} across`;
  const lines = [
    `${head.instrument}: ${drawing.title}`,
    `${which}   1:1   ${drawing.kerf}`,
    `profile ${head.hash.slice(0, 12)}   ${off}`,
    'Measure both bars, level and upright, before use.',
  ];
  // A narrow sheet has room for the title only above the bars' ends.
  const room = sheet.paper.width - left - 7;
  const size = Math.min(
    2.2,
    ...lines.map((line) => (room * 2.2) / Math.max(1, letter(plain(line), 2.2).width)),
  );
  doc.lineWidth(THIN);
  for (const [i, line] of lines.entries()) drawText(doc, line, [left, -(low - 24 + 4.4 * i + 2)], size, 0);
}

function nextTo({ column, row }: Sheet, sheets: readonly Sheet[]): string {
  if (sheets.length === 1) return '';
  return ` (${column} along, ${row} across)`;
}
