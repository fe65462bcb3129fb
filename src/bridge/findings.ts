import type { Family, Instrument } from '../profile/types.ts';
import { errorFinding, type FindingDetails, warningFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import { formatShort } from '../units/format.ts';
import type { BridgeWork } from './types.ts';

/** How far a saddle usually stands out of a bridge, mm (common practice, no source); other families have no usual range. */
const USUAL_OUT: Partial<Record<Family, readonly [number, number]>> = { guitar: [2.5, 4.5] };
/** Least height over the bridge's face at which a string still clears it, mm (common practice, no source). */
const LEAST_OUT = 1;
/** Least from an outer string's edge to the board's edge at the nut, mm (common practice, no source). */
const LEAST_MARGIN = 2;
/** A saddle's height that the strings' down-bearing was worked out with may be off by this before it matters, mm. */
const ALIKE = 1;

const at = (path: string, details: FindingDetails = {}): FindingDetails => ({
  where: { source: 'instrument', path },
  ...details,
});
const mm = (length: number): string => `${formatShort(length, 2)} mm`;

/** What is doubtful about the bridge's numbers. */
export function bridgeFindings(instrument: Instrument, work: BridgeWork): Finding[] {
  return [
    ...saddleOut(instrument, work),
    ...saddleHeld(instrument, work),
    ...bearingHeight(instrument, work),
    ...nutMargins(work),
  ];
}

function saddleOut({ family }: Instrument, { saddle, straightedge }: BridgeWork): Finding[] {
  const usual = USUAL_OUT[family];
  const low = saddle.points.filter((p) => p.aboveBridge < LEAST_OUT);
  if (low.length > 0) {
    const names = low.map((p) => `string ${p.position} (${p.pitch}) ${mm(p.aboveBridge)}`).join(', ');
    return [
      errorFinding(
        'saddle-too-low',
        `For the action wanted the saddle would stand out too little: ${names} above the bridge's face.`,
        at('bridge.straightedge', {
          allowed: `at least ${mm(LEAST_OUT)} under every string`,
          remedy:
            'A lower bridge or a neck set further back: the straightedge must run higher over the bridge.',
        }),
      ),
    ];
  }
  if (usual === undefined) return [];
  const outside = saddle.points.filter((p) => p.aboveBridge < usual[0] || p.aboveBridge > usual[1]);
  const worst = outside.toSorted((a, b) => missOf(b.aboveBridge, usual) - missOf(a.aboveBridge, usual))[0];
  if (worst === undefined) return [];
  return [
    warningFinding(
      'saddle-unusual',
      `With the straightedge ${mm(straightedge.strung)} above the bridge the saddle stands out ${mm(worst.aboveBridge)} under string ${worst.position} (${worst.pitch}).`,
      at('bridge.straightedge', {
        allowed: `usually ${usual[0]} to ${usual[1]} mm`,
        remedy:
          'Measure the straightedge again; set the neck, or choose the bridge’s height, before the saddle is made.',
      }),
    ),
  ];
}

const missOf = (value: number, [low, high]: readonly [number, number]): number =>
  Math.max(low - value, value - high);

function saddleHeld({ bridge }: Instrument, { saddle }: BridgeWork): Finding[] {
  const out = saddle.tallest - saddle.slotDepth;
  if (bridge.saddle.slotDepth >= out) return [];
  return [
    warningFinding(
      'saddle-tips',
      `The saddle stands out ${mm(out)} and is held by ${mm(bridge.saddle.slotDepth)} of slot: the strings tip it forward.`,
      at('bridge.saddle.slotDepth', {
        allowed: `at least ${mm(out)} (common practice)`,
        remedy: 'A deeper slot.',
      }),
    ),
  ];
}

function bearingHeight({ bridge }: Instrument, { saddle }: BridgeWork): Finding[] {
  const middle = saddle.points.reduce((sum, p) => sum + p.aboveBridge, 0) / saddle.points.length;
  if (Math.abs(middle - bridge.saddle.height) <= ALIKE) return [];
  return [
    warningFinding(
      'saddle-height-differs',
      `Down-bearing is worked out for a saddle ${mm(bridge.saddle.height)} above the bridge; the action wanted makes it ${mm(middle)} in the mean.`,
      at('bridge.saddle.height', {
        allowed: `within ${mm(ALIKE)} of each other`,
        remedy: `Say height: ${formatShort(middle, 1)} mm, or correct bridge.straightedge.`,
      }),
    ),
  ];
}

function nutMargins({ nut }: BridgeWork): Finding[] {
  const sides = [
    ['bass', nut.marginBass],
    ['treble', nut.marginTreble],
  ] as const;
  return sides
    .filter(([, margin]) => margin < LEAST_MARGIN)
    .map(([side, margin]) =>
      warningFinding(
        'string-near-edge',
        `At the nut the outer string of the ${side} side runs ${mm(margin)} from the board's edge and slips off it when fretted.`,
        at('nut.stringSpread', {
          allowed: `at least ${LEAST_MARGIN} mm`,
          remedy: 'A narrower spread or a wider board.',
        }),
      ),
    );
}
