import type { Axis, Plot, PlotLine } from '../../sheet/plotTypes.ts';
import { formatShort } from '../../units/format.ts';
import { decimal, escapeXml } from './xml.ts';

/** Millimetres on paper: an A5 sheet lying down, the field of the chart inside it. */
const PAGE = { width: 210, height: 148 };
const FIELD = { left: 18, right: 176, top: 26, bottom: 130 };
const TEXT = 3.5;
/** Ends of lines nearer to each other than this are labelled apart. */
const LABEL_GAP = 4;
/** One pattern of dashes for each line, so that ink alone tells them apart. */
const PATTERNS = ['', '6 1.5', '3 1.5', '1 1', '6 1.5 1 1.5', '3 1 1 1 1 1'];

type ToPaper = (value: number) => number;

/** A chart as an SVG file, to print on A5 or larger: black lines told apart by dashes and by their names. */
export function writePlot(plot: Plot): string {
  const x = scaleOf(plot.across, FIELD.left, FIELD.right);
  const y = scaleOf(plot.up, FIELD.bottom, FIELD.top);
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${PAGE.width}mm" height="${PAGE.height}mm" viewBox="0 0 ${PAGE.width} ${PAGE.height}" role="img" fill="none" stroke="currentColor" font-family="sans-serif">`,
    `<title>${escapeXml(plot.title)}</title>`,
    `<desc>${escapeXml(plot.note)}</desc>`,
    words(FIELD.left, 10, plot.title, 'start', 4.2),
    words(FIELD.left, 16, plot.note, 'start', 3),
    ...grid(plot, x, y),
    ...plot.lines.flatMap((line, i) => lineElements(line, i, x, y)),
    ...endLabels(plot.lines, x, y),
    '</svg>',
    '',
  ].join('\n');
}

function scaleOf({ from, to }: Axis, start: number, end: number): ToPaper {
  return (value) => start + ((value - from) / (to - from)) * (end - start);
}

function words(x: number, y: number, text: string, anchor: 'start' | 'middle' | 'end', size = TEXT): string {
  return `<text x="${decimal(x)}" y="${decimal(y)}" font-size="${size}" text-anchor="${anchor}" fill="currentColor" stroke="none">${escapeXml(text)}</text>`;
}

function grid(plot: Plot, x: ToPaper, y: ToPaper): string[] {
  const upright = stepsOf(plot.across).map((at) => `M${decimal(x(at))} ${FIELD.top}V${FIELD.bottom}`);
  const level = stepsOf(plot.up).map((at) => `M${FIELD.left} ${decimal(y(at))}H${FIELD.right}`);
  const zero = plot.up.from <= 0 && plot.up.to >= 0 ? `M${FIELD.left} ${decimal(y(0))}H${FIELD.right}` : '';
  return [
    `<path d="${[...upright, ...level].join('')}" stroke-width="0.1" stroke-opacity="0.5"/>`,
    ...(zero === '' ? [] : [`<path d="${zero}" stroke-width="0.35"/>`]),
    ...stepsOf(plot.across).map((at) => words(x(at), FIELD.bottom + 5, formatShort(at, 2), 'middle')),
    ...stepsOf(plot.up).map((at) => words(FIELD.left - 2, y(at) + 1.2, formatShort(at, 2), 'end')),
    words((FIELD.left + FIELD.right) / 2, FIELD.bottom + 12, plot.across.label, 'middle'),
    words(FIELD.left - 2, FIELD.top - 3, plot.up.label, 'end'),
  ];
}

/** Multiples of the step inside the axis, as whole numbers of steps so that no sum of fractions drifts. */
function stepsOf({ from, to, step }: Axis): number[] {
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, i) => (first + i) * step);
}

function lineElements(line: PlotLine, index: number, x: ToPaper, y: ToPaper): string[] {
  const points = line.points.map(([across, up]) => [x(across), y(up)] as const);
  const bands = line.plusMinus.map((half, i) => {
    const [across, up] = line.points[i] ?? [0, 0];
    return `M${decimal(x(across))} ${decimal(y(up - half))}V${decimal(y(up + half))}`;
  });
  const pattern = PATTERNS[index % PATTERNS.length] ?? '';
  const dashes = pattern === '' ? '' : ` stroke-dasharray="${pattern}"`;
  const path = points.map(([px, py], i) => `${i === 0 ? 'M' : 'L'}${decimal(px)} ${decimal(py)}`).join('');
  return [
    ...(bands.length === 0 ? [] : [`<path d="${bands.join('')}" stroke-width="0.15"/>`]),
    `<path d="${path}" stroke-width="0.4"${dashes}/>`,
    ...(line.marks
      ? points.map(
          ([px, py]) => `<circle cx="${decimal(px)}" cy="${decimal(py)}" r="0.9" stroke-width="0.4"/>`,
        )
      : []),
  ];
}

/** Names at the lines' ends, moved apart where they would lie over each other, each with a stroke to its line. */
function endLabels(lines: readonly PlotLine[], x: ToPaper, y: ToPaper): string[] {
  const ends = lines
    .flatMap((line) => {
      const end = line.points.at(-1);
      return end === undefined ? [] : [{ name: line.name, x: x(end[0]), y: y(end[1]) }];
    })
    .sort((a, b) => a.y - b.y);
  const places = apart(ends.map((end) => end.y));
  return ends.flatMap((end, i) => {
    const at = places[i] ?? end.y;
    return [
      `<path d="M${decimal(end.x)} ${decimal(end.y)}L${FIELD.right + 5} ${decimal(at)}" stroke-width="0.15"/>`,
      words(FIELD.right + 6, at + 1.2, end.name, 'start'),
    ];
  });
}

/** Heights in rising order, pushed apart to the gap, and kept on the field where there is room. */
function apart(heights: readonly number[]): number[] {
  const placed: number[] = [];
  for (const height of heights) {
    placed.push(Math.max(height, (placed.at(-1) ?? Number.NEGATIVE_INFINITY) + LABEL_GAP));
  }
  const over = Math.max(0, (placed.at(-1) ?? 0) - FIELD.bottom);
  return placed.map((height) => height - over);
}
