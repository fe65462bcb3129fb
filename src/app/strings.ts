import { layOut } from '../layout/layOut.ts';
import { placeFindings } from '../profile/loaded.ts';
import { loadInstrument } from '../profile/loadInstrument.ts';
import type { Outcome } from '../report/finding.ts';
import { renderStringsText } from '../sheet/renderStringsText.ts';
import { stringsJson } from '../sheet/stringsJson.ts';
import { planStrings } from '../stringing/plan.ts';
import { BAD_TUNING, readTuning, type TuningWords } from '../stringing/retune.ts';
import type { SourceText } from './types.ts';

export interface PrintedStrings {
  readonly text: string;
  readonly json: string;
}

/** Code of findings that speak of the command's own words, not of a file. */
export { BAD_TUNING };

/** Tension, tuning and saddle of an instrument's strings; no shop is needed for them. */
export function makeStrings(profile: SourceText, tuning: TuningWords): Outcome<PrintedStrings> {
  const loaded = loadInstrument(profile.text, profile.path);
  if (!loaded.ok) return loaded;
  const instrument = loaded.value.value;
  const layout = layOut(instrument);
  const found = [...loaded.findings, ...placeFindings(layout.findings, loaded.value)];
  if (!layout.ok) return { ok: false, findings: found };
  const other = readTuning(instrument, tuning);
  if (!other.ok) return { ok: false, findings: [...found, ...other.findings] };
  const planned = planStrings(instrument, layout.value, other.value);
  const findings = [...found, ...placeFindings(planned.findings, loaded.value)];
  if (!planned.ok) return { ok: false, findings };
  const stringing = planned.value;
  return { ok: true, value: { text: renderStringsText(stringing), json: stringsJson(stringing) }, findings };
}
