/** What is wrong or doubtful about how strings pull, bear and sound. */
import { errorFinding, type FindingDetails, warningFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import { degreesFromRadians } from '../units/convert.ts';
import { formatNumber, formatShort } from '../units/format.ts';
import type { Stringing, StringPull } from './types.ts';

/**
 * Share of the least strength above which a wire may stretch for good: the upper end of the elastic limit of music wire,
 * 65 to 75 % (Shigley's Mechanical Engineering Design).
 */
export const NEAR_BREAKING = 0.75;
/** Highest tension over lowest (common practice, no source). */
const UNBALANCED = 1.6;
/** Least break angle over the saddle, degrees: the low end of the usual ranges (common practice, no source). */
const LEAST_BREAK_ANGLE = 8;

const at = (path: string, details: FindingDetails = {}): FindingDetails => ({
  where: { source: 'instrument', path },
  ...details,
});

/** Findings about tension and down-bearing, which need no model of the tuning. */
export function pullFindings(pulls: readonly StringPull[]): Finding[] {
  return [
    ...pulls.flatMap((pull) => [...strengthFindings(pull), ...bearingFindings(pull)]),
    ...balance(pulls),
  ];
}

const nameOf = (pull: StringPull): string => `String ${pull.position} (${pull.pitch})`;

function strengthFindings(pull: StringPull): Finding[] {
  const share = pull.stress / pull.strength;
  if (share < NEAR_BREAKING) return [];
  const path = `strings[${pull.position - 1}].pitch`;
  const limit = `${mpa(pull.strength)}${pull.material === 'steel' ? ' (ASTM A228 minimum)' : ''}`;
  if (!(share < 1)) {
    const make = pull.strengthSure ? errorFinding : warningFinding;
    const guess = pull.coreGiven ? '' : ' The core is a usual one for the gauge: measure it.';
    return [
      make(
        'string-breaks',
        `${nameOf(pull)} would break: ${mpa(pull.stress)} in a core of ${formatShort(pull.core, 3)} mm.${guess}`,
        at(path, {
          allowed: `less than ${limit}: up to ${formatShort(pull.breaksAtHertz, 1)} Hz at this length`,
          remedy: 'A lower pitch, a shorter scale or a stronger core. A thicker plain string does not help.',
        }),
      ),
    ];
  }
  return [
    warningFinding(
      'string-near-breaking',
      `${nameOf(pull)} carries ${percent(share)} of what its core is sure to bear: ${mpa(pull.stress)}.`,
      at(path, {
        allowed: `${percent(NEAR_BREAKING)} of ${limit}`,
        remedy: 'Wear eye protection when tuning up; a lower pitch lasts longer.',
      }),
    ),
  ];
}

function bearingFindings(pull: StringPull): Finding[] {
  const angle = degreesFromRadians(pull.breakAngles.front + pull.breakAngles.back);
  if (!(pull.downBearing > 0)) {
    return [
      errorFinding(
        'no-down-bearing',
        `${nameOf(pull)} would lift off the saddle: ${formatNumber(pull.downBearing, 1)} N of down-bearing.`,
        at('bridge.saddle.height', {
          allowed: `more than 0 N; usually a break of ${LEAST_BREAK_ANGLE} deg or more`,
          remedy:
            'A higher saddle, or an end of the strings that lies lower or nearer to it: a deeper ramp, lower holes.',
        }),
      ),
    ];
  }
  if (angle >= LEAST_BREAK_ANGLE) return [];
  return [
    warningFinding(
      'little-down-bearing',
      `${nameOf(pull)} breaks over the saddle by only ${formatNumber(angle, 1)} deg.`,
      at('bridge.saddle.height', {
        allowed: `${LEAST_BREAK_ANGLE} deg or more (common practice)`,
        remedy:
          'A higher saddle, or an end of the strings that lies lower or nearer to it: a deeper ramp, lower holes.',
      }),
    ),
  ];
}

function balance(pulls: readonly StringPull[]): Finding[] {
  const sorted = [...pulls].sort((a, b) => a.tension - b.tension);
  const [low, high] = [sorted[0], sorted[sorted.length - 1]];
  if (low === undefined || high === undefined || high.tension <= UNBALANCED * low.tension) return [];
  return [
    warningFinding(
      'set-unbalanced',
      `${nameOf(high)} pulls with ${newtons(high.tension)} and string ${low.position} (${low.pitch}) with ${newtons(low.tension)}: ${formatNumber(high.tension / low.tension, 1)} times as much.`,
      at('strings', {
        allowed: `up to ${UNBALANCED} times (common practice)`,
        remedy: 'Gauges nearer to each other in tension; check pitch, gauge and core of both.',
      }),
    ),
  ];
}

/** Findings about the saddle's width and about strings that lie on frets. */
export function tuningFindings(stringing: Stringing): Finding[] {
  const { has, needs, profileNeeds } = stringing.saddleWidth;
  const narrow = [
    ...(profileNeeds > has
      ? [tooNarrow('saddle-narrow-for-set-backs', "The profile's set-backs need", profileNeeds, has)]
      : []),
    ...(needs > has ? [tooNarrow('saddle-narrow', 'Crowns that play in tune need', needs, has)] : []),
  ];
  return [...narrow, ...heightFindings(stringing)];
}

function heightFindings({ strings, fretNames }: Stringing): Finding[] {
  const onFret = strings.filter(({ heights }) => !(heights.tightest.room > 0));
  const low = strings.filter(({ heights }) => !(heights.atNut > 0));
  return [
    ...onFret.map(({ pull, heights: { tightest: t } }) =>
      warningFinding(
        'string-on-fret',
        `${nameOf(pull)} ${t.stoppedAt === 0 ? 'open' : `stopped at fret ${fretNames[t.stoppedAt - 1]}`} would lie on fret ${fretNames[(t.touches ?? 1) - 1]}.`,
        at('targets', { remedy: 'A higher action, or less height over the first fret.' }),
      ),
    ),
    ...low
      .slice(0, 1)
      .map(({ heights }) =>
        warningFinding(
          'nut-too-low',
          `${low.map(({ pull }) => nameOf(pull)).join(', ')} would lie below the frets' plane at the nut, by ${formatShort(-heights.atNut, 2)} mm or so.`,
          at('targets', { remedy: 'More height over the first fret, or less action.' }),
        ),
      ),
  ];
}

const tooNarrow = (code: string, what: string, needs: number, has: number): Finding =>
  warningFinding(
    code,
    `${what} a saddle ${formatNumber(needs, 1)} mm wide; it is ${formatShort(has, 3)} mm.`,
    at('bridge.saddle.width', {
      allowed: `${formatNumber(needs, 1)} mm or more for every string in its own place`,
      remedy: 'A wider saddle, or the compromise that the table shows.',
    }),
  );

/** The set-up cannot be worked out from one measurement. */
export const actionAtFirstFret = (): Finding =>
  errorFinding(
    'action-at-first-fret',
    'The action is measured at the first fret, where the height over the first fret is measured too: the string could have any slope.',
    at('targets.actionFret', { allowed: 'a fret from the second on', remedy: 'Usually the 12th.' }),
  );

const mpa = (stress: number): string => `${formatNumber(stress, 0)} MPa`;
const newtons = (force: number): string => `${formatNumber(force, 0)} N`;
const percent = (share: number): string => `${formatNumber(100 * share, 0)} %`;
