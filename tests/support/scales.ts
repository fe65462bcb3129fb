import type { Course, Frets, Scale } from '../../src/profile/types.ts';

type Places = Pick<Frets, 'list' | 'count' | 'division' | 'octave' | 'pieceGap'>;

/** Frets at every step of an octave in equal parts. */
export const equalFrets = (count: number, perOctave = 12): Places => ({
  list: Array.from({ length: count }, (_, i) => ({
    label: String(i + 1),
    cents: (1200 * (i + 1)) / perOctave,
    pieces: null,
  })),
  count,
  division: { words: `${perOctave} equal steps to the octave`, source: null, equal: perOctave },
  octave: perOctave <= count ? perOctave : null,
  pieceGap: 1,
});

/** One scale for all strings, along the centreline. */
export const oneScale = (length: number): Scale => ({
  length,
  stated: { bass: length, treble: length },
  along: 'centreline',
  lines: null,
  slant: null,
});

/** Two scales along reference lines that lie `nut` and `saddle` from the centreline at their ends. */
export function twoScales(
  bass: number,
  treble: number,
  {
    squareCents,
    nut,
    saddle,
  }: { readonly squareCents: number; readonly nut: number; readonly saddle: number },
): Scale {
  const along = (length: number): number => Math.sqrt(length ** 2 - (saddle - nut) ** 2);
  return {
    length: (along(bass) + along(treble)) / 2,
    stated: { bass, treble },
    along: 'reference lines',
    lines: { nut, saddle },
    slant: {
      difference: along(bass) - along(treble),
      squareShare: 1 - 2 ** (-squareCents / 1200),
      squareWords: `${squareCents} cents`,
      half: { nut, saddle },
    },
  };
}

/** Every string by itself. */
export const singles = (count: number): Course[] =>
  Array.from({ length: count }, (_, i) => ({ first: i + 1, size: 1 }));
