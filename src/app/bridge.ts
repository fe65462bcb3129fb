import { planBridge } from '../bridge/plan.ts';
import { layOut } from '../layout/layOut.ts';
import { placeFindings } from '../profile/loaded.ts';
import { loadInstrument } from '../profile/loadInstrument.ts';
import type { Outcome } from '../report/finding.ts';
import { bridgeJson } from '../sheet/bridgeJson.ts';
import { renderBridgeText } from '../sheet/renderBridgeText.ts';
import { endHeightsOf } from '../stringing/plan.ts';
import type { SourceText } from './types.ts';

export interface PrintedBridge {
  readonly text: string;
  readonly json: string;
}

/** Where the bridge goes, and the work on saddle, nut and pins; no shop is needed for it. */
export function makeBridge(profile: SourceText): Outcome<PrintedBridge> {
  const loaded = loadInstrument(profile.text, profile.path);
  if (!loaded.ok) return loaded;
  const instrument = loaded.value.value;
  const layout = layOut(instrument);
  const found = [...loaded.findings, ...placeFindings(layout.findings, loaded.value)];
  if (!layout.ok) return { ok: false, findings: found };
  const heights = endHeightsOf(instrument, layout.value);
  const findings = [...found, ...placeFindings(heights.findings, loaded.value)];
  if (!heights.ok) return { ok: false, findings };
  const work = planBridge(instrument, layout.value, heights.value);
  const all = [...findings, ...placeFindings(work.findings, loaded.value)];
  if (!work.ok || all.some((f) => f.severity === 'error')) return { ok: false, findings: all };
  return {
    ok: true,
    value: { text: renderBridgeText(work.value), json: bridgeJson(work.value) },
    findings: all,
  };
}
