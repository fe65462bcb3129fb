/** Do the set-backs make a saddle, and do they look like what was meant? */
import type { Finding } from '../report/finding.ts';
import { spaceStrings } from '../spacing/strings.ts';
import { type Check, check, doubtful, HAIR, mm } from './check.ts';
import type { Instrument } from './types.ts';

/** A saddle about 3 mm thick can be shaped this far to either side of its middle (common practice, no source). */
const ROOM_ON_SADDLE = 1;
/** Neighbours further apart than this are more likely a slip of the pen than a plan (common practice, no source). */
const USUAL_STEP = 4;

type SaddleSections = Pick<Instrument, 'strings' | 'courses' | 'nut' | 'bridge'>;

/** How far behind the straight line through the outer saddle points each string's point lies, along the centreline. */
export function offStraightSaddle(sections: SaddleSections): number[] {
  const setBacks = sections.strings.map((string) => string.setBack);
  const first = setBacks[0] ?? 0;
  const across = (setBacks.at(-1) ?? 0) - first;
  return sharesAcross(sections).map((share, i) => (setBacks[i] ?? 0) - (first + across * share));
}

/** Place of each string between the outer ones at the saddle, 0 to 1. */
function sharesAcross({ strings, courses, nut, bridge }: SaddleSections): number[] {
  if (bridge.stringSpread === 0) return strings.map((_, i) => i / (strings.length - 1));
  const row = {
    gauges: strings.map((string) => string.gauge),
    courses: courses.map(({ size }) => size),
    courseGap: bridge.courseGap,
  };
  return spaceStrings(row, bridge.stringSpread, nut.spacing).map((y) => y / bridge.stringSpread);
}

const stringsMeetSaddle = check(['strings', 'courses', 'nut', 'bridge'], (sections) => {
  if (sections.strings.length < 3) return [];
  const off = offStraightSaddle(sections).map((distance, i) => ({ distance, i }));
  const far = off.filter(({ distance }) => Math.abs(distance) > ROOM_ON_SADDLE + HAIR);
  const worst = far.toSorted((a, b) => Math.abs(b.distance) - Math.abs(a.distance))[0];
  if (worst === undefined) return [];
  const list = far.map(
    ({ distance, i }) =>
      `string ${i + 1} lies ${mm(Math.abs(distance))} ${distance > 0 ? 'behind' : 'in front of'} it`,
  );
  return [
    doubtful(
      'off-straight-saddle',
      `strings[${worst.i}].setBack`,
      `A straight saddle runs through the points of the two outer strings; ${list.join(', ')}.`,
      {
        allowed: `within ${ROOM_ON_SADDLE} mm, which the top of a usual saddle can be shaped to`,
        remedy:
          'Check the set-backs. When they are meant, make the saddle wide enough for the strings named, or divide it.',
      },
    ),
  ];
});

const setBacksAreAlike = check(['strings'], ({ strings }) => {
  const setBacks = strings.map((string) => string.setBack);
  const usual = median(setBacks);
  const strange = (i: number): number => Math.abs((setBacks[i] ?? 0) - usual);
  const steps = setBacks.slice(1).flatMap((setBack, i) => {
    const isWide = Math.abs(setBack - (setBacks[i] ?? 0)) > USUAL_STEP + HAIR;
    return isWide ? [strange(i) > strange(i + 1) ? i : i + 1] : [];
  });
  return [...new Set(steps)].map((i): Finding => {
    const beside = [i - 1, i + 1].filter((k) => k >= 0 && k < setBacks.length);
    const neighbours = beside.map((k) => `string ${k + 1} has ${mm(setBacks[k] ?? 0)}`);
    return doubtful(
      'set-backs-differ',
      `strings[${i}].setBack`,
      `String ${i + 1} has a set-back of ${mm(setBacks[i] ?? 0)}; beside it ${neighbours.join(' and ')}.`,
      {
        allowed: `neighbours within ${USUAL_STEP} mm are usual`,
        remedy: 'Look for a point in the wrong place or a wrong unit; measure again.',
      },
    );
  });
});

function median(list: readonly number[]): number {
  const sorted = list.toSorted((a, b) => a - b);
  const half = sorted.length / 2;
  return ((sorted[Math.ceil(half) - 1] ?? 0) + (sorted[Math.floor(half)] ?? 0)) / 2;
}

export const saddleChecks: readonly Check[] = [stringsMeetSaddle, setBacksAreAlike];
