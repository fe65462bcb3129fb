import type { FilledDefault } from '../profile/resolve/fill.ts';
import type { Finding } from '../report/finding.ts';
import { design } from './design.ts';
import { sourceTexts } from './load.ts';
import type { JobSources } from './types.ts';

export interface CheckResult {
  readonly passed: boolean;
  readonly findings: readonly Finding[];
  /** Empty unless both files could be read. */
  readonly defaults: readonly (FilledDefault & { readonly file: string })[];
  /** For showing the lines that findings point at. */
  readonly texts: Readonly<Record<string, string>>;
}

/** All that is wrong with an instrument and a shop file, from spelling to what no machine of the shop can make. */
export function checkJob(sources: JobSources): CheckResult {
  const result = design(sources);
  if (!result.ok) {
    return { passed: false, findings: result.findings, defaults: [], texts: sourceTexts(sources) };
  }
  const { instrument, shop } = result.value;
  return {
    passed: true,
    findings: result.findings,
    defaults: [instrument, shop].flatMap((l) => l.defaults.map((d) => ({ ...d, file: l.file }))),
    texts: sourceTexts(sources, result.value),
  };
}
