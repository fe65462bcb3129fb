/** Where the frets stand above the open strings, from what a file says of the octave and of single frets. */
import { equalSteps, listedSteps, type NamedFret, nameFrets, type Steps } from '../../spacing/division.ts';
import { theoryList } from '../../spacing/theory.ts';
import { formatShort } from '../../units/format.ts';
import { showFretName } from '../schema/fields.ts';
import type { GivenInstrument } from '../schema/instrument.ts';
import type { Division, Fret, FretPiece, Frets } from '../types.ts';
import { type Fill, PRACTICE } from './fill.ts';

type Given = GivenInstrument['frets'];

/** Two pitches nearer than this are the same note written twice. */
const SAME_CENTS = 1e-6;

/** Fills in what the file leaves out of `frets`. `strings`: how many there are. */
export function resolveFrets(
  frets: Given,
  { tangDepth, strings }: { readonly tangDepth: number; readonly strings: number },
  fill: Fill,
): Frets {
  const { steps, division } = divide(frets, fill);
  const list = listFrets(frets, steps, strings);
  const octave = list.findIndex(({ cents }) => Math.abs(cents - 1200) < SAME_CENTS);
  const pieceGap = 1;
  return {
    list,
    count: list.length,
    division,
    octave: octave < 0 ? null : octave + 1,
    slotWidth: frets.slotWidth,
    slotDepth: fill.length(
      'frets.slotDepth',
      frets.slotDepth,
      tangDepth + 0.4,
      `tang depth + 0.4 mm, so that the tang does not touch the floor (${PRACTICE})`,
    ),
    leastWoodBelow: fill.length(
      'frets.leastWoodBelow',
      frets.leastWoodBelow,
      1.5,
      `enough wood to keep the board from folding at a slot (${PRACTICE})`,
    ),
    pieceGap: list.some(({ pieces }) => pieces !== null)
      ? fill.length(
          'frets.pieceGap',
          frets.pieceGap,
          pieceGap,
          'so that neighbouring slots do not meet (assumed)',
        )
      : (frets.pieceGap ?? pieceGap),
  };
}

interface Divided {
  readonly steps: Steps;
  readonly division: Division;
}

function divide({ perOctave, cents, ratios, theory }: Given, fill: Fill): Divided {
  if (cents !== undefined) {
    const words = `steps of ${cents.map((c) => formatShort(c, 3)).join(', ')} cents`;
    return { steps: listedSteps(cents), division: { words, source: null, equal: null } };
  }
  if (ratios !== undefined) {
    const words = `ratios ${ratios.map((ratio) => ratio.toFraction()).join(', ')}`;
    const list = ratios.map((ratio) => 1200 * Math.log2(ratio.valueOf()));
    return { steps: listedSteps(list), division: { words, source: null, equal: null } };
  }
  if (theory !== undefined) {
    const { cents: list, source } = theoryList(theory);
    return { steps: listedSteps(list), division: { words: theory, source, equal: null } };
  }
  const equal = fill.plain('frets.perOctave', perOctave, 12, 'twelve equal semitones');
  return {
    steps: equalSteps(equal),
    division: { words: `${equal} equal steps to the octave`, source: null, equal },
  };
}

function listFrets(frets: Given, steps: Steps, strings: number): Fret[] {
  const names = nameFrets(steps, {
    count: frets.count,
    fretted: frets.fretted ?? null,
    added: (frets.halfFrets ?? []).map(showFretName),
    leftOut: (frets.leaveOut ?? []).map(showFretName),
  });
  return names.map((named) => ({ ...named, pieces: piecesOf(frets, named, strings) }));
}

/** Neighbouring strings with the same place share a piece; null where one slot serves all. */
function piecesOf(frets: Given, { label, cents }: NamedFret, strings: number): FretPiece[] | null {
  const isHere = ({ fret }: { readonly fret: number }): boolean => showFretName(fret) === label;
  const spans = (frets.partial ?? []).filter(isHere);
  const own = (frets.ownPlaces ?? []).filter(isHere);
  if (spans.length === 0 && own.length === 0) return null;
  const holds =
    (position: number) =>
    (item: { readonly strings: readonly [number, number] }): boolean =>
      item.strings[0] <= position && position <= item.strings[1];
  const pieces: FretPiece[] = [];
  // Strings that are not there stay to be seen by the checks.
  const most = Math.max(strings, ...[...spans, ...own].map((item) => item.strings[1]));
  for (let position = 1; position <= most; position += 1) {
    if (spans.length > 0 && !spans.some(holds(position))) continue;
    const at = own.find(holds(position))?.cents ?? cents;
    const last = pieces.at(-1);
    if (last !== undefined && last.last === position - 1 && last.cents === at) {
      pieces[pieces.length - 1] = { ...last, last: position };
    } else pieces.push({ first: position, last: position, cents: at });
  }
  const [only] = pieces;
  const isWhole = pieces.length === 1 && only?.first === 1 && only.last === strings && only.cents === cents;
  return isWhole ? null : pieces;
}

/**
 * Place of a fret in the list by its name as a number (6.5 is `6+`). Past the list's end where there is none of that name, and then not
 * whole where it is a half fret that is missing.
 */
export function placeOfFret({ list }: Pick<Frets, 'list'>, name: number): number {
  if (name === 0) return 0;
  const place = list.findIndex(({ label }) => label === showFretName(name));
  return place >= 0 ? place + 1 : Math.max(list.length + 1, Math.floor(name)) + (name % 1);
}
