import { planBridge } from '../bridge/plan.ts';
import type { BridgeWork } from '../bridge/types.ts';
import { planNeckSet, setsNeck } from '../neck/plan.ts';
import type { Finding } from '../report/finding.ts';
import { renderBridgeText } from '../sheet/renderBridgeText.ts';
import { renderNeckSetText } from '../sheet/renderNeckSetText.ts';
import { renderStringsText } from '../sheet/renderStringsText.ts';
import { stringPlots } from '../sheet/stringPlots.ts';
import { planStrings } from '../stringing/plan.ts';
import { writePlot } from '../writers/svg/writePlot.ts';
import type { Design } from './design.ts';
import { file } from './file.ts';
import type { OutputFile } from './types.ts';

/** Pages and charts about the strings and about what holds their ends; none where the action is measured at the first fret. */
export function endsOfStrings(made: Design): OutputFile[] {
  const { value: instrument } = made.instrument;
  if (instrument.targets.actionFret < 2) return [];
  const strings = planStrings(instrument, made.layout);
  if (!strings.ok) throw new Error(`strings that were checked do not plan: ${codes(strings.findings)}`);
  const heights = strings.value.strings.map((s) => s.heights);
  const bridge = planBridge(instrument, made.layout, heights);
  if (!bridge.ok) throw new Error(`a bridge that was checked does not plan: ${codes(bridge.findings)}`);
  return [
    file('strings.txt', 'sheet', renderStringsText(strings.value)),
    file('bridge.txt', 'sheet', renderBridgeText(bridge.value)),
    ...neckPage(made, bridge.value),
    ...stringPlots(strings.value).map((plot) => file(`charts/${plot.id}.svg`, 'sheet', writePlot(plot))),
  ];
}

function neckPage(made: Design, { saddle }: BridgeWork): OutputFile[] {
  const { value: instrument } = made.instrument;
  if (!setsNeck(instrument)) return [];
  const heights = saddle.points.map((p) => p.aboveBridge);
  const set = planNeckSet(instrument, made.layout, heights, null);
  if (!set.ok) throw new Error(`a neck that was checked does not plan: ${codes(set.findings)}`);
  return [file('neckset.txt', 'sheet', renderNeckSetText(set.value))];
}

const codes = (findings: readonly Finding[]): string => findings.map((f) => f.code).join(', ');
