/** Do the markers stand at the frets where players of this kind of instrument look for them? */
import type { Finding } from '../report/finding.ts';
import { type Check, check, doubtful, when } from './check.ts';
import { placeOfFret } from './resolve/frets.ts';
import type { Family, Frets, Instrument } from './types.ts';

/** Frets by name: the one that a family is told by, and all that it marks. */
interface Custom {
  readonly tells: number;
  readonly marks: readonly number[];
}

/** Where a family has its markers (common practice, no source). */
function customOf(family: Family): Custom | null {
  switch (family) {
    case 'guitar':
    case 'bass':
      return { tells: 9, marks: [1, 3, 5, 7, 9, 12, 15, 17, 19, 21, 24] };
    case 'mandolin':
    case 'ukulele':
      return { tells: 10, marks: [3, 5, 7, 10, 12, 15, 17, 19, 22, 24] };
    case 'dulcimer':
      // Its frets are those of a scale: fourth, fifth and octave, and the same again.
      return { tells: 7, marks: [3, 4, 7, 10, 11, 14] };
    case 'other':
      return null;
  }
}

/** A fret that carries a marker, and the field that says so. */
interface Marked {
  readonly fret: number;
  readonly path: string;
}

/** Remarks about marker frets; left out when the profile says that they are meant as drawn. */
const facesByCustom = check(['family', 'faceMarkers', 'frets'], ({ family, faceMarkers, frets }) => {
  const marked = faceMarkers.at.map(({ fret }, i) => ({ fret, path: `faceMarkers.at[${i}].fret` }));
  return remarksOn(marked, 'faceMarkers.at', family, frets, faceMarkers.artwork);
});

/** Side markers that stand where the face markers do are not remarked on twice. */
const sidesByCustom = check(
  ['family', 'faceMarkers', 'sideMarkers', 'frets'],
  ({ family, faceMarkers, sideMarkers, frets }) => {
    const marked = sideMarkers.at.map(({ fret }, i) => ({ fret, path: `sideMarkers.at[${i}].fret` }));
    const faces = new Set([...faceMarkers.at, ...faceMarkers.artwork].map(({ fret }) => fret));
    if (faces.size === 0) return remarksOn(marked, 'sideMarkers.at', family, frets);
    const own = marked.filter(({ fret }) => !faces.has(fret));
    return unusualMarkers(own, customOn(frets, family), family, frets);
  },
);

export const markerCustoms: readonly Check[] = [facesByCustom, sidesByCustom];

function remarksOn(
  marked: readonly Marked[],
  section: string,
  family: Family,
  frets: Instrument['frets'],
  artwork: readonly { readonly fret: number }[] = [],
): readonly Finding[] {
  if (marked.length === 0) return [];
  const custom = customOn(frets, family);
  const strange = unusualMarkers(marked, custom, family, frets);
  // Artwork marks a fret as well as a dot does, but stands wherever its drawing wants: no custom is held against it.
  const all = [...marked, ...artwork];
  return [
    ...strange,
    ...(strange.length === 0 ? missingMarker(all, section, family, frets) : []),
    ...(family === 'dulcimer' ? [] : unmarkedOctaves(all, section, frets)),
  ];
}

/**
 * Custom tells frets by name, on boards of twelve equal steps or, on a dulcimer, of the steps it has. Other divisions have no
 * custom that could be held against them.
 */
function customOn(frets: Frets, family: Family): Custom | null {
  const isWhole = frets.list.every(({ label }, i) => label === String(i + 1));
  const isTwelve = isWhole && frets.division.equal === 12;
  return isTwelve || family === 'dulcimer' ? customOf(family) : null;
}

function nameOf({ list }: Frets, fret: number): string {
  return list[fret - 1]?.label ?? String(fret);
}

const SILENCE = 'Set markersAsDrawn: true when it is meant so.';

function unusualMarkers(
  marked: readonly Marked[],
  custom: Custom | null,
  family: Family,
  frets: Frets,
): readonly Finding[] {
  if (custom === null) return [];
  const places = custom.marks.map((name) => placeOfFret(frets, name));
  return marked.flatMap(({ fret, path }) =>
    when(fret <= frets.count && !places.includes(fret), () =>
      doubtful(
        'marker-unusual',
        path,
        `Fret ${nameOf(frets, fret)} has a marker; a ${family} is customarily marked at fret ${custom.tells}, and not there.`,
        { allowed: `frets ${custom.marks.join(', ')}`, remedy: SILENCE },
      ),
    ),
  );
}

function missingMarker(
  marked: readonly Pick<Marked, 'fret'>[],
  section: string,
  family: Family,
  frets: Frets,
): readonly Finding[] {
  const custom = customOn(frets, family);
  if (custom === null) return [];
  const highest = Math.max(...marked.map(({ fret }) => fret));
  const wanted = placeOfFret(frets, custom.tells);
  const isAbsent = wanted < highest && !marked.some(({ fret }) => fret === wanted);
  return when(isAbsent, () =>
    doubtful(
      'marker-unusual',
      section,
      `A ${family} is customarily marked at fret ${custom.tells}; this one is not.`,
      { remedy: SILENCE },
    ),
  );
}

/** Every fret that sounds whole octaves above the open string. */
function unmarkedOctaves(
  marked: readonly Pick<Marked, 'fret'>[],
  section: string,
  frets: Frets,
): readonly Finding[] {
  const octaves = frets.list.flatMap(({ cents, label }, i) =>
    cents > 0 && Math.abs(cents / 1200 - Math.round(cents / 1200)) < 1e-9 ? [{ fret: i + 1, label }] : [],
  );
  return octaves
    .filter((octave) => !marked.some(({ fret }) => fret === octave.fret))
    .map(({ label }) =>
      doubtful('octave-unmarked', section, `The octave, fret ${label}, has no marker.`, { remedy: SILENCE }),
    );
}
