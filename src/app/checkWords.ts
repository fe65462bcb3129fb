import { formatMm } from '../units/format.ts';
import type { Check } from '../verify/removal/proof.ts';

/** What a check looks at, by its name: named when there was none. */
const LOOKS_AT: Readonly<Record<string, string>> = {
  'wall overcut': 'no pass in wood that works on this cut',
  'floor deep': 'no pass in wood that works on this cut',
  'floor shallow': 'no pass over any point of its floor',
  'cleared before': 'no ground to look at',
  position: 'no pass at full depth',
  'line covered': 'no pass along the line',
  'cuts where meant': 'no cut in wood',
  bite: 'no cut in wood',
  'ramped entry': 'no cut in wood',
  'cutting length': 'no cut in wood',
  'spindle on': 'no cut in wood',
  'spindle speed': 'no cut in wood',
  'exact path': 'no cut in wood',
  feed: 'no motion at feed',
  'machine feed': 'no motion at feed',
  'plunge feed': 'no cut in wood',
  rapids: 'no rapid between known places',
  envelope: 'no motion between known places',
  'lowest point': 'no motion between known places',
  'keep-outs': 'no motion between known places',
  'numbers finite': 'no motion between known places',
  'end position': 'no motion at all',
};

/** What a check found and what is allowed; of one that saw nothing, what was not there. */
export function checkWords(check: Check): string {
  if (check.seen === 0) return `failed because it found ${LOOKS_AT[check.name] ?? 'nothing to look at'}`;
  return `${figure(check.value)}, limit ${figure(check.limit)}`;
}

function figure(value: number): string {
  return Number.isFinite(value) ? formatMm(value, 4) : String(value);
}
