/** Do the markers stand at the frets where players of this kind of instrument look for them? */
import type { Finding } from '../report/finding.ts';
import { check, doubtful, when } from './check.ts';
import type { FaceMarker, Family } from './types.ts';

/** Which of the two frets that differ by custom a family marks (common practice, no source). */
function customOf(
  family: Family,
): { readonly usual: readonly number[]; readonly unusual: readonly number[] } | null {
  switch (family) {
    case 'guitar':
    case 'bass':
      return { usual: [9], unusual: [10] };
    case 'mandolin':
    case 'ukulele':
      return { usual: [10], unusual: [9] };
    case 'dulcimer':
      return { usual: [7], unusual: [] };
    case 'other':
      return null;
  }
}

/** Remarks about marker frets; left out when the profile says that they are meant as drawn. */
export const markerCustom = check(['family', 'faceMarkers', 'frets'], ({ family, faceMarkers, frets }) => {
  const marked = new Set(faceMarkers.at.map(({ fret }) => fret));
  if (marked.size === 0) return [];
  const octave = frets.perOctave;
  const custom = octave === 12 ? customOf(family) : null;
  return [
    ...unusualMarkers(faceMarkers.at, marked, custom, family),
    ...when(octave <= frets.count && !marked.has(octave) && family !== 'dulcimer', () =>
      doubtful('octave-unmarked', 'faceMarkers.at', `The octave, fret ${octave}, has no marker.`, {
        remedy: SILENCE,
      }),
    ),
  ];
});

const SILENCE = 'Set markersAsDrawn: true when it is meant so.';

function unusualMarkers(
  at: readonly FaceMarker[],
  marked: ReadonlySet<number>,
  custom: ReturnType<typeof customOf>,
  family: Family,
): readonly Finding[] {
  if (custom === null) return [];
  const wanted = custom.usual.join(', ');
  const strange = at.flatMap(({ fret }, i) =>
    when(custom.unusual.includes(fret), () =>
      doubtful(
        'marker-unusual',
        `faceMarkers.at[${i}].fret`,
        `A ${family} is customarily marked at fret ${wanted}, not ${fret}.`,
        {
          remedy: SILENCE,
        },
      ),
    ),
  );
  const highest = Math.max(...marked);
  const absent = custom.usual.filter((fret) => fret < highest && !marked.has(fret));
  if (strange.length > 0) return strange;
  return absent.map((fret) =>
    doubtful(
      'marker-unusual',
      'faceMarkers.at',
      `A ${family} is customarily marked at fret ${fret}; this one is not.`,
      {
        remedy: SILENCE,
      },
    ),
  );
}
