/** What holds the strings behind the saddle, as an instrument file says it. */
import * as z from 'zod';
import { choice, type Fields, group } from './fields.ts';

/** One of these keys stands in every bridge. */
const KEYS = ['pins', 'tied', 'through', 'tailpiece'] as const;

type Given = Readonly<Record<string, unknown>>;

/** The four groups, each left out unless it is the one. */
export const anchorGroups = (fields: Fields) => ({
  pins: pinsGroup(fields).optional(),
  tied: tiedGroup(fields).optional(),
  through: throughGroup(fields).optional(),
  tailpiece: tailpieceGroup(fields).optional(),
});

/** Exactly one way of holding the strings. */
export function oneAnchor(given: Given, context: z.core.$RefinementCtx<unknown>): void {
  const there = KEYS.filter((key) => given[key] !== undefined);
  if (there.length === 1) return;
  const [first, second] = there;
  context.addIssue({
    code: 'custom',
    message:
      second === undefined
        ? 'Nothing is said of what holds the strings behind the saddle.'
        : `The strings are held by ${first} already.`,
    path: [second ?? 'pins'],
    params: {
      code: second === undefined ? 'missing-key' : 'keys-do-not-agree',
      allowed: `one of ${KEYS.join(', ')}`,
    },
  });
}

const spread = (fields: Fields) =>
  fields.length('Between the centres of the outer strings there.', [0, 160]).optional();

const pinsGroup = (fields: Fields) =>
  group(
    {
      spread: fields.length('Between the centres of the outer pins.', [0, 160]).optional(),
      behindSaddle: fields.length('From the saddle line to the pin row, along the centreline.', [3, 80]),
      row: choice(['square', 'saddle'], 'Pin row square to the centreline, or along the saddle.').optional(),
      drill: fields.length('Diameter drilled before reaming.', [1, 10]).optional(),
      seat: fields.length("Diameter of the reamed hole at the bridge's face, measured on a pin.", [1, 15]),
      seats: z
        .array(fields.length('The same of one pin.', [1, 15]))
        .max(12)
        .meta({ description: 'Each pin measured, bass side first, where they differ.' })
        .optional(),
      reamerTip: fields.length("Diameter of the reamer's tip, measured.", [0.5, 14]).optional(),
      proud: fields.length('How far a pin stands up before the last push.', [0, 6]).optional(),
      slotClearance: fields
        .length("By how much a string's slot in its hole is wider than the string.", [0, 1])
        .optional(),
      reamerTaper: fields.angle('Included angle of the reamer.', [0.001, 0.3]).optional(),
      pinTaper: fields.angle('Included angle of the pins, measured.', [0.001, 0.3]),
      through: fields.length('Wood the hole goes through: bridge, top and plate.', [2, 50]),
    },
    'The bridge pins.',
  );

const tiedGroup = (fields: Fields) =>
  group(
    {
      spread: spread(fields),
      behindSaddle: fields.length(
        'From the saddle line to the front face of the tie block, along the centreline.',
        [3, 60],
      ),
      row: choice(['square', 'saddle'], 'Block square to the centreline, or along the saddle.').optional(),
      hole: fields.length('Diameter of the level hole of each string.', [0.5, 5]).optional(),
      below: fields.length("Middle of the holes below the bridge's face.", [-10, 15]).optional(),
      rise: fields.length("Upper side of the block above the bridge's face.", [-10, 15]).optional(),
      block: fields.length('The block along the strings.', [3, 40]).optional(),
    },
    'A tie block: each string goes through it and is tied round it.',
  );

const throughGroup = (fields: Fields) =>
  group(
    {
      spread: spread(fields),
      behindSaddle: fields.length('From the saddle line to the row of holes, along the centreline.', [3, 80]),
      row: choice(['square', 'saddle'], 'Row square to the centreline, or along the saddle.').optional(),
      drill: fields.length('Diameter of the straight holes.', [0.8, 6]),
      through: fields.length('Wood the holes go through: bridge, top and plate.', [2, 50]),
    },
    'Straight holes through bridge, top and plate, each string held under the plate.',
  );

const tailpieceGroup = (fields: Fields) =>
  group(
    {
      spread: spread(fields),
      behindSaddle: fields.length(
        'From the saddle line to where the strings leave the tailpiece, along the centreline.',
        [5, 300],
      ),
      below: fields.length("The strings there below the bridge's face.", [-20, 40]),
    },
    'A tailpiece behind a bridge that the strings alone hold in its place.',
  );
