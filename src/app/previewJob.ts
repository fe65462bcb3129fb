import type { Outcome } from '../report/finding.ts';
import type { PreviewInput } from '../writers/html/types.ts';
import { design } from './design.ts';
import { previewInput } from './preview.ts';
import { jobsByProgram, makeProgram } from './programs.ts';
import type { JobSources } from './types.ts';

export interface PreviewJob {
  /** Name of a folder for it. */
  readonly slug: string;
  readonly input: PreviewInput;
}

/** All programs of an instrument, to be looked at: also those that do not prove, which say so. */
export function previewJob(sources: JobSources): Outcome<PreviewJob> {
  const designed = design(sources);
  if (!designed.ok) return designed;
  const made = designed.value;
  const { name, slug } = made.instrument.value;
  const programs = jobsByProgram(made.plan.jobs).map((jobs) => makeProgram(jobs, name));
  return { ok: true, value: { slug, input: previewInput(made, programs) }, findings: designed.findings };
}
