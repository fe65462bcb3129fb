import type { HandStep, Job } from '../machining/types.ts';
import type { Part } from '../parts/types.ts';
import type { Loaded, SourceFile } from '../profile/loaded.ts';
import type { Instrument, Shop } from '../profile/types.ts';
import { sha256 } from './hash.ts';
import { workOf } from './programs.ts';
import type { OutputFile, ProvenProgram } from './types.ts';
import { VERSION } from './version.ts';

interface ManifestInput {
  readonly instrument: Loaded<Instrument>;
  readonly shop: Loaded<Shop>;
  readonly files: readonly OutputFile[];
  readonly programs: readonly ProvenProgram[];
  readonly parts: readonly Part[];
  readonly handSteps: readonly HandStep[];
  readonly drawings: readonly SourceFile[];
}

/** `manifest.json`: every file by hash, every program with its proof and its intent, every feature with who makes it. */
export function writeManifest(input: ManifestInput): string {
  const manifest = {
    nutline: VERSION,
    format: 1,
    instrument: input.instrument.value.name,
    units: 'mm',
    profile: {
      ...sourceOf(input.instrument),
      drawings: input.drawings.map((d) => ({ path: d.name, sha256: sha256(d.text) })),
    },
    shop: {
      ...sourceOf(input.shop),
      includes: input.shop.sources
        .slice(1)
        .map((s) => ({ path: seenFrom(input.shop.file, s.name), sha256: sha256(s.text) })),
    },
    files: input.files.map((f) => ({
      path: f.path,
      role: f.role,
      part: f.part,
      operation: f.operation,
      sha256: sha256(f.bytes),
      bytes: f.bytes.length,
    })),
    programs: input.programs.map(programEntry),
    features: featureEntries(input),
  };
  return `${JSON.stringify(manifest, null, 1)}\n`;
}

/** A file by its name alone: the same from whatever folder the job was made. */
function sourceOf(loaded: Loaded<unknown>): { path: string; sha256: string } {
  return { path: partsOf(loaded.file).at(-1) ?? loaded.file, sha256: sha256(loaded.sources[0]?.text ?? '') };
}

/** The path of a file as the shop file beside it would name it. */
function seenFrom(shop: string, name: string): string {
  const [from, to] = [partsOf(shop).slice(0, -1), partsOf(name)];
  let shared = 0;
  while (shared < from.length && shared < to.length - 1 && from[shared] === to[shared]) shared += 1;
  return [...from.slice(shared).map(() => '..'), ...to.slice(shared)].join('/');
}

const partsOf = (path: string): string[] => path.split(/[\\/]/).filter((part) => part !== '' && part !== '.');

function programEntry(program: ProvenProgram): object {
  const { job, proof, intent, time } = program;
  return {
    path: program.path,
    part: job.part.id,
    operation: workOf(program),
    machine: job.machine.id,
    tool: toolOf(intent),
    ...(program.intents.length > 1 ? { tools: program.intents.map(toolOf) } : {}),
    workZero: job.setup.workZero,
    stock: stockBox(job),
    clearHeight: intent.limits.clearHeight,
    cutLength: proof.cutLength,
    rapidLength: proof.rapidLength,
    minutes: time.minutes,
    time: { cutting: time.cutting, travel: time.travel, waiting: time.waiting, atFeed: time.atFeed },
    proof: {
      passed: proof.passed,
      tolerance: toleranceOf(program),
      maxOvercut: proof.maxOvercut,
      maxUndercut: proof.maxUndercut,
      checks: proof.checks,
    },
    intent: { path: program.intentPath, sha256: sha256(program.intentText) },
  };
}

function toolOf({ tool }: ProvenProgram['intent']): object {
  return { id: tool.id, kind: tool.kind, diameter: tool.diameter };
}

/** The limits of the two checks that the program's worst overcut and undercut come from, mm; 0 for one that cuts nothing. */
export function limitsOf({ proof }: ProvenProgram): { readonly over: number; readonly under: number } {
  const limitOf = (names: readonly string[]): number => {
    const checks = proof.checks.filter((c) => names.includes(c.name));
    const worst = checks.toSorted((a, b) => b.value - a.value || a.limit - b.limit)[0];
    return worst?.limit ?? 0;
  };
  return {
    over: limitOf(['wall overcut', 'gouge']),
    under: limitOf(['wall undercut', 'line covered', 'ridges left']),
  };
}

/** Of those two limits the wider: what a program's walls and surfaces are proven to, mm. */
export function toleranceOf(program: ProvenProgram): number {
  const { over, under } = limitsOf(program);
  return Math.max(over, under);
}

function stockBox(job: Job): { x: [number, number]; y: [number, number]; z: [number, number] } {
  const xs = job.setup.stock.region.outer.map((v) => v.x);
  const ys = job.setup.stock.region.outer.map((v) => v.y);
  return {
    x: [Math.min(...xs), Math.max(...xs)],
    y: [Math.min(...ys), Math.max(...ys)],
    z: [job.setup.stock.bottom, 0],
  };
}

interface FeatureEntry {
  readonly id: string;
  readonly part: string;
  readonly kind: string;
  readonly madeBy: readonly string[];
}

function featureEntries(input: ManifestInput): FeatureEntry[] {
  const makers = makersOf(
    input.programs.flatMap((p) => p.jobs),
    input.handSteps,
  );
  const drawn = input.parts.flatMap((part) =>
    part.features.map((f) => ({ id: f.id, part: part.id, kind: f.kind as string })),
  );
  const known = new Set(drawn.map((f) => f.id));
  const marks = input.programs
    .flatMap(({ jobs }) => jobs)
    .flatMap((job) =>
      job.operations
        .filter((o) => !known.has(o.feature))
        .map((o) => ({ id: o.feature, part: job.part.id, kind: kindOf(o) })),
    );
  return [...drawn, ...marks].map((f) => ({ ...f, madeBy: makers.get(f.id) ?? [] }));
}

/** What is not a feature of the part itself: a line to saw on, a surface before its last passes, what is left of a pocket. */
function kindOf(operation: Job['operations'][number]): string {
  const { kind } = operation;
  return kind === 'rough surface' || kind === 'rough back' || kind === 'pocket' ? kind : 'line';
}

/** Which programs and hand steps make each feature. */
export function makersOf(jobs: readonly Job[], handSteps: readonly HandStep[]): Map<string, string[]> {
  const makers = new Map<string, string[]>();
  const add = (feature: string, maker: string): void => {
    makers.set(feature, [...(makers.get(feature) ?? []), maker]);
  };
  for (const job of jobs) for (const o of job.operations) add(o.feature, job.program);
  for (const step of handSteps) for (const feature of step.features) add(feature, `hand:${step.step}`);
  return makers;
}
