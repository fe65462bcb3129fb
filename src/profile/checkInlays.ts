/** Can parts be cut for the pockets, and does each artwork refer to what is there? */
import type { Finding } from '../report/finding.ts';
import { fretRange, noSuchFret } from './boardShape.ts';
import { type Check, check, HAIR, mm, when, wrong } from './check.ts';
import { largestCorner } from './markerForm.ts';
import type { MarkerArtwork } from './types.ts';

/** Half the thinnest cutter that pockets are cut with. */
const LEAST_CUT_CORNER = 0.25;

/** Where parts are cut as well, both cutters' radii must go into the corners: sharp ones cannot fit together. */
const partsFit = check(['faceMarkers'], ({ faceMarkers }) => {
  const { inlays, cornerRadius, clearance, at, artwork } = faceMarkers;
  const isCornered = at.some((marker) => largestCorner(marker) !== null);
  const least = Math.max(clearance, LEAST_CUT_CORNER);
  const mustBeRound = artwork.length > 0 || (inlays !== null && isCornered);
  return [
    ...when(mustBeRound && cornerRadius < least - HAIR, () =>
      wrong(
        'corners-too-sharp',
        'faceMarkers.cornerRadius',
        'Round cutters make neither a pocket nor a part with such sharp corners, so they would not meet.',
        {
          found: mm(cornerRadius),
          allowed: `at least ${mm(least)}: half the diameter of a cutter that the shop has`,
        },
      ),
    ),
    ...when(inlays !== null && clearance < HAIR, () =>
      wrong('no-room-to-fit', 'faceMarkers.clearance', 'A part as large as its pocket does not go in.', {
        allowed: 'more than 0; 0.05 mm is usual',
      }),
    ),
  ];
});

const artworkRefers = check(['faceMarkers', 'frets', 'strings'], ({ faceMarkers, frets, strings }) =>
  faceMarkers.artwork.flatMap((art, i) => {
    const path = `faceMarkers.artwork[${i}]`;
    return [
      ...when(art.fret > frets.count, () =>
        wrong('no-such-fret', `${path}.fret`, noSuchFret(frets, art.fret), {
          allowed: fretRange(frets),
        }),
      ),
      ...stringsExist(art, strings.length, path),
    ];
  }),
);

function stringsExist({ between }: MarkerArtwork, count: number, path: string): Finding[] {
  return (between ?? []).flatMap((position, k) =>
    when(position > count, () =>
      wrong('no-such-string', `${path}.between[${k}]`, `There is no string ${position}.`, {
        allowed: `1 to ${count}, bass side first`,
      }),
    ),
  );
}

export const inlayChecks: readonly Check[] = [partsFit, artworkRefers];
