import { planCuts } from '../cutlist/planCuts.ts';
import { programsRelied } from '../machining/reliance.ts';
import type { Job } from '../machining/types.ts';
import type { FilledDefault } from '../profile/resolve/fill.ts';
import type { Finding } from '../report/finding.ts';
import { type Design, design } from './design.ts';
import { placeInFiles, sourceTexts } from './load.ts';
import { jobsByProgram, makePrograms } from './programs.ts';
import type { JobSources } from './types.ts';
import { unproven } from './unproven.ts';

export interface CheckResult {
  readonly passed: boolean;
  readonly findings: readonly Finding[];
  /** Empty unless both files could be read. */
  readonly defaults: readonly (FilledDefault & { readonly file: string })[];
  /** For showing the lines that findings point at. */
  readonly texts: Readonly<Record<string, string>>;
}

/**
 * All that is wrong with an instrument and a shop file, from spelling to what no machine of the shop can make and what no stock
 * is large enough for. Planned as for making; of the programs only those are written and proven whose proof hangs on where the
 * shop puts things: beside a clamp, or several parts on one panel.
 */
export function checkJob(sources: JobSources): CheckResult {
  const result = design(sources);
  if (!result.ok) {
    return { passed: false, findings: result.findings, defaults: [], texts: sourceTexts(sources) };
  }
  const { instrument, shop, pieces } = result.value;
  const cuts = planCuts(pieces, shop.value);
  const faults = placedFaults(result.value);
  return {
    passed: faults.length === 0 && cuts.ok,
    findings: [...result.findings, ...placeInFiles(cuts.findings, result.value), ...faults],
    defaults: [instrument, shop].flatMap((l) => l.defaults.map((d) => ({ ...d, file: l.file }))),
    texts: sourceTexts(sources, result.value),
  };
}

function placedFaults(made: Design): Finding[] {
  const all = jobsByProgram(made.plan.jobs);
  const placed = all.filter((jobs) => jobs.some(hangsOnPlaces));
  const relied = placed.flatMap((jobs) => jobs.flatMap(programsRelied));
  const programs = all.filter(
    (jobs) => placed.includes(jobs) || jobs.some(({ program }) => relied.includes(program)),
  );
  return placeInFiles(makePrograms(programs, made.instrument.value.name).flatMap(unproven), made);
}

function hangsOnPlaces({ setup, operations }: Job): boolean {
  const kept = operations.filter(
    (o) => (o.kind === 'outline' || o.kind === 'beam cut') && o.keep === 'inside',
  );
  return setup.keepOuts.length > 0 || kept.length > 1;
}
