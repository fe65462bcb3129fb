/** Damages programs by number, asks the judge for the harm and the prover for its verdict, and counts. */
import type { ProgramIntent } from '../../../src/intent/types.ts';
import { proveProgram } from '../../../src/verify/proveStages.ts';
import { type Base, baseOf, proveAgainstBase } from '../../../src/verify/reprove.ts';
import { goodOf, harmOf, harmOfGood, harmOfTool } from '../harm/judge.ts';
import {
  type GoodStages,
  goodOfStages,
  harmOfGoodStages,
  harmOfStagedTools,
  harmOfStages,
} from '../harm/stages.ts';
import { type Good, type Harm, SLACK } from '../harm/types.ts';
import { otherTool } from './byBug.ts';
import { DAMAGES, KINDS, OTHER_PROGRAM, OTHER_TOOL } from './kinds.ts';
import { type Random, randomFrom } from './random.ts';
import { type Parts, type Program, partsOf } from './text.ts';

/** A program with all that is worked out once for it. */
export interface Ready {
  readonly parts: Parts;
  readonly good: Good | GoodStages;
  readonly base: Base;
}

/** One damage of one program. */
export interface Fault {
  readonly number: number;
  readonly kind: string;
  readonly program: string;
  readonly text: string;
  /** The tool in the machine, when it is not the one meant. */
  readonly intent: ProgramIntent | null;
}

export interface Outcome {
  readonly harm: Harm | null;
  readonly passed: boolean;
  /** First check that failed. */
  readonly refusedBy: string | null;
}

const encoder = new TextEncoder();

export function makeReady(programs: readonly Program[]): Ready[] {
  return programs.map((program) => ({
    parts: partsOf(program),
    good:
      program.staged === null
        ? goodOf(program.text, program.intent)
        : goodOfStages(program.text, program.staged),
    base: baseOf(encoder.encode(program.text), program.staged ?? program.intent),
  }));
}

/** The fault of a number: the same for the same seed, whoever works it out. */
export function faultOf(
  ready: readonly Ready[],
  seed: number,
  number: number,
): { readonly fault: Fault; readonly on: Ready } {
  const random = randomFrom(Math.imul(seed, 0x85ebca6b) ^ Math.imul(number + 1, 0xc2b2ae35));
  for (let attempt = 0; attempt < 1000; attempt += 1) {
    const kind = random.pick(KINDS);
    const on = random.pick(ready);
    const made = make(kind, on, ready, random);
    if (made !== null) return { fault: { number, kind, program: on.parts.name, ...made }, on };
  }
  throw new Error(`no fault of number ${number}`);
}

function make(
  kind: string,
  { parts }: Ready,
  ready: readonly Ready[],
  random: Random,
): Pick<Fault, 'text' | 'intent'> | null {
  const { text, intent } = parts;
  if (kind === OTHER_TOOL)
    return intent.cuts.length === 0 ? null : { text, intent: withOtherTool(parts, random) };
  if (kind === OTHER_PROGRAM) {
    const other = random.pick(ready).parts;
    return other.text === text ? null : { text: other.text, intent: null };
  }
  const damaged = DAMAGES[kind]?.(parts, random) ?? null;
  return damaged === null || damaged === text ? null : { text: damaged, intent: null };
}

function withOtherTool({ intent, staged }: Parts, random: Random): ProgramIntent {
  if (staged === null) return otherTool(intent, random);
  const at = random.below(staged.stages.length);
  const stages = staged.stages.map((stage, k) =>
    k === at && stage.cuts.length > 0 ? otherTool(stage, random) : stage,
  );
  return { ...staged, stages };
}

/** The harm of a fault, whether its program changes tools or not. */
export function harmOfFault(
  { text, intent }: Pick<Fault, 'text' | 'intent'>,
  { good }: Pick<Ready, 'good'>,
  slack: number = SLACK,
): Harm | null {
  if ('parts' in good) {
    if (intent === null) return harmOfStages(good, text, slack);
    return 'stages' in intent ? harmOfStagedTools(good, intent, slack) : null;
  }
  if (intent === null) return harmOf(good, text, slack);
  return 'stages' in intent ? null : harmOfTool(good, intent, slack);
}

/** The harm of a good program itself; null unless the judge is wrong. */
export function harmOfReady({ good }: Pick<Ready, 'good'>): Harm | null {
  return 'parts' in good ? harmOfGoodStages(good) : harmOfGood(good);
}

export function judgeFault(fault: Fault, ready: Ready): Outcome {
  const { text, intent } = fault;
  const { base } = ready;
  const harm = harmOfFault(fault, ready);
  const bytes = encoder.encode(text);
  if (intent === null) {
    const { passed, refusedBy } = proveAgainstBase(base, bytes, { stopAtFirst: true });
    return { harm, passed, refusedBy: refusedBy[0] ?? null };
  }
  const proof = proveProgram(bytes, intent, { stopAtFirst: true });
  const failed = proof.checks.find((check) => !check.passed)?.name ?? proof.refusals[0]?.rule ?? null;
  return { harm, passed: proof.passed, refusedBy: failed };
}

/** Deviations that a survivor is tried at, mm. */
const STEPS = [0.005, 0.01, 0.02, 0.03, 0.05, 0.1, 0.2, 0.5, 1, 3, 10];

/** How far beyond its tolerance a harmful fault goes: less than the figure given. Infinite when no tolerance would do. */
export function deviationOf(fault: Fault, ready: Ready): number {
  for (const slack of [SLACK, ...STEPS]) if (harmOfFault(fault, ready, slack) === null) return slack;
  return Number.POSITIVE_INFINITY;
}

export interface Survivor {
  readonly number: number;
  readonly kind: string;
  readonly program: string;
  readonly harm: Harm;
  readonly below: number;
  /** The first lines that differ. */
  readonly changes: readonly Change[];
}

export interface Change {
  readonly line: number;
  readonly before: string | null;
  readonly after: string | null;
}

/** So many of the lines that differ are told. */
const TOLD = 3;

function changesOf(before: readonly string[], after: readonly string[]): Change[] {
  const all = Array.from({ length: Math.max(before.length, after.length) }, (_, i) => ({
    line: i + 1,
    before: before[i] ?? null,
    after: after[i] ?? null,
  }));
  return all.filter((change) => change.before !== change.after).slice(0, TOLD);
}

export interface Tally {
  made: number;
  harmful: number;
  refused: number;
  harmlessRefused: number;
  harmlessPassed: number;
  /** Milliseconds that damaging, judging and proving took; the one figure that differs from run to run. */
  milliseconds: number;
}

export interface Report {
  readonly byKind: Record<string, Tally>;
  readonly byHarm: Record<string, Tally>;
  readonly byCheck: Record<string, number>;
  readonly survivors: Survivor[];
}

export function emptyReport(): Report {
  return { byKind: {}, byHarm: {}, byCheck: {}, survivors: [] };
}

function tallyIn(table: Record<string, Tally>, name: string): Tally {
  table[name] ??= { made: 0, harmful: 0, refused: 0, harmlessRefused: 0, harmlessPassed: 0, milliseconds: 0 };
  return table[name];
}

/** Runs the faults of the numbers [from, to) and adds them to a report. */
export function runFaults(
  ready: readonly Ready[],
  seed: number,
  numbers: Iterable<number>,
  report: Report,
): Report {
  for (const number of numbers) {
    const started = performance.now();
    const { fault, on } = faultOf(ready, seed, number);
    const outcome = judgeFault(fault, on);
    const took = performance.now() - started;
    count(tallyIn(report.byKind, fault.kind), outcome, took);
    count(tallyIn(report.byHarm, outcome.harm?.kind ?? 'none'), outcome, took);
    if (outcome.refusedBy !== null && outcome.harm !== null)
      report.byCheck[outcome.refusedBy] = (report.byCheck[outcome.refusedBy] ?? 0) + 1;
    if (outcome.harm !== null && outcome.passed)
      report.survivors.push({
        number,
        kind: fault.kind,
        program: fault.program,
        harm: outcome.harm,
        below: deviationOf(fault, on),
        changes: changesOf(on.parts.lines, fault.text.split('\n')),
      });
  }
  return report;
}

function count(tally: Tally, { harm, passed }: Outcome, took: number): void {
  tally.made += 1;
  tally.milliseconds += took;
  if (harm !== null) tally.harmful += 1;
  if (harm !== null && !passed) tally.refused += 1;
  if (harm === null && !passed) tally.harmlessRefused += 1;
  if (harm === null && passed) tally.harmlessPassed += 1;
}
