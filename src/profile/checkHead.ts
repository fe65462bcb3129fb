/** Do the neck's wood, its head and its tuners agree with each other? */
import { type Check, check, mm, when, wrong } from './check.ts';

/** Below this a scarf's bevel is longer than a saw and a plane can keep true (common practice, no source). Radians. */
const FLATTEST_SCARF = (5 * Math.PI) / 180;

const headHasWood = check(['neckBlank', 'headstock'], ({ neckBlank, headstock }) =>
  when(headstock !== null && neckBlank === null, () =>
    wrong(
      'headstock-without-blank',
      'headstock',
      'A headstock is described, and nothing is said of its wood.',
      {
        remedy: 'Add a section neckBlank with wood and materialClass.',
      },
    ),
  ),
);

const scarfHasAngle = check(['neckBlank', 'headstock'], ({ neckBlank, headstock }) =>
  when(neckBlank?.build === 'scarf' && headstock !== null && headstock.angle < FLATTEST_SCARF, () =>
    wrong('scarf-too-flat', 'headstock.angle', 'At this angle the bevel of the scarf never ends.', {
      allowed: 'at least 5 deg with build: scarf',
      remedy: 'A greater angle, or build: one piece.',
    }),
  ),
);

const tunersSuitStrings = check(['headstock', 'strings'], ({ headstock, strings }) =>
  when(headstock !== null && headstock.tuners.onBassSide > strings.length, () =>
    wrong(
      'more-tuners-than-strings',
      'headstock.tuners.onBassSide',
      `There are ${strings.length} strings and ${headstock?.tuners.onBassSide} tuners on the bass side.`,
      { allowed: `0 to ${strings.length}` },
    ),
  ),
);

/** A line that splays by more than its posts are apart is none. */
const linesAreLines = check(['headstock', 'strings'], ({ headstock, strings }) => {
  if (headstock === null) return [];
  const { onBassSide, apart, fromCentre, fromCentreLast } = headstock.tuners;
  const most = Math.max(onBassSide, strings.length - onBassSide) - 1;
  const least = Math.min(onBassSide, strings.length - onBassSide) - 1;
  const out = Math.abs(fromCentreLast - fromCentre);
  return [most, least].some((gaps) => gaps > 0 && out >= gaps * apart * 0.9)
    ? [
        wrong(
          'posts-too-close',
          'headstock.tuners.apart',
          `Posts ${mm(apart)} apart cannot lie on a line that goes ${mm(out)} outward.`,
          { remedy: 'Posts farther apart, or fromCentreLast nearer to fromCentre.' },
        ),
      ]
    : [];
});

const holesAreStepped = check(['headstock'], ({ headstock }) => {
  if (headstock === null) return [];
  const { bushing, hole, post } = headstock.tuners;
  return [
    ...when(bushing !== null && bushing.diameter <= hole, () =>
      wrong(
        'bushing-narrower-than-hole',
        'headstock.tuners.bushing.diameter',
        `A bushing of ${mm(bushing?.diameter ?? 0)} falls into a hole of ${mm(hole)}.`,
        { allowed: `more than ${mm(hole)}` },
      ),
    ),
    ...when(
      bushing !== null && bushing.depth >= headstock.thickness + (headstock.veneer?.thickness ?? 0),
      () =>
        wrong(
          'bushing-deeper-than-head',
          'headstock.tuners.bushing.depth',
          'The hole of the bushing goes through the head.',
          { allowed: `less than ${mm(headstock.thickness + (headstock.veneer?.thickness ?? 0))}` },
        ),
    ),
    ...when(post > hole, () =>
      wrong('post-wider-than-hole', 'headstock.tuners.post', 'The post does not go through its hole.', {
        allowed: `at most ${mm(hole)}`,
      }),
    ),
  ];
});

export const headChecks: readonly Check[] = [
  headHasWood,
  scarfHasAngle,
  tunersSuitStrings,
  linesAreLines,
  holesAreStepped,
];
