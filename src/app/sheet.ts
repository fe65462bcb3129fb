import { placeFindings } from '../profile/loaded.ts';
import { loadInstrument } from '../profile/loadInstrument.ts';
import type { Outcome } from '../report/finding.ts';
import { benchSheet } from '../sheet/benchSheet.ts';
import { renderSheetText } from '../sheet/renderSheetText.ts';
import { sheetJson } from '../sheet/sheetJson.ts';
import { writePageFigures } from '../writers/csv/pageFigures.ts';
import { writePageHtml } from '../writers/html/page.ts';
import { writePageMarkdown } from '../writers/notes/pageMarkdown.ts';
import { sha256 } from './hash.ts';
import { layOutAll } from './layOutAll.ts';
import type { JobSources, SourceText } from './types.ts';
import { benchPageOf } from './workPages.ts';

export interface PrintedSheet {
  readonly text: string;
  readonly json: string;
  /** The sheets to work down, made when they are asked for. */
  readonly pages: {
    readonly markdown: () => string;
    readonly html: () => string;
    readonly csv: () => string;
  };
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
  const page = benchPageOf(instrument, layout.value, sha256(profile.text));
  const pages = {
    markdown: () => writePageMarkdown(page),
    html: () => writePageHtml(page),
    csv: () => writePageFigures(page),
  };
  return { ok: true, value: { text: renderSheetText(sheet), json: sheetJson(sheet), pages }, findings };
}
