import { planBridge } from '../bridge/plan.ts';
import { checkLayout } from '../checks/checkLayout.ts';
import type { Layout } from '../layout/types.ts';
import { type Plan, planJobs } from '../machining/planJobs.ts';
import { planNeckSet, setsNeck } from '../neck/plan.ts';
import { findingsOfParts, piecesOf } from '../parts/makeParts.ts';
import { neckPieces } from '../parts/neckBlank.ts';
import { settingsOf } from '../parts/settings.ts';
import type { Part, Piece } from '../parts/types.ts';
import type { SourceFile } from '../profile/loaded.ts';
import type { Instrument } from '../profile/types.ts';
import { hasErrors } from '../report/collect.ts';
import type { Finding, Outcome } from '../report/finding.ts';
import { endHeightsOf, pullFindingsOf } from '../stringing/plan.ts';
import { makeAllParts } from './allParts.ts';
import { drawingNames } from './drawingNames.ts';
import { layOutAll } from './layOutAll.ts';
import { type LoadedJob, loadJob, placeInFiles } from './load.ts';
import type { JobSources } from './types.ts';

/** Everything decided before a move is made. */
export interface Design extends LoadedJob {
  readonly layout: Layout;
  readonly parts: readonly Part[];
  readonly pieces: readonly Piece[];
  readonly plan: Plan;
  /** The drawings that the profile names, as they were read. */
  readonly drawings: readonly SourceFile[];
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
  const looked = [...checkLayout(layout.value, instrument), ...findingsAtEnds(instrument, layout.value)];
  const found = [...laidOut, ...placeInFiles(looked, job)];
  if (hasErrors(found)) return { ok: false, findings: found };
  const shop = job.shop.value;
  const parts = makeAllParts(instrument, layout.value, shop);
  const plan = planJobs(parts, shop);
  const made = [...findingsOfParts(instrument, layout.value, settingsOf(shop)), ...plan.findings];
  const findings: Finding[] = [...found, ...placeInFiles(made, job)];
  if (!plan.ok) return { ok: false, findings };
  const pieces = [...piecesOf(instrument, parts), ...neckPieces(instrument, layout.value, settingsOf(shop))];
  const drawings = drawingNames(instrument).map((name) => ({ name, text: sources.readBeside?.(name) ?? '' }));
  return {
    ok: true,
    value: { ...job, layout: layout.value, parts, pieces, plan: plan.value, drawings },
    findings,
  };
}

/** What is wrong at the strings' ends: tension, bearing, saddle, nut and the neck's angle. */
function findingsAtEnds(instrument: Instrument, layout: Layout): Finding[] {
  const pull = pullFindingsOf(instrument, layout);
  const heights = endHeightsOf(instrument, layout);
  if (!heights.ok) return pull;
  const bridge = planBridge(instrument, layout, heights.value);
  if (!bridge.ok || !setsNeck(instrument)) return [...pull, ...bridge.findings];
  const saddle = bridge.value.saddle.points.map((p) => p.aboveBridge);
  return [...pull, ...bridge.findings, ...planNeckSet(instrument, layout, saddle, null).findings];
}
