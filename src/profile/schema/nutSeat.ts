/** The group `nut.seat` of an instrument file: what the nut stands in. */
import { choice, type Fields, group } from './fields.ts';

export const nutSeatGroup = (fields: Fields) =>
  group(
    {
      kind: choice(
        ['slot', 'ledge'],
        'slot: cut across a board that goes on behind the nut; ledge: the board goes on under the nut and ends with it.',
      ),
      depth: fields.length("Of its flat floor below the finished board's crest.", [0.5, 20]),
      clearance: fields.length('By how much a slot is longer than the nut is thick.', [0, 0.5]).optional(),
      boardBehind: fields.length('Board behind a slot, along the middle.', [2, 60]).optional(),
    },
    'What the nut stands in. Left out: the board ends at the nut face.',
  ).superRefine(({ kind, clearance, boardBehind }, context) => {
    if (kind !== 'ledge') return;
    for (const [key, given] of Object.entries({ clearance, boardBehind })) {
      if (given === undefined) continue;
      context.addIssue({
        code: 'custom',
        message: 'A ledge ends with the nut and is open behind it.',
        path: [key],
        params: { code: 'not-for-a-ledge', allowed: 'with kind: slot', remedy: `Leave ${key} out.` },
      });
    }
  });
