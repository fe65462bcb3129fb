/** Does the back of the neck agree with the board and with itself? */
import { type Check, check, mm, when, wrong } from './check.ts';

/** A back thinner than this below the board would not carry its strings (common practice, no source). */
const THINNEST = 5;

const stationsInOrder = check(['neckShape', 'frets'], ({ neckShape, frets }) => {
  const stations = neckShape?.stations ?? [];
  return stations.flatMap(({ fret }, i) => {
    const before = stations[i - 1];
    return [
      ...when(fret > frets.count, () =>
        wrong('gauge-off-neck', `neckShape.stations.${i}.fret`, 'The neck has no such fret.', {
          found: String(fret),
          allowed: `1 to ${frets.count}`,
        }),
      ),
      ...when(before !== undefined && before.fret >= fret, () =>
        wrong(
          'stations-out-of-order',
          `neckShape.stations.${i}.fret`,
          'Stations go from the nut toward the body.',
          {
            found: `${fret} after ${before?.fret}`,
            remedy: 'Put them in the order of their frets, each fret once.',
          },
        ),
      ),
    ];
  });
});

const stationsAreDeep = check(['neckShape', 'fingerboard'], ({ neckShape, fingerboard }) =>
  (neckShape?.stations ?? []).flatMap(({ depth }, i) =>
    when(depth - fingerboard.thickness < THINNEST, () =>
      wrong(
        'back-too-thin',
        `neckShape.stations.${i}.depth`,
        `Under a board of ${mm(fingerboard.thickness)} this depth leaves ${mm(Math.max(0, depth - fingerboard.thickness))} of neck.`,
        {
          allowed: `at least ${mm(fingerboard.thickness + THINNEST)}, board and neck together`,
          remedy: 'The depth is measured over board and neck together, at the crest.',
        },
      ),
    ),
  ),
);

const shaftHasLength = check(['neckShape'], ({ neckShape }) =>
  when(neckShape !== null && neckShape.to !== null && neckShape.to <= neckShape.from, () =>
    wrong('shaft-ends-before-it-begins', 'neckShape.to', 'The shaft would end before it begins.', {
      found: mm(neckShape?.to ?? 0),
      allowed: `more than ${mm(neckShape?.from ?? 0)}, where it begins`,
    }),
  ),
);

export const shapeChecks: readonly Check[] = [stationsInOrder, stationsAreDeep, shaftHasLength];
