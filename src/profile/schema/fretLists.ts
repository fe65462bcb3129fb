/** Do the lists of a `frets` section make sense by themselves? */
import type Fraction from 'fraction.js';
import { showFretName } from './fields.ts';

/** What the section holds, as far as its lists are concerned. */
export interface GivenFrets {
  readonly count: number;
  readonly perOctave?: number | undefined;
  readonly cents?: readonly number[] | undefined;
  readonly ratios?: readonly Fraction[] | undefined;
  readonly theory?: string | undefined;
  readonly fretted?: readonly number[] | undefined;
  readonly halfFrets?: readonly number[] | undefined;
  readonly leaveOut?: readonly number[] | undefined;
  readonly partial?: readonly OfStrings[] | undefined;
  readonly ownPlaces?: readonly OfStrings[] | undefined;
}

interface OfStrings {
  readonly fret: number;
  readonly strings: readonly [number, number];
}

/** Something wrong at a path within the section. */
export interface Wrong {
  readonly path: readonly (string | number)[];
  readonly message: string;
  readonly allowed: string;
}

const DIVISIONS = ['perOctave', 'cents', 'ratios', 'theory'] as const;

/** Everything that is wrong with the lists of one section. */
export function wrongInLists(frets: GivenFrets): Wrong[] {
  return [
    ...divisionsAgree(frets),
    ...rises('cents', frets.cents ?? []),
    ...rises('ratios', frets.ratios?.map((ratio) => ratio.valueOf()) ?? []),
    ...rises('fretted', frets.fretted ?? []),
    ...stepsExist(frets),
    ...halfFretsAre(frets),
    ...(frets.leaveOut ?? []).flatMap((fret, i) => exists(frets, fret, ['leaveOut', i])),
    ...(['partial', 'ownPlaces'] as const).flatMap((key) =>
      (frets[key] ?? []).flatMap((item, i) => stringsOf(frets, item, [key, i])),
    ),
  ];
}

function divisionsAgree(frets: GivenFrets): Wrong[] {
  const there = DIVISIONS.filter((key) => frets[key] !== undefined);
  return there.slice(1).map((key) => ({
    path: [key],
    message: `The octave is divided by ${there[0]} already.`,
    allowed: `one of ${DIVISIONS.join(', ')}`,
  }));
}

function rises(key: string, list: readonly number[]): Wrong[] {
  const at = list.findIndex((value, i) => i > 0 && !(value > (list[i - 1] ?? 0)));
  if (at < 0) return [];
  return [
    { path: [key, at], message: 'The list does not rise here.', allowed: 'more than the entry before' },
  ];
}

/** Steps of one round of the division, from which `fretted` chooses. */
function stepsExist({ perOctave, cents, ratios, theory, fretted }: GivenFrets): Wrong[] {
  const size = cents?.length ?? ratios?.length ?? (theory === undefined ? (perOctave ?? 12) : 12);
  return (fretted ?? []).flatMap((step, i) =>
    step <= size
      ? []
      : [{ path: ['fretted', i], message: `The division has no step ${step}.`, allowed: `1 to ${size}` }],
  );
}

function halfFretsAre({ count, halfFrets }: GivenFrets): Wrong[] {
  return (halfFrets ?? []).flatMap((fret, i) =>
    Number.isInteger(fret) || fret > count
      ? [
          {
            path: ['halfFrets', i],
            message: 'This is not a half fret between two frets of this board.',
            allowed: `0+ to ${count - 1}+`,
          },
        ]
      : [],
  );
}

function exists({ count, halfFrets }: GivenFrets, fret: number, path: Wrong['path']): Wrong[] {
  const isThere = Number.isInteger(fret) ? fret <= count : (halfFrets ?? []).includes(fret);
  if (isThere) return [];
  const half = halfFrets === undefined ? '' : `, ${halfFrets.map(showFretName).join(', ')}`;
  return [{ path, message: `There is no fret ${showFretName(fret)}.`, allowed: `1 to ${count}${half}` }];
}

function stringsOf(frets: GivenFrets, { fret, strings }: OfStrings, path: Wrong['path']): Wrong[] {
  const isLeftOut = frets.leaveOut?.includes(fret) ?? false;
  return [
    ...exists(frets, fret, [...path, 'fret']),
    ...(isLeftOut
      ? [
          {
            path: [...path, 'fret'],
            message: `Fret ${showFretName(fret)} is left out.`,
            allowed: 'a fret that is there',
          },
        ]
      : []),
    ...(strings[0] > strings[1]
      ? [
          {
            path: [...path, 'strings'],
            message: 'The first string comes after the last.',
            allowed: 'first and last string, 1 is the bass-most',
          },
        ]
      : []),
  ];
}
