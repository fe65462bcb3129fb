import { programsRelied } from '../machining/reliance.ts';
import type { Job } from '../machining/types.ts';
import type { Outcome } from '../report/finding.ts';
import type { PreviewInput } from '../writers/html/types.ts';
import { design } from './design.ts';
import { previewInput, type SheetName, sheetNames } from './preview.ts';
import { type Judge, jobsByProgram, judgeProgram, makePrograms } from './programs.ts';
import type { JobSources } from './types.ts';

export interface PreviewJob {
  /** Name of a folder for it. */
  readonly slug: string;
  /** Every drawing that there is, in cutting order. */
  readonly sheets: readonly SheetName[];
  /** Numbers of the drawings in `input`, in its order. */
  readonly drawn: readonly number[];
  readonly input: PreviewInput;
}

/** Says which drawings are wanted, before any program is written. */
export type Choose = (sheets: readonly SheetName[]) => Outcome<readonly number[]>;

/** Programs of an instrument, to be looked at: also those that do not prove, which say so. All, or those that are chosen. */
export function previewJob(
  sources: JobSources,
  choose: Choose = chooseAll,
  judge: Judge = judgeProgram,
): Outcome<PreviewJob> {
  const designed = design(sources);
  if (!designed.ok) return designed;
  const made = designed.value;
  const { name, slug } = made.instrument.value;
  const groups = jobsByProgram(made.plan.jobs);
  const sheets = groups.flatMap(sheetNames);
  const chosen = choose(sheets);
  const findings = [...designed.findings, ...chosen.findings];
  if (!chosen.ok) return { ok: false, findings };
  const wanted = new Set(chosen.value.map((i) => sheets[i]?.path));
  const programs = makePrograms(withThoseBefore(groups, wanted), name, { judge });
  const all = previewInput(made, programs);
  const input = { ...all, programs: all.programs.filter(({ path }) => wanted.has(path)) };
  const drawn = input.programs.map(({ path }) => sheets.findIndex((sheet) => sheet.path === path));
  return { ok: true, value: { slug, sheets, drawn, input }, findings };
}

/** Programs with a wanted drawing, and those whose cleared ground they go on from: these are cut before them. */
function withThoseBefore(
  groups: readonly (readonly Job[])[],
  wanted: ReadonlySet<unknown>,
): (readonly Job[])[] {
  const relied = new Set<string>();
  const kept = groups.toReversed().filter((jobs) => {
    const isDrawn = sheetNames(jobs).some(({ path }) => wanted.has(path));
    if (!isDrawn && !jobs.some(({ program }) => relied.has(program))) return false;
    for (const name of jobs.flatMap(programsRelied)) relied.add(name);
    return true;
  });
  return kept.toReversed();
}

export function chooseAll(sheets: readonly SheetName[]): Outcome<readonly number[]> {
  return { ok: true, value: sheets.map((_, i) => i), findings: [] };
}
