import { planCuts } from '../cutlist/planCuts.ts';
import type { CutPlan } from '../cutlist/types.ts';
import { makeParts, piecesOf } from '../parts/makeParts.ts';
import { neckPieces } from '../parts/neckBlank.ts';
import { settingsOf } from '../parts/settings.ts';
import type { Finding, Outcome } from '../report/finding.ts';
import { thingsToBuy } from '../sheet/thingsToBuy.ts';
import { proveCutPlan } from '../verify/cutlist/proveCutPlan.ts';
import type { CutCheck } from '../verify/cutlist/types.ts';
import { writeCutListMarkdown } from '../writers/notes/cutList.ts';
import { inlayPieces } from './inlays.ts';
import { layOutAll } from './layOutAll.ts';
import { loadJob, placeInFiles } from './load.ts';
import type { JobSources } from './types.ts';

export interface PrintedCutList {
  readonly plan: CutPlan;
  readonly checks: readonly CutCheck[];
  readonly markdown: string;
}

/** The cut list alone: no machine has to be able to make the parts. A list that does not prove is refused. */
export function makeCutList(sources: JobSources): Outcome<PrintedCutList> {
  const loaded = loadJob(sources);
  if (!loaded.ok) return loaded;
  const instrument = loaded.value.instrument.value;
  const shop = loaded.value.shop.value;
  const layout = layOutAll(instrument, sources.readBeside);
  if (!layout.ok)
    return { ok: false, findings: [...loaded.findings, ...placeInFiles(layout.findings, loaded.value)] };
  const parts = makeParts(instrument, layout.value, settingsOf(shop));
  const pieces = [...piecesOf(instrument, parts), ...neckPieces(instrument, layout.value, settingsOf(shop))];
  const cuts = planCuts(pieces, shop);
  const findings: Finding[] = [...loaded.findings, ...placeInFiles(cuts.findings, loaded.value)];
  if (!cuts.ok) return { ok: false, findings };
  const checks = proveCutPlan(cuts.value, pieces, shop);
  const failed = checks.filter((c) => !c.passed);
  if (failed.length > 0)
    throw new Error(`cut list not proven: ${failed.map((c) => `${c.name} ${c.place}`).join('; ')}`);
  const toBuy = [...thingsToBuy(layout.value, instrument), ...inlayPieces(parts)];
  const markdown = writeCutListMarkdown(cuts.value, toBuy, pieces);
  return { ok: true, value: { plan: cuts.value, checks, markdown }, findings };
}
