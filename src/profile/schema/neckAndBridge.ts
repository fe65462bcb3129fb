/** What an instrument file may say of the neck's joint and of the bridge. */
import * as z from 'zod';
import { anchorGroups, oneAnchor } from './anchors.ts';
import { bridgeBodyGroup, bridgePlateGroup } from './bridgeParts.ts';
import { type Fields, group, wholeNumber } from './fields.ts';
import { tenonGroup } from './tenon.ts';

export const neckJointGroup = (fields: Fields) =>
  group(
    {
      fret: wholeNumber('Fret at which the body begins.', [1, 36]),
      boardAboveRim: fields
        .length("Underside of the board above the rim's plane at the joint.", [-10, 30])
        .optional(),
      heelDepth: fields.length("Depth of the heel, from the top's plane to the cap.", [10, 160]),
      heelWidthAtTop: fields.length('Width of the heel at the top.', [15, 120]),
      heelWidthAtCap: fields.length('Width of the heel at the cap.', [5, 120]),
      domeRadius: z
        .union([z.literal('flat'), fields.length('Radius of the top, seen lengthwise.', [500, 60_000])])
        .meta({ description: 'Radius of the dome of the top, seen lengthwise, or flat.' }),
      domeApex: fields.length("From the joint to the top's highest place.", [0, 600]).optional(),
      fallAway: fields
        .length('How much lower than the straight run the frets are to be at the end of the board.', [0, 3])
        .optional(),
      tenon: tenonGroup(fields).optional(),
    },
    'Where the neck meets the body, for setting the neck. Leave it out when that is done elsewhere.',
  );

export const bridgeGroup = (fields: Fields) =>
  group(
    {
      height: fields.length("The bridge's face above the bare top at the saddle line.", [0, 60]).optional(),
      stringSpread: fields.length('Between the centres of the outer strings at the saddle.', [0, 160]),
      courseGap: fields.length('Clear space between the strings of one course.', [0.3, 15]).optional(),
      straightedge: fields
        .length("A straightedge on the frets above the bridge's face at the saddle, unstrung.", [-5, 20])
        .optional(),
      drop: fields.length("How much of that the strings' pull takes away.", [0, 10]).optional(),
      saddle: group(
        {
          width: fields.length('Width of the saddle along the strings.', [1, 20]).optional(),
          edge: fields
            .length("Least left of the saddle before and behind a string's crown.", [0, 3])
            .optional(),
          height: fields.length("Top of the saddle above the bridge's face.", [-10, 40]).optional(),
          ramp: fields
            .length("How far below the bridge's face the string meets the front of its pin hole.", [0, 20])
            .optional(),
          slotDepth: fields.length('Depth of the slot that holds the saddle.', [1, 25]).optional(),
          ends: fields.length('Saddle past the outer strings, at each end.', [0, 60]).optional(),
        },
        'The saddle. {} takes every default.',
      ).optional(),
      ...anchorGroups(fields),
      body: bridgeBodyGroup(fields).optional(),
      plate: bridgePlateGroup(fields).optional(),
    },
    'The bridge. What holds the strings: one of pins, tied, through, tailpiece.',
  ).superRefine(oneAnchor);
