/**
 * Divisions of the octave from published theory, by the names theory gives them.
 *
 * Sources: the ratios of the first two are classical (Pythagorean fifths of 3/2; the five-limit ratios as in any textbook of
 * acoustics). Quarter-comma meantone: the fifth 5^(1/4), Pietro Aron, Toscanello in musica (1523). Rule of eighteen: Vincenzo
 * Galilei, Dialogo della musica antica et della moderna (1581), each fret at one eighteenth of the string that is left.
 */

export const THEORIES = [
  'Pythagorean',
  'five-limit just',
  'quarter-comma meantone',
  'rule of eighteen',
] as const;
export type Theory = (typeof THEORIES)[number];

export interface TheoryList {
  /** Cents of twelve steps; the last is what the list goes on from. */
  readonly cents: readonly number[];
  readonly source: string;
}

const centsOf = (ratio: number): number => 1200 * Math.log2(ratio);

/** Notes of a chain of fifths from `first` fifths above the open string on, brought into one octave, rising, with the octave. */
function chainOfFifths(fifth: number, first: number): number[] {
  const inOctave = Array.from({ length: 12 }, (_, i) => {
    const cents = (first + i) * fifth;
    return cents - 1200 * Math.floor(cents / 1200);
  });
  return [...inOctave.filter((cents) => cents > 0).sort((a, b) => a - b), 1200];
}

const FIVE_LIMIT = [
  [16, 15],
  [9, 8],
  [6, 5],
  [5, 4],
  [4, 3],
  [45, 32],
  [3, 2],
  [8, 5],
  [5, 3],
  [9, 5],
  [15, 8],
  [2, 1],
] as const;

/** The list of a named division. Its twelve steps are counted from the open string as from C. */
export function theoryList(theory: Theory): TheoryList {
  switch (theory) {
    case 'Pythagorean':
      return {
        cents: chainOfFifths(centsOf(3 / 2), -5),
        source: 'fifths of 3/2 from D flat to F sharp; classical',
      };
    case 'five-limit just':
      return {
        cents: FIVE_LIMIT.map(([above, below]) => centsOf(above / below)),
        source: 'ratios of 2, 3 and 5; classical',
      };
    case 'quarter-comma meantone':
      return {
        cents: chainOfFifths(centsOf(5 ** 0.25), -3),
        source: 'fifths of 5^(1/4) from E flat to G sharp; Aron 1523',
      };
    case 'rule of eighteen':
      return {
        cents: Array.from({ length: 12 }, (_, i) => (i + 1) * centsOf(18 / 17)),
        source: 'each fret at 1/18 of the string that is left; Galilei 1581',
      };
  }
}
