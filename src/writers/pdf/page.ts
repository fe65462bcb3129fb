/** Pages to work down as PDF: flowing text and ruled tables, heads repeated on every sheet, fonts inside the file. */
import PDFDocument from 'pdfkit';
import type { Page, PageBlock, PageCell, PageTable } from '../../sheet/pages/types.ts';
import { inchesFromMm } from '../../units/convert.ts';
import { columnWidths } from './pageTable.ts';

/** Bytes of a TrueType face, upright and bold. */
export interface PageFonts {
  readonly regular: Uint8Array;
  readonly bold: Uint8Array;
}

/** Of a sheet, millimetres. */
export interface PageSize {
  readonly width: number;
  readonly height: number;
}

type Doc = InstanceType<typeof PDFDocument>;
type Face = keyof PageFonts;

/** Where the next line goes, on the sheet at hand. Millimetres from its upper left corner. */
interface Pen {
  readonly doc: Doc;
  readonly size: PageSize;
  y: number;
}

const POINTS_PER_MM = 72 * inchesFromMm(1);
const MARGIN = { side: 14, top: 13, foot: 15 } as const;
const TYPE = { title: 5.6, 2: 4.4, 3: 3.6, text: 3.2, table: 2.9, foot: 2.6 } as const;
const PAD = 1.5;
/** Room to write in with a pencil. */
const ROW = 6.4;
const BOX = 3.6;
/** The same moment in every file, so that the same page gives the same bytes. */
const NO_CLOCK = new Date(0);

/** One PDF of as many sheets as the page takes. */
export async function writePagePdf(page: Page, size: PageSize, fonts: PageFonts): Promise<Uint8Array> {
  const doc = new PDFDocument({
    autoFirstPage: false,
    bufferPages: true,
    margin: 0,
    font: '',
    lang: 'en',
    info: { Title: oneLine(page.title), CreationDate: NO_CLOCK },
  });
  const bytes = collect(doc);
  doc.registerFont('regular', Buffer.from(fonts.regular));
  doc.registerFont('bold', Buffer.from(fonts.bold));
  const pen: Pen = { doc, size, y: 0 };
  newSheet(pen);
  paragraph(pen, page.title, 'bold', TYPE.title);
  for (const line of page.head) paragraph(pen, line, 'regular', TYPE.text);
  for (const block of page.blocks) drawBlock(pen, block);
  drawFeet(doc, size, page.foot);
  doc.end();
  return bytes;
}

function collect(doc: Doc): Promise<Uint8Array> {
  const parts: Uint8Array[] = [];
  return new Promise((resolve, reject) => {
    doc.on('data', (part: Uint8Array) => parts.push(part));
    doc.on('error', reject);
    doc.on('end', () => resolve(Uint8Array.from(Buffer.concat(parts))));
  });
}

/** From here on millimetres, from the upper left corner, y down. */
function newSheet(pen: Pen): void {
  const { doc, size } = pen;
  doc.addPage({ size: [size.width * POINTS_PER_MM, size.height * POINTS_PER_MM], margin: 0 });
  doc.scale(POINTS_PER_MM);
  pen.y = MARGIN.top;
}

function room(pen: Pen, height: number): boolean {
  return pen.y + height <= pen.size.height - MARGIN.foot;
}

const inner = ({ size }: Pen): number => size.width - 2 * MARGIN.side;

function drawBlock(pen: Pen, block: PageBlock): void {
  switch (block.kind) {
    case 'heading':
      drawHeading(pen, block.text, block.level);
      return;
    case 'text':
      paragraph(pen, block.text, 'regular', TYPE.text);
      return;
    case 'list':
      for (const item of block.items) paragraph(pen, `\u2013 ${item}`, 'regular', TYPE.text);
      return;
    case 'ticks':
      for (const item of block.items) drawTick(pen, item);
      return;
    case 'stop':
    case 'caution':
      drawFramed(pen, `${block.title}: ${block.text}`);
      return;
    case 'table':
      drawTable(pen, block);
      return;
  }
}

/** A heading stays with what follows it. */
function drawHeading(pen: Pen, text: string, level: 2 | 3): void {
  pen.y += level === 2 ? 4 : 2;
  if (!room(pen, 24)) newSheet(pen);
  paragraph(pen, text, 'bold', TYPE[level]);
}

function paragraph(pen: Pen, text: string, face: Face, height: number, indent = 0): void {
  const width = inner(pen) - indent;
  const tall = heightOf(pen.doc, text, face, height, width);
  if (!room(pen, tall)) newSheet(pen);
  put(pen.doc, text, face, height, [MARGIN.side + indent, pen.y], width, 'left');
  pen.y += tall + 1.4;
}

function drawTick(pen: Pen, text: string): void {
  const indent = BOX + 2.4;
  const tall = heightOf(pen.doc, text, 'regular', TYPE.text, inner(pen) - indent);
  if (!room(pen, Math.max(tall, BOX))) newSheet(pen);
  box(pen.doc, MARGIN.side, pen.y + 0.2);
  paragraph(pen, text, 'regular', TYPE.text, indent);
}

/** A frame with a heavy bar on its left. */
function drawFramed(pen: Pen, text: string): void {
  const width = inner(pen) - 8;
  const tall = heightOf(pen.doc, text, 'bold', TYPE.text, width) + 2 * PAD;
  if (!room(pen, tall)) newSheet(pen);
  const { doc } = pen;
  doc.lineWidth(0.25).rect(MARGIN.side, pen.y, inner(pen), tall).stroke();
  doc.rect(MARGIN.side, pen.y, 2.2, tall).fill('black');
  put(doc, text, 'bold', TYPE.text, [MARGIN.side + 5, pen.y + PAD], width, 'left');
  pen.y += tall + 2;
}

function drawTable(pen: Pen, table: PageTable): void {
  const { doc } = pen;
  const widths = columnWidths(table, inner(pen), (text, face) => widthOf(doc, text, face, TYPE.table));
  const heads = table.columns.map((c) => c.head);
  const aligns = table.columns.map((c) => c.align);
  const headHeight = rowHeight(doc, heads, widths, 'bold');
  pen.y += 0.6;
  if (!room(pen, headHeight + 3 * ROW)) newSheet(pen);
  drawRow(pen, heads, widths, aligns, 'bold', headHeight);
  for (const row of table.rows) {
    const height = rowHeight(doc, row, widths, 'regular');
    if (!room(pen, height)) {
      newSheet(pen);
      drawRow(pen, heads, widths, aligns, 'bold', headHeight);
    }
    drawRow(pen, row, widths, aligns, 'regular', height);
  }
  pen.y += 2;
}

function rowHeight(doc: Doc, cells: readonly PageCell[], widths: readonly number[], face: Face): number {
  const texts = cells.map((cell, i) =>
    typeof cell === 'string' ? heightOf(doc, cell, face, TYPE.table, (widths[i] ?? 0) - 2 * PAD) : 0,
  );
  return Math.max(ROW, ...texts.map((tall) => tall + 2 * PAD));
}

function drawRow(
  pen: Pen,
  cells: readonly PageCell[],
  widths: readonly number[],
  aligns: readonly ('left' | 'right')[],
  face: Face,
  height: number,
): void {
  const { doc } = pen;
  let x = MARGIN.side;
  for (const [i, cell] of cells.entries()) {
    const width = widths[i] ?? 0;
    doc
      .lineWidth(face === 'bold' ? 0.35 : 0.15)
      .rect(x, pen.y, width, height)
      .stroke('black');
    if (typeof cell !== 'string') {
      if (cell.leave === 'tick') box(doc, x + (width - BOX) / 2, pen.y + (height - BOX) / 2);
    } else if (cell !== '') {
      put(doc, cell, face, TYPE.table, [x + PAD, pen.y + PAD], width - 2 * PAD, aligns[i] ?? 'left');
    }
    x += width;
  }
  pen.y += height;
}

function box(doc: Doc, x: number, y: number): void {
  doc.lineWidth(0.25).rect(x, y, BOX, BOX).stroke('black');
}

/** At the foot of every sheet: whose figures these are, and which sheet of how many. */
function drawFeet(doc: Doc, size: PageSize, foot: string): void {
  const { start, count } = doc.bufferedPageRange();
  for (let i = 0; i < count; i += 1) {
    doc.switchToPage(start + i);
    const y = size.height - 9;
    const width = size.width - 2 * MARGIN.side;
    put(doc, foot, 'regular', TYPE.foot, [MARGIN.side, y], width, 'left');
    put(doc, `sheet ${i + 1} of ${count}`, 'regular', TYPE.foot, [MARGIN.side, y], width, 'right');
  }
}

/** Text within a width, wrapped; the type's size is its height from line to line less a fifth. */
function put(
  doc: Doc,
  text: string,
  face: Face,
  height: number,
  at: readonly [number, number],
  width: number,
  align: 'left' | 'right',
): void {
  // A hair wider than measured, so that a text measured to fit never wraps.
  const x = align === 'right' ? at[0] - HAIR : at[0];
  doc.font(face).fontSize(height).fillColor('black');
  doc.text(oneLine(text), x, at[1], { width: width + HAIR, align, lineGap: height * GAP });
}

const HAIR = 0.05;
const GAP = 0.12;

function heightOf(doc: Doc, text: string, face: Face, height: number, width: number): number {
  doc.font(face).fontSize(height);
  return doc.heightOfString(oneLine(text), { width: width + HAIR, lineGap: height * GAP });
}

function widthOf(doc: Doc, text: string, face: Face, height: number): number {
  doc.font(face).fontSize(height);
  return doc.widthOfString(oneLine(text));
}

/** A name from a profile on one line, without characters that turn or hide text. */
function oneLine(text: string): string {
  return text.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, ' ').trim();
}
