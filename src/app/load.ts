import { checkTogether } from '../profile/checkTogether.ts';
import { type Loaded, placeFindings } from '../profile/loaded.ts';
import { loadInstrument } from '../profile/loadInstrument.ts';
import { loadShop } from '../profile/loadShop.ts';
import type { Instrument, Shop } from '../profile/types.ts';
import type { Finding, Outcome } from '../report/finding.ts';
import type { JobSources } from './types.ts';

export interface LoadedJob {
  readonly instrument: Loaded<Instrument>;
  readonly shop: Loaded<Shop>;
}

/** Reads both files and holds them against each other; all that is wrong with either comes at once. */
export function loadJob(sources: JobSources): Outcome<LoadedJob> {
  const instrument = loadInstrument(sources.profile.text, sources.profile.path);
  const shop = loadShop(sources.shop.text, sources.shop.path, sources.readInclude);
  const findings = [...instrument.findings, ...shop.findings];
  if (!instrument.ok || !shop.ok) return { ok: false, findings };
  const job = { instrument: instrument.value, shop: shop.value };
  const together = placeInFiles(checkTogether(job.instrument.value, job.shop.value), job);
  const all = [...findings, ...together];
  return together.some((f) => f.severity === 'error')
    ? { ok: false, findings: all }
    : { ok: true, value: job, findings: all };
}

/** Gives findings of later stages the file, line and column of the field they name. */
export function placeInFiles(findings: readonly Finding[], job: LoadedJob): Finding[] {
  return findings.flatMap((finding) => {
    return placeFindings([finding], finding.where?.source === 'shop' ? job.shop : job.instrument);
  });
}

/** Texts by file name, for showing the lines that findings point at. */
export function sourceTexts(sources: JobSources, job?: LoadedJob): Record<string, string> {
  const included = job?.shop.sources ?? [];
  return Object.fromEntries([
    ...included.map((s) => [s.name, s.text]),
    [sources.profile.path, sources.profile.text],
    [sources.shop.path, sources.shop.text],
  ]);
}
