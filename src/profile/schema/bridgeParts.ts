/** What an instrument file may say of the bridge as wood and of its jigs. */
import { choice, type Fields, group, text, wholeNumber } from './fields.ts';
import { MATERIAL_CLASSES } from './words.ts';

const material = (about: string) => choice(MATERIAL_CLASSES, about);

export const bridgeBodyGroup = (fields: Fields) =>
  group(
    {
      wood: text('Wood of the bridge, as it stands in the stock.').optional(),
      materialClass: material('How it behaves under a cutter.').optional(),
      thickness: fields.length('Finished thickness in the middle.', [3, 30]).optional(),
      length: fields.length('From tip to tip, across the strings.', [20, 260]).optional(),
      width: fields.length('In the middle, along the strings.', [10, 120]).optional(),
      front: fields
        .length('From the front edge to the middle of the saddle slot, on the centreline.', [2, 60])
        .optional(),
      wingLength: fields.length('Length of each wing; 0 for none.', [0, 120]).optional(),
      tipWidth: fields.length('Width at the tips, along the strings.', [4, 120]).optional(),
      tipThickness: fields
        .length('To which the wings are thinned at their tips, by hand.', [1, 30])
        .optional(),
      cornerRadius: fields.length('Radius of every corner of the outline.', [0, 30]).optional(),
      stands: choice(['square', 'saddle'], 'Square to the centreline, or along the saddle.').optional(),
      slotCut: choice(
        ['before gluing', 'after stringing'],
        "When the saddle's slot is cut: in the blank, or in place once it was strung on trial.",
      ).optional(),
      indexPin: fields
        .length('Diameter of two pins under the saddle that hold the bridge in its place.', [1, 6])
        .optional(),
      artwork: group(
        {
          file: text('SVG or DXF file with the outline, as seen from the folder of this file.'),
          rotate: fields
            .angle('Turned counter-clockwise by this, seen from above.', [-2 * Math.PI, 2 * Math.PI])
            .optional(),
        },
        'An outline of your own drawing at its own size, its x along the strings toward the tail, in place of length, width, wings and corners.',
      ).optional(),
    },
    'The bridge as a piece of wood. {} takes every default; leave it out when it is bought.',
  );

export const bridgePlateGroup = (fields: Fields) =>
  group(
    {
      wood: text('Wood of the plate, as it stands in the stock.').optional(),
      materialClass: material('How it behaves under a cutter.').optional(),
      thickness: fields.length('Thickness of the plate.', [1, 10]).optional(),
      length: fields.length('Across the strings.', [20, 260]).optional(),
      width: fields.length('Along the strings.', [15, 120]).optional(),
      front: fields.length('From its front edge to the saddle line, on the centreline.', [2, 60]).optional(),
      cornerRadius: fields.length('Radius of its corners.', [0, 30]).optional(),
    },
    'The plate under the top that the pins go through. {} takes every default.',
  );

export const bridgeTemplateGroup = (fields: Fields) =>
  group(
    {
      materialClass: material('Of the sheet.').optional(),
      thickness: fields.length('Thickness of the sheet.', [0.2, 12]).optional(),
      margin: fields.length('Sheet before the bridge and beside it.', [8, 80]).optional(),
      play: fields.length('Between the bridge and the bay it slides into, all round.', [0, 1]).optional(),
      from: choice(['nut', 'joint'], 'Where its check distances begin.').optional(),
    },
    'A template that holds the bridge in its place while it is glued. {} takes every default.',
  );

export const bridgeCaulGroup = (fields: Fields) =>
  group(
    {
      materialClass: material('Of the sheet the plates are cut from.').optional(),
      length: fields.length('Along the strings, over all plates.', [15, 150]).optional(),
      width: fields.length('Across the strings.', [30, 260]).optional(),
      height: fields.length('At the middle of its curve.', [12, 80]).optional(),
      plateThickness: fields.length('Thickness of the sheet.', [1, 25]).optional(),
      plates: wholeNumber('Number of plates.', [2, 20]).optional(),
      dowelDiameter: fields.length('Diameter of the dowels.', [3, 20]).optional(),
      radius: fields.length("Radius of the top's dome, its outer face.", [500, 60_000]).optional(),
      below: fields
        .length('From that face down to the caul: top, plate and what pads it.', [0, 30])
        .optional(),
    },
    'A caul of curved plates on dowels, under a domed top. {} takes every default.',
  );

export const pinGaugesGroup = (fields: Fields) =>
  group(
    {
      materialClass: material('Of the sheet the stop collars are cut from.').optional(),
      thickness: fields.length('Thickness of that sheet.', [0.5, 12]).optional(),
      collar: fields.length('Outer diameter of a stop collar.', [10, 60]).optional(),
      holes: wholeNumber('Trial holes in the pin-fit coupon.', [1, 12]).optional(),
    },
    'Stop collars for the reamer and a scrap with trial holes for the pins. {} takes every default.',
  );

export const nutAndSaddleGroup = (fields: Fields) =>
  group(
    {
      material: text('What they are made of.').optional(),
      over: fields.length('What a blank has to spare at each side.', [0, 10]).optional(),
    },
    'Nut and saddle, drawn 1:1 from the side with every string’s height. {} takes every default.',
  );

/** Who does which work on the bridge, in a shop file. */
export const bridgeWork = <T>(who: (what: string) => T) => ({
  bridgeHoles: who('the pin holes and index-pin holes of the bridge'),
  saddleSlot: who("the saddle's slot in the bridge"),
  bridgeOutline: who('the outline of the bridge'),
  bridgePlate: who('the bridge plate'),
  bridgeJigs: who("the bridge's template and caul, and the stop collars"),
});
