import { planBridge } from '../bridge/plan.ts';
import { layOut } from '../layout/layOut.ts';
import { planNeckSet } from '../neck/plan.ts';
import type { Measured, NeckSet } from '../neck/types.ts';
import { placeFindings } from '../profile/loaded.ts';
import { loadInstrument } from '../profile/loadInstrument.ts';
import type { LengthUnit } from '../profile/types.ts';
import { errorFinding, hasErrors } from '../report/collect.ts';
import type { Finding, Outcome } from '../report/finding.ts';
import { renderNeckSetText } from '../sheet/renderNeckSetText.ts';
import { endHeightsOf } from '../stringing/plan.ts';
import { parseLength } from '../units/length.ts';
import type { SourceText } from './types.ts';

/** Code of findings that speak of the command's own words, not of a file. */
export const BAD_MEASURE = 'bad-measure';

/** What was measured, as written. */
export interface MeasureWords {
  readonly straightedge: string | undefined;
  readonly aim: string | undefined;
}

export interface PrintedNeckSet {
  readonly text: string;
  readonly json: string;
}

/** The neck's angle, and what to take off the heel where something was measured; no shop is needed for it. */
export function makeNeckSet(profile: SourceText, words: MeasureWords): Outcome<PrintedNeckSet> {
  const loaded = loadInstrument(profile.text, profile.path);
  if (!loaded.ok) return loaded;
  const instrument = loaded.value.value;
  const layout = layOut(instrument);
  const found = [...loaded.findings, ...placeFindings(layout.findings, loaded.value)];
  if (!layout.ok) return { ok: false, findings: found };
  const heights = endHeightsOf(instrument, layout.value);
  if (!heights.ok)
    return { ok: false, findings: [...found, ...placeFindings(heights.findings, loaded.value)] };
  const bridge = planBridge(instrument, layout.value, heights.value);
  const measured = readMeasures(words, instrument.units);
  const before = [...found, ...placeFindings(bridge.findings, loaded.value), ...measured.findings];
  if (!bridge.ok || !measured.ok || hasErrors(before)) return { ok: false, findings: before };
  const saddle = bridge.value.saddle.points.map((p) => p.aboveBridge);
  const set = planNeckSet(instrument, layout.value, saddle, measured.value);
  const findings = [...before, ...placeFindings(set.findings, loaded.value)];
  if (!set.ok) return { ok: false, findings };
  return { ok: true, value: { text: renderNeckSetText(set.value), json: neckSetJson(set.value) }, findings };
}

const neckSetJson = (set: NeckSet): string => `${JSON.stringify(set, null, 1)}\n`;

/** Null when nothing was measured; an aim without a straightedge is one half of a plane and is refused. */
function readMeasures(words: MeasureWords, units: LengthUnit): Outcome<Measured | null> {
  if (words.straightedge === undefined && words.aim === undefined)
    return { ok: true, value: null, findings: [] };
  if (words.straightedge === undefined) {
    return refuse('An aim alone does not set a neck.', '--straightedge as well, measured the same way');
  }
  const straightedge = parseLength(words.straightedge, units);
  if (!straightedge.ok) return refuse(straightedge.problem, 'a length, as 9.5 mm or 3/8 in');
  const aim = readAim(words.aim, units);
  if (!aim.ok) return aim;
  if (straightedge.value < 0 || straightedge.value > 80 || Math.abs(aim.value) > 50) {
    return refuse(
      'That is no measure of a neck.',
      'a straightedge 0 to 80 mm above the top, an aim within 50 mm',
    );
  }
  return { ok: true, value: { straightedge: straightedge.value, aim: aim.value }, findings: [] };
}

/** A length and the side that the middle passes on: minus signs are too easily read as dashes. */
function readAim(written: string | undefined, units: LengthUnit): Outcome<number> {
  if (written === undefined) return { ok: true, value: 0, findings: [] };
  const sided = /^(.*\S)\s+(bass|treble)$/.exec(written.trim());
  const allowed = 'a length and a side, as "1 mm treble" or "1/32 in bass"';
  if (sided === null) return refuse(`"${written}" does not say to which side the middle passes.`, allowed);
  const length = parseLength(sided[1] ?? '', units);
  if (!length.ok) return refuse(length.problem, allowed);
  if (length.value < 0) return refuse(`"${written}" has a minus sign and a side.`, allowed);
  return { ok: true, value: sided[2] === 'bass' ? -length.value : length.value, findings: [] };
}

function refuse(text: string, allowed: string): Outcome<never> {
  const findings: Finding[] = [errorFinding(BAD_MEASURE, text, { allowed })];
  return { ok: false, findings };
}
