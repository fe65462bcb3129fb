import { checkLayout } from '../checks/checkLayout.ts';
import type { Layout } from '../layout/types.ts';
import { type Plan, planJobs } from '../machining/planJobs.ts';
import { findingsOfParts, makeParts, piecesOf } from '../parts/makeParts.ts';
import { settingsOf } from '../parts/settings.ts';
import type { Part, Piece } from '../parts/types.ts';
import { hasErrors } from '../report/collect.ts';
import type { Finding, Outcome } from '../report/finding.ts';
import { pullFindingsOf } from '../stringing/plan.ts';
import { layOutAll } from './layOutAll.ts';
import { type LoadedJob, loadJob, placeInFiles } from './load.ts';
import type { JobSources } from './types.ts';

/** Everything decided before a move is made. */
export interface Design extends LoadedJob {
  readonly layout: Layout;
  readonly parts: readonly Part[];
  readonly pieces: readonly Piece[];
  readonly plan: Plan;
}

/** Reads both files, lays the instrument out, makes its parts and plans who makes what; or all reasons why not. */
export function design(sources: JobSources): Outcome<Design> {
  const loaded = loadJob(sources);
  if (!loaded.ok) return loaded;
  const job = loaded.value;
  const instrument = job.instrument.value;
  const layout = layOutAll(instrument, sources.readBeside);
  const laidOut = [...loaded.findings, ...placeInFiles(layout.findings, job)];
  if (!layout.ok) return { ok: false, findings: laidOut };
  const looked = [...checkLayout(layout.value, instrument), ...pullFindingsOf(instrument, layout.value)];
  const found = [...laidOut, ...placeInFiles(looked, job)];
  if (hasErrors(found)) return { ok: false, findings: found };
  const shop = job.shop.value;
  const parts = makeParts(instrument, layout.value, settingsOf(shop));
  const plan = planJobs(parts, shop);
  const made = [...findingsOfParts(instrument, layout.value, settingsOf(shop)), ...plan.findings];
  const findings: Finding[] = [...found, ...placeInFiles(made, job)];
  if (!plan.ok) return { ok: false, findings };
  const pieces = piecesOf(instrument, parts);
  return { ok: true, value: { ...job, layout: layout.value, parts, pieces, plan: plan.value }, findings };
}
