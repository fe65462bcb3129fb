import { bounds } from '../geometry/ring.ts';
import type { Job } from '../machining/types.ts';
import type { Part as FinishedPart } from '../parts/types.ts';
import { formatShort } from '../units/format.ts';
import { readProgram } from '../verify/gcode/readProgram.ts';
import type { StartState } from '../verify/gcode/types.ts';
import { writePreview } from '../writers/html/preview.ts';
import { recordMoves } from '../writers/html/recordMoves.ts';
import type { PreviewInput, PreviewProgram, PreviewRing } from '../writers/html/types.ts';
import { cautionsFor } from '../writers/notes/cautions.ts';
import { situationOf, situationOfAll } from '../writers/notes/situations.ts';
import type { Design } from './design.ts';
import { toleranceOf } from './manifest.ts';
import { cutsOf, datumOf, endOf, figuresOf, isFromScaleZero, type ToolWork } from './previewCuts.ts';
import { timeProgram } from './timeProgram.ts';
import type { ProvenProgram } from './types.ts';

const START: StartState = {
  units: 'mm',
  distance: 'absolute',
  plane: 'xy',
  feedMode: 'per minute',
  position: [0, 0, 0],
};

/** The preview page: every program drawn from its written text, read anew. */
export function makePreview(made: Design, programs: readonly ProvenProgram[]): string {
  return writePreview(previewInput(made, programs));
}

/** All that the page shows. */
export function previewInput(made: Design, programs: readonly ProvenProgram[]): PreviewInput {
  const { value: instrument } = made.instrument;
  const situation = situationOfAll(made.plan.jobs, made.plan.handSteps, instrument);
  return {
    title: instrument.name,
    text: 'What the written programs will do, drawn from their own text. Look at each before it is run.\n\nThe cautions stand here in short; START-HERE.md and feed-notes.md have them in full.',
    cautions: cautionsFor(situation).map((c) => `${c.title}. ${firstSentence(c.text)}`),
    programs: programs.flatMap((program) => previewsOf(program, made)),
  };
}

/** One drawing for each tool, so that each is drawn as wide as it cuts. */
function previewsOf(program: ProvenProgram, made: Design): PreviewProgram[] {
  const { jobs, intents, text } = program;
  const bytes = new TextEncoder().encode(text);
  const { understands } = program.intent.machine;
  const changes = readProgram(bytes, START, understands, () => undefined).toolChanges;
  return jobs.flatMap((job, k) => {
    const intent = intents[k];
    if (intent === undefined) return [];
    if (jobs.length === 1)
      return [previewOf(program, { job, intent, bytes, counts: () => true, tool: '', number: 0 }, made)];
    const from = changes[k]?.line ?? 0;
    const before = changes[k + 1]?.line ?? Number.POSITIVE_INFINITY;
    const counts = (line: number): boolean => line >= from && line < before;
    const tool = toolWords(k, jobs.length);
    return [previewOf(program, { job, intent, bytes, counts, tool, number: k }, made)];
  });
}

/** Which of a program's tools a drawing is of, after the program's name; nothing where there is one. */
function toolWords(index: number, count: number): string {
  return count === 1 ? '' : `, tool ${index + 1} of ${count}`;
}

/** Names of the drawings that a program's jobs will have. */
export function sheetNames(jobs: readonly Job[]): SheetName[] {
  return jobs.map((job, k) => ({
    path: `${job.program}${toolWords(k, jobs.length)}`,
    part: job.part.title,
    operation: job.operation,
  }));
}

export interface SheetName {
  readonly path: string;
  readonly part: string;
  readonly operation: string;
}

function previewOf(program: ProvenProgram, part: ToolWork, made: Design): PreviewProgram {
  const { proof, text } = program;
  const { job, intent, bytes, counts } = part;
  const recorder = recordMoves();
  let lowest = 0;
  readProgram(bytes, START, intent.machine.understands, (motion) => {
    if (!counts(motion.line)) return;
    recorder.add(motion);
    if (motion.kind !== 'rapid') lowest = Math.min(lowest, motion.fromZ, motion.toZ);
  });
  const box = bounds(job.setup.stock.region.outer);
  const { bottom } = job.setup.stock;
  const cutsThrough = intent.cuts.some((cut) => cut.through);
  return {
    path: `${job.program}${part.tool}`,
    part: job.part.title,
    operation: job.operation,
    machine: job.machine.name,
    tool:
      job.kind === 'router'
        ? `no. ${job.tool.id}, ${job.tool.name}`
        : `beam, kerf ${formatShort(job.kerf, 3)} mm`,
    cutWidth: widthOf(job),
    cutBy: job.kind === 'router' ? 'cutter' : 'beam',
    end: endOf(intent),
    deepest: job.kind === 'router' ? -lowest : cutsThrough ? -bottom : 0,
    cuts: cutsOf(program, part),
    figures: figuresOf(program, part, undefined),
    cautions: cautionsFor(situationOf(job)).map((c) => c.title),
    datum: datumOf(job, made.layout.nutFace),
    workZero: job.setup.workZero,
    minutes: timeOf(program, part),
    proof: {
      passed: proof.passed,
      maxOvercut: proof.maxOvercut,
      maxUndercut: proof.maxUndercut,
      tolerance: toleranceOf(program),
    },
    stock: { x: box.x, y: box.y, z: [bottom, 0], rings: intent.stock.region, top: intent.stock.top },
    moves: recorder.finish(),
    // Of a part that stands on edge nothing but its holes is seen in their true place.
    outlines: job.setup.lie === undefined ? outlinesOf(job.part, job.setup.shift) : [],
    centrelineY: isFromScaleZero(job.part) && job.setup.lie === undefined ? -job.setup.shift[1] : null,
    text,
  };
}

function timeOf({ time, jobs, proof }: ProvenProgram, { bytes, job, intent, counts }: ToolWork): number {
  if (jobs.length === 1 || !proof.passed) return time.minutes;
  return timeProgram(bytes, job, intent, counts).minutes;
}

/** A vee cutter is drawn as wide as the line it cuts. */
function widthOf(job: Job): number {
  if (job.kind === 'laser') return job.kerf;
  const lines = job.operations.flatMap((o) => (o.kind === 'scribe' ? [o.width] : []));
  return lines.length > 0 ? Math.max(...lines) : job.tool.diameter;
}

function firstSentence(text: string): string {
  return /^.*?[.:](?=\s|$)/.exec(text)?.[0].replace(/:$/, '.') ?? text;
}

/** The finished edges of a part, in the program's frame. */
function outlinesOf(part: FinishedPart, shift: readonly [number, number]): PreviewRing[] {
  return part.features.flatMap((feature) =>
    feature.kind === 'outline'
      ? [feature.ring.map((v) => [v.x - shift[0], v.y - shift[1], v.bulge] as const)]
      : [],
  );
}
