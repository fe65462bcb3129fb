/** Do the strings' parts, the saddle and the weights make sense together? */
import type { Finding } from '../report/finding.ts';
import { fretRange, noSuchFret } from './boardShape.ts';
import { type Check, check, mm, when, wrong } from './check.ts';

const coresFit = check(['strings'], ({ strings }) =>
  strings.flatMap(({ make, gauge, build }, i): readonly Finding[] => {
    const path = `strings[${i}]`;
    if (make === 'wound')
      return when(build.core >= gauge, () =>
        wrong(
          'core-too-thick',
          `${path}.core`,
          `A core of ${mm(build.core)} leaves no room for a wrap on a string of ${mm(gauge)}.`,
          { allowed: `less than ${mm(gauge)}`, remedy: 'Measure the core where the wrap ends.' },
        ),
      );
    return [
      ...when(build.core !== gauge, () =>
        wrong('plain-with-core', `${path}.core`, 'A plain string has no core of its own.', {
          remedy: 'Leave core out, or write make: wound.',
        }),
      ),
      ...when(build.wrap !== null, () =>
        wrong('plain-with-wrap', `${path}.wrap`, 'A plain string has no wrap.', {
          remedy: 'Leave wrap out, or write make: wound.',
        }),
      ),
    ];
  }),
);

const someStringCounts = check(['strings'], ({ strings }) =>
  when(!strings.some((s) => s.importance > 0), () =>
    wrong('nothing-counts', 'strings', 'No string counts: every importance is 0.', {
      allowed: 'at least one importance above 0',
    }),
  ),
);

const someFretCounts = check(['intonation', 'frets'], ({ intonation, frets }) =>
  when(!intonation.fretWeights.slice(0, frets.count).some((w) => w > 0), () =>
    wrong('nothing-counts', 'intonation.fretWeights', 'No fret counts: every weight is 0.', {
      allowed: `at least one weight above 0 among frets 1 to ${frets.count}`,
    }),
  ),
);

const nutNeedsTwoFrets = check(['intonation', 'frets'], ({ intonation, frets }) => {
  const counted = intonation.fretWeights.slice(0, frets.count).filter((w) => w > 0).length;
  return when(intonation.nut === 'free' && counted === 1, () =>
    wrong(
      'nut-needs-two-frets',
      'intonation.nut',
      'One fret alone cannot settle a place for the nut and one for the saddle.',
      { allowed: 'fixed, or weights above 0 for two frets or more' },
    ),
  );
});

const saddleHasTop = check(['bridge'], ({ bridge: { saddle } }) =>
  when(2 * saddle.edge >= saddle.width, () =>
    wrong(
      'saddle-all-edge',
      'bridge.saddle.edge',
      `Two edges of ${mm(saddle.edge)} leave nothing of a saddle ${mm(saddle.width)} wide.`,
      { allowed: `less than ${mm(saddle.width / 2)}` },
    ),
  ),
);

const bowFretExists = check(['targets', 'frets'], ({ targets, frets }) =>
  when(targets.bowFret > frets.count, () =>
    wrong(
      'no-such-fret',
      'targets.bowFret',
      `The bow is to end at a fret that is not there. ${noSuchFret(frets, targets.bowFret)}`,
      { allowed: fretRange(frets).replace(/^1 to/, '2 to') },
    ),
  ),
);

export const stringChecks: readonly Check[] = [
  coresFit,
  someStringCounts,
  someFretCounts,
  nutNeedsTwoFrets,
  saddleHasTop,
  bowFretExists,
];
