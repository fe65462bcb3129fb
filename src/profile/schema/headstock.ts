/** What an instrument file may say of the neck's wood, its headstock and the ends of the truss rod's channel. */
import { choice, type Fields, group, text, wholeNumber } from './fields.ts';
import { MATERIAL_CLASSES } from './words.ts';

const materialClass = (about: string) => choice(MATERIAL_CLASSES, about);

export const neckBlankGroup = (fields: Fields) =>
  group(
    {
      wood: text("The neck's wood, as in the stock of the shop file."),
      materialClass: materialClass('How the wood behaves under a cutter.'),
      build: choice(
        ['scarf', 'one piece'],
        'The head glued on a bevel of the shaft, or sawn with it from one blank.',
      ).optional(),
      thickness: fields.length('Thickness of the squared blank.', [10, 150]).optional(),
      width: fields.length('Width of the squared blank.', [25, 250]).optional(),
      heel: choice(
        ['stacked', 'one piece'],
        'Blocks glued under the shaft, or a blank thick enough for the heel.',
      ).optional(),
      heelLength: fields
        .length('From the joint toward the nut, of the block that the heel is carved from.', [10, 250])
        .optional(),
      pastJoint: fields
        .length('Of shaft and heel past the joint, for what the joint is cut from.', [0, 200])
        .optional(),
      leastUnderRod: fields.length('Least wood under the truss rod.', [0.5, 20]).optional(),
    },
    'The wood of the neck. Leave it out when the neck is made elsewhere.',
  );

export const headstockGroup = (fields: Fields) =>
  group(
    {
      angle: fields.angle("Between the head's face and the neck's plane.", [0, 0.45]),
      thickness: fields.length('Thickness of the head, without its veneer.', [6, 30]),
      outline: outlineGroup(fields),
      veneer: group(
        {
          wood: text("The veneer's wood."),
          materialClass: materialClass('How it behaves under a cutter.'),
          thickness: fields.length('Thickness of the veneer.', [0.3, 6]),
        },
        'A plate glued on the face of the head. Leave it out for none.',
      ).optional(),
      tuners: tunersGroup(fields),
      template: group(
        {
          materialClass: materialClass('Of the sheet.').optional(),
          thickness: fields.length('Thickness of the sheet.', [0.2, 12]).optional(),
          pilot: fields.length('Diameter of the pilot holes.', [0.5, 6]).optional(),
        },
        'A template of the head with pilot holes at the posts. {} takes every default.',
      ).optional(),
    },
    'The headstock. Leave it out when it is made elsewhere.',
  );

const SIZES = ['length', 'shoulder', 'widthAtShoulder', 'widthAtTip'] as const;

/** Either a file or the four sizes that a head is drawn from. */
const outlineGroup = (fields: Fields) =>
  group(
    {
      file: text(
        "An SVG or DXF file with the head's outline at its true size, the tip to the left, the nut's end an upright line at the right.",
      ).optional(),
      length: fields.length('From the back of the nut to the tip.', [40, 400]).optional(),
      shoulder: fields
        .length('From the back of the nut to the full width of the cheeks.', [5, 150])
        .optional(),
      widthAtShoulder: fields.length('Width of the head there.', [25, 200]).optional(),
      widthAtTip: fields.length('Width of the head at the tip.', [15, 200]).optional(),
      tip: fields
        .length('How far the middle of the tip stands beyond its corners; negative: hollow.', [-30, 60])
        .optional(),
      corner: fields.length("Radius of the tip's corners.", [0, 40]).optional(),
    },
    'The sizes of the head, or a file with its outline.',
  ).superRefine((outline, context) => {
    const given = SIZES.filter((key) => outline[key] !== undefined);
    const isFile = outline.file !== undefined;
    if (isFile ? given.length === 0 : given.length === SIZES.length) return;
    const message = isFile
      ? 'An outline from a file has its sizes from there.'
      : 'These are not all the sizes that a head is drawn from.';
    const params = { code: 'headstock-outline', allowed: `file, or all of ${SIZES.join(', ')}` };
    context.addIssue({ code: 'custom', message, path: isFile ? ['file'] : [], params });
  });

const tunersGroup = (fields: Fields) =>
  group(
    {
      onBassSide: wholeNumber(
        'How many strings, from the bass-most, are tuned on the bass side.',
        [0, 12],
      ).optional(),
      first: fields.length('From the back of the nut to the first posts, along the face.', [10, 250]),
      apart: fields.length('Between neighbouring posts of one side, along their line.', [8, 100]),
      fromCentre: fields.length('From the centreline to the first post of each side.', [-80, 80]),
      fromCentreLast: fields
        .length('From the centreline to the last post of each side.', [-80, 80])
        .optional(),
      post: fields.length('Diameter of the post where the string winds.', [2, 15]).optional(),
      hole: fields.length('Diameter of the hole right through.', [2, 20]),
      bushing: group(
        {
          diameter: fields.length(
            'Diameter of the hole that the bushing is pressed into, measured.',
            [3, 25],
          ),
          depth: fields.length('Depth of that hole from the face.', [0.5, 25]),
        },
        'A press-fit bushing. Leave it out for none.',
      ).optional(),
      reamerTaper: fields
        .angle('Included angle of the reamer for friction pegs, narrow at the face.', [0.001, 0.3])
        .optional(),
      knob: group(
        {
          reach: fields.length("From the post's middle to where the knob begins, measured.", [5, 80]),
          width: fields.length('Width of a knob along the head, measured.', [5, 60]),
        },
        'The knobs, for their room beside the head and between each other.',
      ).optional(),
      leastEdge: fields.length("Least wood between a hole and the head's edge.", [0.5, 30]).optional(),
    },
    'The tuners: posts on a straight line on each side, equally far apart.',
  );

/** The ends of the truss rod's channel, beside its straight run. */
export const rodEndFields = (fields: Fields) => ({
  anchor: group(rodPocket(fields), 'The wider place for the anchor. Leave it out for none.').optional(),
  adjuster: group(
    {
      ...rodPocket(fields),
      at: choice(['head', 'body'], 'At which end the rod is adjusted.'),
      access: fields
        .length("How far its pocket goes on past the rod's end, for the key.", [0, 80])
        .optional(),
    },
    'The wider place for the adjuster. Leave it out for none.',
  ).optional(),
  filler: fields
    .length('Thickness of the strip glued in over the rod. Leave it out for none.', [1, 15])
    .optional(),
});

const rodPocket = (fields: Fields) => ({
  length: fields.length("Of the rod's own length, from its end.", [3, 120]),
  width: fields.length('Width of the pocket.', [2, 40]),
  depth: fields.length('Depth of the pocket.', [2, 30]),
});
