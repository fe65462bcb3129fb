import { MM_PER_INCH } from '../../units/convert.ts';
import { escapeXml } from '../svg/xml.ts';
import { LIVE_PAGE_SCRIPT, PREVIEW_SCRIPT } from './client/script.ts';
import { cautionList, htmlDocument, paragraphs } from './document.ts';
import { embedJson } from './embed.ts';
import { LIVE_HASH, SCRIPT_HASH } from './hashes.ts';
import { SHEET, STEPPING } from './sheet.ts';
import type { PreviewInput, PreviewProgram } from './types.ts';

/**
 * One self-contained page that shows every written program as a drawing, to be looked at before cutting.
 * It loads nothing and works from a file. Millimetres, with a switch to decimal inches.
 */
export function writePreview(input: PreviewInput): string {
  return htmlDocument(`${input.title}: preview`, bodyOf(input, ''), DRAWS);
}

/** How a page that follows its files stands when it is loaded. */
export interface LiveState {
  /** Mark of the drawing; another mark makes the page load itself anew. */
  readonly drawing: string;
  /** As `good`, `wrong`. */
  readonly state: string;
  readonly head: string;
  readonly text: string;
}

/** The same page, with a place for news: it follows the program that serves it. Null: there is no drawing yet. */
export function writeLivePreview(input: PreviewInput | null, live: LiveState): string {
  const news = newsOf(live);
  const hears = { text: LIVE_PAGE_SCRIPT, hash: LIVE_HASH, hears: true } as const;
  if (input === null) {
    const body = `<header><h1>There is no drawing yet</h1></header>\n<main>\n${news}\n</main>`;
    return htmlDocument('nutline: no drawing yet', body, hears);
  }
  return htmlDocument(`${input.title}: preview`, bodyOf(input, news), DRAWS, hears);
}

const DRAWS = { text: PREVIEW_SCRIPT, hash: SCRIPT_HASH } as const;

function newsOf({ drawing, state, head, text }: LiveState): string {
  return `<section id="news" role="status" aria-label="News of the files" data-drawing="${escapeXml(drawing)}" data-state="${escapeXml(state)}">
<strong>${escapeXml(head)}</strong>
<pre>${escapeXml(text)}</pre>
</section>`;
}

function bodyOf(input: PreviewInput, news: string): string {
  return [
    `<a class="skip" href="#programs">To the programs</a>`,
    header(input.title),
    `<main>`,
    ...(news === '' ? [] : [news]),
    `<div class="head"><div>${paragraphs(input.text)}</div>${cautionList(input.cautions)}</div>`,
    '<noscript><p>The drawings need a browser that runs scripts; the list below does not.</p></noscript>',
    '<div class="work">',
    `<nav aria-label="Programs in cutting order"><h2>Programs in cutting order</h2>${programList(input.programs)}</nav>`,
    input.programs.length === 0 ? '<p>There is no program.</p>' : `<div>${SHEET}\n${STEPPING}</div>`,
    '</div>',
    '<div id="print-sheets"></div>',
    '</main>',
    `<script type="application/json" id="data">${embedJson(dataOf(input))}</script>`,
  ].join('\n');
}

function header(title: string): string {
  return `<header>
<div><p class="doc">Preview of the written programs</p><h1><bdi>${escapeXml(title)}</bdi></h1></div>
<div class="tools">
<fieldset><legend>Lengths in</legend>
<label><input type="radio" name="unit" value="mm" checked> mm</label>
<label><input type="radio" name="unit" value="in"> inches</label>
</fieldset>
<button id="print">Print all sheets</button>
</div>
</header>`;
}

function programList(programs: readonly PreviewProgram[]): string {
  return `<ol id="programs">\n${programs.map(programEntry).join('\n')}\n</ol>`;
}

function programEntry(program: PreviewProgram, index: number): string {
  const { proof } = program;
  const verdict = proof.passed ? 'proven' : '<span class="failed">NOT PROVEN: do not cut</span>';
  return `<li><button data-program="${index}"><span class="count">${index + 1}</span>
<span class="name"><bdi>${escapeXml(program.operation)}</bdi></span>
<small><bdi>${escapeXml(program.part)}</bdi> &#183; <bdi>${escapeXml(program.path)}</bdi></small>
<small><bdi>${escapeXml(program.machine)}</bdi> &#183; <bdi>${escapeXml(program.tool)}</bdi> &#183; ${timeWords(program.minutes)}</small>
<small>deepest cut ${lengthCell(program.deepest)}</small>
<small>${verdict}: overcut ${lengthCell(proof.maxOvercut)}, undercut ${lengthCell(proof.maxUndercut)}, limit ${lengthCell(proof.tolerance)}</small>
<small>Cautions: ${program.cautions.map(escapeXml).join('; ')}</small>
</button></li>`;
}

function lengthCell(mm: number): string {
  return `<span data-mm="${rounded(mm, 6)}">${mm.toFixed(3)} mm</span>`;
}

function timeWords(minutes: number): string {
  return `${minutes.toFixed(1)} min`;
}

function dataOf(input: PreviewInput): object {
  return { mmPerInch: MM_PER_INCH, programs: input.programs.map(pageData) };
}

/** What the page's script needs of a program, numbers rounded to what a section at full size can show. */
export function pageData(program: PreviewProgram): object {
  const { moves, text, minutes } = program;
  const told = Object.fromEntries(SHOWN.map((name) => [name, program[name]]));
  return { ...(roundedAll(told) as object), minutes, time: timeWords(minutes), moves, text };
}

const SHOWN: readonly (keyof PreviewProgram)[] = [
  'operation',
  'part',
  'path',
  'machine',
  'tool',
  'workZero',
  'cutBy',
  'cutWidth',
  'end',
  'deepest',
  'cuts',
  'figures',
  'cautions',
  'datum',
  'proof',
  'centrelineY',
  'stock',
  'outlines',
];

/** Decimals that leave every arc within a ten-thousandth of a millimetre: bulges are small where radii are large. */
const DECIMALS = 7;

/** The same data with shorter numbers; one that is not finite becomes null. */
function roundedAll(data: unknown): unknown {
  if (typeof data === 'number') return Number.isFinite(data) ? rounded(data, DECIMALS) : null;
  if (Array.isArray(data)) return data.map(roundedAll);
  if (typeof data !== 'object' || data === null) return data;
  return Object.fromEntries(Object.entries(data).map(([key, value]) => [key, roundedAll(value)]));
}

function rounded(value: number, decimals: number): number {
  if (!Number.isFinite(value)) throw new Error(`${value} cannot be shown`);
  const steps = 10 ** decimals;
  return Math.round(value * steps) / steps || 0;
}
