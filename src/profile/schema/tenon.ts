/** What an instrument file may say of the joint between neck and body. */
import * as z from 'zod';
import { choice, type Fields, group } from './fields.ts';
import { MATERIAL_CLASSES } from './words.ts';

export const tenonGroup = (fields: Fields) =>
  group(
    {
      build: choice(
        ['bolted', 'straight', 'dovetail'],
        'Bolts and inserts, a straight tenon that is glued, or a tapered dovetail.',
      ).optional(),
      width: fields.length(
        'Width of the tenon at its end, at the face that the board is glued to.',
        [6, 100],
      ),
      footWidth: fields.length('Width of a dovetail at its foot.', [4, 100]).optional(),
      length: fields.length('How far the tenon stands out past the joint.', [4, 80]),
      height: fields.length('From the face that the board is glued to, down to its foot.', [10, 160]),
      gap: fields.length('Between tenon and mortise at cheeks and foot: room for glue.', [0, 2]).optional(),
      endGap: fields.length("Between the tenon's end and the mortise's floor.", [0, 10]).optional(),
      flare: fields.angle('How far the cheeks of a dovetail lean.', [0.02, 0.4]).optional(),
      corners: choice(
        ['rounded', 'square'],
        "Corners at the foot: both rounded to the cutter, or the mortise's cut square by hand.",
      ).optional(),
      block: group(
        {
          width: fields.length("Across the body's block.", [20, 250]),
          length: fields.length('Along the neck.', [10, 200]),
          height: fields.length("From the top's plane down.", [20, 200]),
          leastWall: fields.length('Least wood beside, behind and below the mortise.', [2, 60]).optional(),
        },
        "The body's wood that the mortise is cut into.",
      ),
      bolts: group(
        {
          down: z
            .array(fields.length('From the face that the board is glued to, down to the bolt.', [5, 150]))
            .min(1)
            .max(3)
            .meta({ description: 'How far below the face that the board is glued to each bolt sits.' }),
          hole: fields.length('Diameter drilled through the block.', [3, 15]).optional(),
          insert: fields.length('Diameter drilled into the tenon for the insert: measure it.', [3, 20]),
          insertDepth: fields.length("Depth of that hole from the tenon's end.", [5, 60]),
        },
        'The bolts of a bolted joint.',
      ).optional(),
      relief: group(
        {
          rim: fields.length('Width of the rim that stays.', [1, 20]).optional(),
          depth: fields.length('How far the middle is cut back.', [0.1, 3]).optional(),
        },
        "The middle of the heel's face cut back, so that only its rim meets the body. {} takes every default.",
      ).optional(),
      templates: group(
        {
          materialClass: choice(MATERIAL_CLASSES, 'Of the sheet.').optional(),
          thickness: fields.length('Thickness of the sheet.', [2, 20]).optional(),
          bush: fields.length('Outside diameter of the guide bush: measure it.', [6, 60]),
          collar: fields.length("How far the bush stands out of the router's base.", [1, 20]),
          cutter: fields.length('Diameter of the cutter; of a flared one at its widest.', [3, 40]),
          pilot: fields.length("Diameter of the holes that guide a drill's point.", [0.8, 4]).optional(),
        },
        'Plates that guide a hand-held router by a bush. Leave it out when the joint is cut otherwise.',
      ).optional(),
    },
    'How neck and body are joined. Leave it out when that is done elsewhere.',
  );
