import { placeFindings } from '../profile/loaded.ts';
import { loadInstrument } from '../profile/loadInstrument.ts';
import type { Outcome } from '../report/finding.ts';
import { benchSheet } from '../sheet/benchSheet.ts';
import { renderSheetText } from '../sheet/renderSheetText.ts';
import { sheetJson } from '../sheet/sheetJson.ts';
import { layOutAll } from './layOutAll.ts';
import type { JobSources, SourceText } from './types.ts';

export interface PrintedSheet {
  readonly text: string;
  readonly json: string;
}

/** The bench sheet of an instrument; no shop is needed for it. */
export function makeSheet(profile: SourceText, readBeside?: JobSources['readBeside']): Outcome<PrintedSheet> {
  const loaded = loadInstrument(profile.text, profile.path);
  if (!loaded.ok) return loaded;
  const instrument = loaded.value.value;
  const layout = layOutAll(instrument, readBeside);
  const findings = [...loaded.findings, ...placeFindings(layout.findings, loaded.value)];
  if (!layout.ok) return { ok: false, findings };
  const sheet = benchSheet(layout.value, instrument);
  return { ok: true, value: { text: renderSheetText(sheet), json: sheetJson(sheet) }, findings };
}
