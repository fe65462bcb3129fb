import { drawLayout } from '../drawing/drawLayout.ts';
import { drawNeck } from '../drawing/drawNeck.ts';
import type { Job } from '../machining/types.ts';
import { setsNeck } from '../neck/plan.ts';
import { formatNumber } from '../units/format.ts';
import { type IndexStep, writeIndexPage } from '../writers/html/index.ts';
import { cautionsFor } from '../writers/notes/cautions.ts';
import { situationOfAll } from '../writers/notes/situations.ts';
import { writeStartHere } from '../writers/notes/startHere.ts';
import type { ProgramFigures } from '../writers/notes/types.ts';
import type { Design } from './design.ts';
import { file } from './file.ts';
import { jobsByProgram, workOf } from './programs.ts';
import type { OutputFile } from './types.ts';

const OPEN_FIRST = [
  { path: 'preview.html', what: 'every program drawn from its own text; look at it before you cut' },
  {
    path: 'order-of-work.html',
    what: 'the whole build step by step, with boxes to tick and places to stop and check',
  },
  { path: 'bench-sheets.html', what: 'every figure to measure, with room for what you measured; print it' },
  { path: 'sheet.txt', what: 'the bench sheet: slots, markers and holes, to mark and to measure by' },
  { path: 'strings.txt', what: 'tension and tuning of the strings, with charts beside it' },
  { path: 'bridge.txt', what: 'where the bridge goes, and the work on saddle, nut and pins' },
  { path: 'cut-list.md', what: 'what to saw from which stock, and what to buy' },
  { path: 'fret-wire.csv', what: 'a label for each piece of fret wire, in the order in which frets go in' },
  { path: 'feed-notes.md', what: 'tools, speeds, feeds and cautions, program by program' },
  { path: 'drill-coordinates.csv', what: 'every hole, from the nut face and the centreline' },
];

const PLOTS = [
  { id: 'cents-by-fret', label: 'chart: cents by fret' },
  { id: 'cents-by-string', label: 'chart: what each saddle leaves, by string' },
  { id: 'heights-over-frets', label: 'chart: strings over the frets' },
];

/** The page to open first, for a browser and as plain text. */
export function startPages(made: Design, figures: readonly ProgramFigures[]): OutputFile[] {
  const { value: instrument } = made.instrument;
  const { jobs, handSteps } = made.plan;
  const markdown = writeStartHere({
    instrument,
    shop: made.shop.value,
    parts: made.parts,
    jobs,
    handSteps,
    files: OPEN_FIRST,
    figures,
  });
  const cautions = cautionsFor(situationOfAll(jobs, handSteps, instrument));
  const page = writeIndexPage({
    title: instrument.name,
    text: `Made for the shop "${made.shop.value.name}". The page START-HERE.md says the same at length: what to measure before any cut, the order of the work, the dry run, and where to stop and check.`,
    cautions: cautions.map((c) => `${c.title}. ${c.text}`),
    steps: stepsOf(made, figures),
    picture: drawLayout(made.layout, instrument),
  });
  return [file('index.html', 'notes', page), file('START-HERE.md', 'notes', markdown)];
}

function stepsOf(made: Design, figures: readonly ProgramFigures[]): IndexStep[] {
  const minutes = figures.reduce((sum, f) => sum + f.minutes, 0);
  return [
    {
      heading: 'Read and measure',
      text: 'Measure wire, dots, pins, stock and the cutters’ true width before any cut. Where the caliper says otherwise than the profile, change the profile and make everything again.',
      links: [
        { href: 'START-HERE.md', label: 'START-HERE.md: what to measure, in what order to work' },
        { href: 'order-of-work.html', label: 'the whole build, step by step, with places to stop and check' },
        { href: 'bench-sheets.html', label: 'bench sheets to print and to write on' },
      ],
    },
    {
      heading: 'Look',
      text: 'See what each program will do, step by step, before it is run.',
      links: [{ href: 'preview.html', label: 'preview of all programs' }],
    },
    {
      heading: 'Saw the blanks',
      text: 'Every piece on the stock the shop file names.',
      links: [
        { href: 'cut-list.md', label: 'cut list to read' },
        { href: 'cut-list.csv', label: 'cut list as a table' },
        { href: 'fret-wire.csv', label: 'fret wire, piece by piece' },
      ],
    },
    {
      heading: 'Cut',
      text: `${figures.length} programs, about ${formatNumber(minutes, 0)} machine minutes, in this order. Run each above the wood first.`,
      links: [
        { href: 'feed-notes.md', label: 'feeds, speeds and cautions' },
        ...jobsByProgram(made.plan.jobs).map(programLink),
      ],
    },
    {
      heading: 'Work by hand, and check',
      text: 'The sheet’s first line and its sum check catch a miscount. Measure from the nut line each time.',
      links: [
        { href: 'sheet.txt', label: 'bench sheet' },
        { href: 'drill-coordinates.csv', label: 'drill coordinates' },
        { href: 'bridge.txt', label: 'bridge, saddle, nut and pins' },
        ...(setsNeck(made.instrument.value)
          ? [{ href: 'neckset.txt', label: 'neck set: angle, extension, heel' }]
          : []),
        { href: 'strings.txt', label: 'strings: tension and tuning' },
        ...PLOTS.map(({ id, label }) => ({ href: `charts/${id}.svg`, label })),
        { href: 'drawings/layout.dxf', label: 'drawing: the whole layout' },
        ...drawNeck(made.layout, made.instrument.value).map(({ id, title }) => ({
          href: `drawings/${id}.dxf`,
          label: `drawing: ${title}`,
        })),
        ...made.parts.map((part) => ({ href: `drawings/${part.id}.dxf`, label: `drawing: ${part.title}` })),
      ],
    },
  ];
}

function programLink(jobs: readonly Job[]): IndexStep['links'][number] {
  const [job] = jobs;
  if (job === undefined) throw new Error('a program without a job');
  return {
    href: `programs/${job.program}`,
    label: `${job.order}. ${job.program}: ${job.part.title}, ${workOf({ jobs })}`,
  };
}
