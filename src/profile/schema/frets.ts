/** The sections `scale` and `frets` of an instrument file. */
import * as z from 'zod';
import { choice, type Fields, fretName, group, plainNumber, ratio, wholeNumber } from './fields.ts';
import { wrongInLists } from './fretLists.ts';
import { THEORY_NAMES } from './words.ts';

type Given = Readonly<Record<string, unknown>>;

interface Told {
  readonly key: string;
  readonly message: string;
  readonly allowed: string;
}

/** Adds a finding at a key of the group, which may be missing there. */
function tell(given: Given, context: z.core.$RefinementCtx<unknown>, { key, message, allowed }: Told): void {
  const code = given[key] === undefined ? 'missing-key' : 'keys-do-not-agree';
  context.addIssue({ code: 'custom', message, path: [key], params: { code, allowed } });
}

const scaleLength = (fields: Fields, about: string) => fields.length(about, [100, 1500]).optional();

/** One scale, or one along each of two reference lines. */
export const scaleGroup = (fields: Fields) =>
  group(
    {
      length: scaleLength(
        fields,
        'Scale length of all strings: scale zero to twice the distance of the octave fret.',
      ),
      bass: scaleLength(fields, 'Scale length on the bass side, where there are two.'),
      treble: scaleLength(fields, 'Scale length on the treble side, where there are two.'),
      squareAt: group(
        {
          fret: fretName('Fret that is square to the centreline; 0 is the nut.', [0, 36.5]).optional(),
          distance: fields
            .length('From scale zero along the centreline to where a slot is square.', [-500, 2000])
            .optional(),
        },
        'Where the slots of two scales are square to the centreline: one of the two keys.',
      )
        .superRefine((given, context) => oneOf(given, ['fret', 'distance'], context))
        .optional(),
      along: choice(
        ['centreline', 'reference lines'],
        'What the stated lengths are measured along.',
      ).optional(),
      referenceLines: group(
        {
          fromEdgeAtNut: fields.length("From the board's edge to the line at scale zero.", [-20, 60]),
          fromEdgeAtSaddle: fields.length(
            "From the board's edge, carried on, to the line where the scale ends.",
            [-80, 80],
          ),
        },
        "Two lines beside the board's edges, along which two scales lie.",
      ).optional(),
    },
    'Scale length: `length` for all strings, or `bass`, `treble` and `squareAt`.',
  ).superRefine(oneKindOfScale);

function oneKindOfScale(given: Given, context: z.core.$RefinementCtx<unknown>): void {
  const has = (key: string): boolean => given[key] !== undefined;
  const two = ['bass', 'treble', 'squareAt'];
  const allowed = 'length alone, or bass, treble and squareAt together';
  if (has('length')) {
    for (const key of two.filter(has)) {
      tell(given, context, {
        key,
        message: 'One scale length for all strings has nothing beside it.',
        allowed,
      });
    }
    return;
  }
  if (!two.some(has)) {
    tell(given, context, { key: 'length', message: 'There is no scale length.', allowed });
    return;
  }
  for (const key of two.filter((wanted) => !has(wanted))) {
    tell(given, context, { key, message: `Two scales need ${key} as well.`, allowed });
  }
}

/** Exactly one of some keys. */
function oneOf(given: Given, keys: readonly string[], context: z.core.$RefinementCtx<unknown>): void {
  const there = keys.filter((key) => given[key] !== undefined);
  if (there.length === 1) return;
  const key = there[1] ?? keys[0] ?? '';
  const message = there.length === 0 ? 'Nothing is said here.' : 'This has been said already.';
  tell(given, context, { key, message, allowed: `one of ${keys.join(', ')}` });
}

const MOST_STEPS = 72;

const firstAndLast = (about: string) =>
  z
    .tuple([wholeNumber('First string.', [1, 12]), wholeNumber('Last string.', [1, 12])])
    .meta({ description: about });

/** The frets, the division of the octave and the slots. */
export const fretsGroup = (fields: Fields) =>
  group(
    {
      count: wholeNumber('Number of the last fret. Half frets do not count.', [1, 72]),
      perOctave: wholeNumber('Equal divisions of the octave.', [5, MOST_STEPS]).optional(),
      cents: z
        .array(plainNumber('Cents above the open string.', [1, 2400]))
        .min(1)
        .max(MOST_STEPS)
        .meta({
          description:
            'Steps of the octave in cents, rising; the last is the octave, where they begin again.',
        })
        .optional(),
      ratios: z
        .array(ratio('Frequency over that of the open string, as 3/2.', [1.0005, 4]))
        .min(1)
        .max(MOST_STEPS)
        .meta({ description: 'Steps of the octave as exact ratios, rising; the last is the octave, 2/1.' })
        .optional(),
      theory: choice(THEORY_NAMES, 'A division of the octave by the name that theory gives it.').optional(),
      fretted: z
        .array(wholeNumber('A step of the octave.', [1, MOST_STEPS]))
        .min(1)
        .max(MOST_STEPS)
        .meta({
          description:
            'Steps of each octave that carry a fret, rising: [2, 4, 5, 7, 9, 10, 12]. The others have none.',
        })
        .optional(),
      halfFrets: z
        .array(fretName('A half fret: 6+ lies between frets 6 and 7.', [0, 72.5]))
        .max(36)
        .meta({ description: 'Half frets that are added: [6+, 13+].' })
        .optional(),
      leaveOut: z
        .array(fretName('A fret that is not there; the others keep their numbers.', [1, 72.5]))
        .max(72)
        .meta({ description: 'Frets that are left out.' })
        .optional(),
      partial: z
        .array(
          group(
            {
              fret: fretName('The fret.', [1, 72.5]),
              strings: firstAndLast('First and last string over it, 1 is the bass-most.'),
            },
            'A fret under some neighbouring strings only.',
          ),
        )
        .max(72)
        .meta({ description: 'Frets that stop at a string, as a last fret on the treble side only.' })
        .optional(),
      ownPlaces: z
        .array(
          group(
            {
              fret: fretName('The fret.', [1, 72.5]),
              strings: firstAndLast('First and last string with that place, 1 is the bass-most.'),
              cents: plainNumber('Cents above the open strings.', [1, 4800]),
            },
            'A place of its own for a fret under some strings: a short slot.',
          ),
        )
        .max(200)
        .meta({ description: 'Frets that some strings have elsewhere than the others.' })
        .optional(),
      pieceGap: fields.length('Wood between the ends of neighbouring short slots.', [0, 10]).optional(),
      slotWidth: fields.length('Width of the slots: wider than the tang, narrower than the barbs.', [0.2, 2]),
      slotDepth: fields.length('Depth of the slots below the finished surface.', [0.5, 8]).optional(),
      leastWoodBelow: fields.length('Least wood left under a slot or pocket.', [0.2, 10]).optional(),
    },
    'The frets and their slots.',
  ).superRefine((given, context) => {
    for (const { path, message, allowed } of wrongInLists(given)) {
      context.addIssue({
        code: 'custom',
        message,
        path: [...path],
        params: { code: 'bad-fret-list', allowed },
      });
    }
  });
