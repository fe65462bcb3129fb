import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { design } from '../../src/app/design.ts';
import { previewInput } from '../../src/app/preview.ts';
import { previewJob } from '../../src/app/previewJob.ts';
import { jobsByProgram, makeProgram } from '../../src/app/programs.ts';
import type { JobSources } from '../../src/app/types.ts';
import { proveProgram } from '../../src/verify/proveStages.ts';
import type { CutWork } from '../../src/verify/removal/work.ts';
import { REASONING_SCRIPT } from '../../src/writers/html/client/script.ts';
import type { PreviewInput, PreviewProgram } from '../../src/writers/html/types.ts';
import { ROOT } from './cli.ts';

const read = (name: string): string => readFileSync(join(ROOT, 'profiles', name), 'utf8');

function bundled(profile: string, shop: string): JobSources {
  return {
    profile: { path: profile, text: read(profile) },
    shop: { path: shop, text: read(shop) },
    readInclude: read,
  };
}

/** What the page would show of a bundled instrument, from its files. */
export function previewOf(profile = 'tarn-parlour.yaml', shop = 'home-shop.yaml'): PreviewInput {
  const job = previewJob(bundled(profile, shop));
  if (!job.ok) throw new Error(JSON.stringify(job.findings));
  return job.value.input;
}

interface Line {
  readonly length: number;
}

interface Section {
  readonly stations: Float64Array;
  readonly top: Float64Array;
  readonly meant: Float64Array;
  readonly left: Float64Array;
}

export interface SectionFigure {
  readonly value: number;
  readonly x: number;
  readonly y: number;
}

/** What of the page's script needs no page, run here as the browser would run it. */
export interface Reasoning {
  readonly unpackMoves: (packed: PreviewProgram['moves']) => object;
  readonly modelFrom: (program: PreviewProgram, moves: object) => object;
  readonly lineOfPlan: (ax: number, ay: number, bx: number, by: number) => Line;
  readonly sectionOf: (model: object, line: Line, count: number) => Section;
  readonly figuresOf: (
    model: object,
    section: Section,
  ) => Readonly<Record<'over' | 'under' | 'deep' | 'high', SectionFigure>>;
}

export const reasoning = new Function(
  `${REASONING_SCRIPT}\nreturn { unpackMoves, modelFrom, lineOfPlan, sectionOf, figuresOf };`,
)() as Reasoning;

/** A program made ready as the page makes it, through the same JSON. */
export function modelOf(program: PreviewProgram): object {
  return reasoning.modelFrom(program, reasoning.unpackMoves(program.moves));
}

/** A program of the default job with its text changed, proven and made ready anew. */
export function withText(name: string, change: (text: string) => string): PreviewProgram {
  const designed = design(bundled('tarn-parlour.yaml', 'home-shop.yaml'));
  if (!designed.ok) throw new Error(JSON.stringify(designed.findings));
  const jobs = jobsByProgram(designed.value.plan.jobs).find(([job]) => job?.program === name);
  if (jobs === undefined) throw new Error(`no program ${name}`);
  const sound = makeProgram(jobs, 'Changed');
  const text = change(sound.text);
  if (text === sound.text) throw new Error('the text was not changed');
  const work: (readonly CutWork[])[] = [];
  const proof = proveProgram(new TextEncoder().encode(text), sound.intent, { onWork: (w) => work.push(w) });
  const [program] = previewInput(designed.value, [{ ...sound, text, proof, work }]).programs;
  if (program === undefined) throw new Error('nothing to show');
  return program;
}
