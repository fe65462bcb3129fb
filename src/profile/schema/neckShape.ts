/** What an instrument file may say of the back of its neck. */
import * as z from 'zod';
import { choice, type Fields, group, plainNumber, wholeNumber } from './fields.ts';
import { MATERIAL_CLASSES } from './words.ts';

/** Names that the trade gives to backs, by the letter they look like. */
export const BACK_FORMS = ['C', 'D', 'U', 'V'] as const;

export const neckShapeGroup = (fields: Fields) =>
  group(
    {
      stations: z
        .array(stationGroup(fields))
        .min(1)
        .max(12)
        .meta({ description: 'The back at one fret or several; between them it runs smoothly.' }),
      from: fields.length("From the nut face to where the shaft's own shape begins.", [0, 150]).optional(),
      to: fields.length('From the nut face to where it ends and the heel begins.', [50, 900]).optional(),
      leastUnderRod: fields
        .length("Least wood between the truss rod's channel and the carved back.", [0.5, 20])
        .optional(),
      gauges: group(
        {
          materialClass: choice(MATERIAL_CLASSES, 'Of the sheet.').optional(),
          thickness: fields.length('Thickness of the sheet.', [0.2, 12]).optional(),
          wall: fields.length('Sheet beside and below the opening.', [3, 60]).optional(),
        },
        'A gauge for each station, open by the finished back. {} takes every default.',
      ).optional(),
    },
    'The back of the neck. Leave it out when it is shaped by eye.',
  );

const stationGroup = (fields: Fields) =>
  group(
    {
      fret: wholeNumber('The fret at which it is measured.', [1, 36]),
      depth: fields.length('Neck and board together at the crest, without the fret.', [8, 60]),
      form: choice(BACK_FORMS, 'The letter that the back looks like.').optional(),
      shoulder: plainNumber(
        'How far down its side the back keeps on, as a share of its depth.',
        [0.05, 0.95],
      ).optional(),
      back: plainNumber(
        'How far out from the middle it stays flat, as a share of half its width.',
        [0.05, 0.95],
      ).optional(),
      points: z
        .array(
          z
            .tuple([
              fields.length('From the centreline.', [0, 60]),
              fields.length("Below the board's underside.", [0, 60]),
            ])
            .meta({ description: "From the centreline, and below the board's underside." }),
        )
        .min(2)
        .max(40)
        .meta({ description: "Places measured on a neck: from the centreline, below the board's underside." })
        .optional(),
    },
    'The back at one fret.',
  ).superRefine(({ form, shoulder, back, points }, context) => {
    if (points === undefined || (form === undefined && shoulder === undefined && back === undefined)) return;
    context.addIssue({
      code: 'custom',
      message: 'A back is said by its points, or by form, shoulder and back; not by both.',
      path: ['points'],
      params: { code: 'back-said-twice', allowed: 'points alone, or form, shoulder and back' },
    });
  });
