import { bounds } from '../geometry/ring.ts';
import { buildProgramIntent, stagesOf } from '../intent/buildProgram.ts';
import type { EarlierTexts } from '../intent/clearedGround.ts';
import type { Intent, ProgramIntent } from '../intent/types.ts';
import { programsRelied } from '../machining/reliance.ts';
import type { Job } from '../machining/types.ts';
import { planMoves } from '../motion/planMoves.ts';
import type { LengthOffset } from '../profile/types.ts';
import type { ProgramTime } from '../timing/types.ts';
import { formatInches, formatMm } from '../units/format.ts';
import { proveProgram, ranBefore } from '../verify/proveStages.ts';
import type { Ran } from '../verify/removal/clearedBefore.ts';
import type { CutWork } from '../verify/removal/work.ts';
import { type Stage, writeProgram, writeStages } from '../writers/gcode/write.ts';
import { sha256 } from './hash.ts';
import { timeProgram } from './timeProgram.ts';
import type { ProvenProgram } from './types.ts';
import { VERSION } from './version.ts';

const encoder = new TextEncoder();

const NO_TIME: ProgramTime = { minutes: 0, cutting: 0, travel: 0, waiting: 0, atFeed: 0 };

/** The jobs of each program, in order: one, or one for each tool where the machine changes tools. */
export function jobsByProgram(jobs: readonly Job[]): (readonly Job[])[] {
  return [...new Set(jobs.map((job) => job.program))].map((program) =>
    jobs.filter((job) => job.program === program),
  );
}

/** What reading a written program back has shown. */
export type Judged = Pick<ProvenProgram, 'proof' | 'work' | 'time'>;

/** A program as written, and what it was meant to do. */
export interface Written {
  readonly bytes: Uint8Array;
  readonly programSha256: string;
  readonly whole: ProgramIntent;
  readonly intent: Intent;
  readonly job: Job;
  /** Programs made already whose cleared ground it goes on from. */
  readonly before: readonly ProvenProgram[];
}

export type Judge = (written: Written) => Judged;

/** All programs, in order: each is proven on the stock that those before it leave, where it relies on them. */
export function makePrograms(
  programs: readonly (readonly Job[])[],
  instrumentName: string,
  { onProgram, judge }: { onProgram?: (name: string) => void; judge?: Judge } = {},
): ProvenProgram[] {
  const made: ProvenProgram[] = [];
  for (const jobs of programs) {
    onProgram?.(jobs[0]?.program ?? '');
    made.push(makeProgram(jobs, instrumentName, made, judge));
  }
  return made;
}

/** Hashes of the texts of programs, by name. */
export function hashesOf(programs: readonly ProvenProgram[]): EarlierTexts {
  return new Map(programs.map((p) => [p.job.program, sha256(p.text)]));
}

/**
 * Writes a program and its intent, then reads the text back and proves the one against the other. `made`: programs made
 * already, those among them on which it relies.
 */
export function makeProgram(
  jobs: readonly Job[],
  instrumentName: string,
  made: readonly ProvenProgram[] = [],
  judge: Judge = judgeProgram,
): ProvenProgram {
  const [job] = jobs;
  if (job === undefined) throw new Error('a program without a job');
  const text = textOf(jobs, job, instrumentName);
  const programSha256 = sha256(text);
  const whole = buildProgramIntent(jobs, programSha256, hashesOf(made));
  const intents = stagesOf(whole);
  const [intent] = intents;
  if (intent === undefined) throw new Error(`${job.program} means nothing`);
  const before = reliedOn(jobs, made);
  return {
    path: `programs/${job.program}`,
    intentPath: `intent/${job.program.replace(/\.nc$/, '.json')}`,
    job,
    jobs,
    text,
    intent,
    intents,
    intentText: intentText(whole),
    ...judge({ bytes: encoder.encode(text), programSha256, whole, intent, job, before }),
  };
}

/** Reads a written program back and proves it, on the stock that those before it leave. */
export function judgeProgram({ bytes, programSha256, whole, intent, job, before }: Written): Judged {
  const work: (readonly CutWork[])[] = [];
  const onWork = (done: readonly CutWork[]): number => work.push(done);
  const ran = before.flatMap((p) => ranOf(p, before));
  const proof = proveProgram(bytes, whole, { programSha256, rapid: rapidOf(job), ran, onWork });
  // A text that does not prove is not let out, and may hold moves that nobody can time.
  return { proof, work, time: proof.passed ? timeProgram(bytes, job, intent) : NO_TIME };
}

function ranOf({ text, jobs }: ProvenProgram, before: readonly ProvenProgram[]): Ran[] {
  const hash = sha256(text);
  return ranBefore(encoder.encode(text), buildProgramIntent(jobs, hash, hashesOf(before)), hash);
}

function reliedOn(jobs: readonly Job[], made: readonly ProvenProgram[]): ProvenProgram[] {
  const names = jobs.flatMap(programsRelied);
  return made.filter((p) => names.includes(p.job.program));
}

/** The kinds of work a program does, each named once. */
export function workOf({ jobs }: Pick<ProvenProgram, 'jobs'>): string {
  return [...new Set(jobs.map((job) => job.operation))].join(', ');
}

function textOf(jobs: readonly Job[], job: Job, instrumentName: string): string {
  const { controller } = job.machine;
  if (controller.toolChange === 'none') {
    return writeProgram(planMoves(job), {
      remarks: [...headRemarks(job, job.operation, instrumentName), toolRemark(job), ...setUpRemarks(job)],
      controller,
    });
  }
  return writeStages(jobs.map(stageOf), {
    remarks: [
      ...headRemarks(job, workOf({ jobs }), instrumentName),
      ...jobs.map(toolRemark),
      lengthRemark(controller.lengthOffset),
      ...setUpRemarks(job),
    ],
    controller,
  });
}

function stageOf(job: Job): Stage {
  if (job.kind !== 'router') throw new Error(`${job.program}: a beam has no tool to change`);
  return {
    tool: job.tool.id,
    remarks: [`${job.operation}, ${toolRemark(job)}`],
    moves: planMoves(job),
  };
}

function lengthRemark(lengthOffset: LengthOffset): string {
  return lengthOffset === 'G43'
    ? 'the length of every tool must stand in the table of the control under its number'
    : 'after each change of tools Z0 must be set on the top of the stock again before the program goes on';
}

/** The intent as it is written: one cut a line would be long, so plain two-space JSON with vertices kept on one line. */
function intentText(intent: ProgramIntent): string {
  const spaced = JSON.stringify(intent, null, 1);
  return `${spaced.replace(/\[\s+(-?[\d.e+-]+(?:,\s+-?[\d.e+-]+)*)\s+\]/g, (_, list: string) => `[${list.replace(/\s+/g, ' ')}]`)}\n`;
}

function rapidOf(job: Job): { readonly xy: number; readonly z: number } {
  return job.kind === 'router' ? job.machine.rapid : { xy: job.machine.rapid, z: job.machine.rapid };
}

function headRemarks(job: Job, work: string, instrumentName: string): string[] {
  const units = job.machine.controller.units === 'mm' ? 'millimetres' : 'inches';
  return [
    `${instrumentName}: ${job.part.title}, ${work}`,
    `program ${job.program}, written by nutline ${VERSION}; ${units}`,
    `machine: ${job.machine.name}`,
  ];
}

function setUpRemarks(job: Job): string[] {
  return [
    `work zero: ${job.setup.workZero}`,
    `${job.setup.lie === undefined ? 'blank' : 'as it lies'}: ${stockSize(job)}`,
    ...(job.kind === 'router'
      ? [`clear height: ${inUnitOf(job, job.machine.clearHeight)} above the top`]
      : []),
    ...(cutsNothing(job)
      ? ['a walk round: it only looks, spindle off, never below the clear height']
      : [
          ...travelRemark(job),
          ...relianceRemark(job),
          'check the work zero and run it once above the wood before cutting',
        ]),
  ];
}

/** Length, width and height of the stock as it lies on the machine. */
function stockSize(job: Job): string {
  const { region, bottom } = job.setup.stock;
  const { x, y } = bounds(region.outer);
  return [x[1] - x[0], y[1] - y[0], -bottom].map((v) => inUnitOf(job, v)).join(' x ');
}

/** A length in the unit of a job's program. */
function inUnitOf(job: Job, mm: number): string {
  return job.machine.controller.units === 'mm' ? `${formatMm(mm, 3)} mm` : `${formatInches(mm, 4)} in`;
}

/** What must have run before, in the head of the program itself: the paper may be elsewhere. */
function relianceRemark(job: Job): string[] {
  const names = programsRelied(job);
  return names.length === 0
    ? []
    : [
        `ONLY AFTER ${names.join(' and ')} has run on this blank: the cutter goes straight down where it has cleared`,
      ];
}

function travelRemark(job: Job): string[] {
  if (job.kind === 'laser') return [];
  return [`travel between features: ${inUnitOf(job, job.machine.travelHeight)} above the top`];
}

function cutsNothing(job: Job): boolean {
  return job.operations.length === 0;
}

function toolRemark(job: Job): string {
  if (job.kind === 'laser') {
    const air = job.air === null ? '' : `; air: ${job.air}`;
    return `beam: kerf ${inUnitOf(job, job.kerf)}, from ${job.source}${air}`;
  }
  const { tool, feeds } = job;
  const spindle = cutsNothing(job) ? 'spindle off' : `${feeds.rpm} rpm`;
  return `tool ${tool.id}: ${tool.name}, ${inUnitOf(job, tool.diameter)}, ${spindle}`;
}
