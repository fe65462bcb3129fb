/** The section `faceMarkers` of an instrument file. */
import * as z from 'zod';
import { choice, type Fields, flag, fretName, group, plainNumber, text, wholeNumber } from './fields.ts';
import { MATERIAL_CLASSES } from './words.ts';

/** How often a marker stands at its fret. */
export const markerCount = wholeNumber('1, or 2 for a double marker.', [1, 2]).transform((count): 1 | 2 =>
  count === 2 ? 2 : 1,
);

/** The fret of a marker. */
export const markerFret = fretName('Fret whose space carries the marker.', [1, 36.5]);

const faceMarkerGroup = (fields: Fields) => {
  const common = { fret: markerFret, count: markerCount.optional() };
  const size = (about: string) => fields.length(about, [1, 25]);
  const blockSize = {
    length: size('Along the board, through its middle.'),
    width: fields.length('Across the board, through its middle.', [1, 120]),
  };
  return z.discriminatedUnion('shape', [
    group(
      { ...common, shape: z.literal('round').optional(), diameter: size('Diameter of the marker.') },
      'One round face marker, or a pair.',
    ),
    group(
      { ...common, shape: z.literal('square'), side: size('Side of the marker.') },
      'One square face marker, or a pair.',
    ),
    group(
      {
        ...common,
        shape: z.literal('diamond'),
        length: size('From point to point along the board.'),
        width: size('From point to point across the board.'),
      },
      'One diamond-shaped face marker, or a pair.',
    ),
    group(
      {
        ...common,
        shape: z.literal('ring'),
        diameter: size('Outer diameter of the marker.'),
        inner: size('Diameter of the wood left in its middle.'),
      },
      'One ring-shaped face marker, or a pair.',
    ),
    group(
      { ...common, shape: z.literal('block'), ...blockSize },
      'One block, or a pair: its sides run along the slots and the edges of the board.',
    ),
    group(
      {
        ...common,
        shape: z.literal('notched block'),
        ...blockSize,
        notchDepth: size('Depth of the V in the middle of each side that faces a slot.'),
        notchWidth: size('Width of that V at its mouth.'),
      },
      'One block with a V cut into both sides that face a slot, or a pair.',
    ),
  ]);
};

const artworkGroup = (fields: Fields) =>
  group(
    {
      file: text('SVG or DXF file with the outline, as seen from the folder of this file.'),
      fret: markerFret,
      between: z
        .tuple([
          wholeNumber('Position of a string, bass side first.', [1, 24]),
          wholeNumber('Position of another string.', [1, 24]),
        ])
        .meta({
          description: 'Two strings between which its middle lies; left out, it lies on the centreline.',
        })
        .optional(),
      rotate: fields
        .angle('Turned counter-clockwise by this, seen from above.', [-2 * Math.PI, 2 * Math.PI])
        .optional(),
      scale: plainNumber('Times its own size.', [0.01, 100]).optional(),
      width: fields.length('Its extent along its own x axis, in place of a scale.', [1, 400]).optional(),
      mirrorForLeftHand: flag('On a left-handed instrument: mirrored with the board.').optional(),
    },
    'One marker whose outline a file holds.',
  );

const inlaysGroup = (fields: Fields) =>
  group(
    {
      materialClass: choice(
        MATERIAL_CLASSES,
        'How the material of the markers behaves under a cutter.',
      ).optional(),
      blank: group(
        {
          length: fields.length('Length of one piece of it.', [10, 600]),
          width: fields.length('Width of one piece of it.', [8, 400]),
        },
        'One piece of the material, as it is bought.',
      ),
      between: fields.length('Waste between two parts, and beside the edges of a piece.', [1, 20]).optional(),
    },
    'Cut the parts for the pockets as well. Leave it out when they are bought.',
  );

/** The whole section. */
export const faceMarkersGroup = (fields: Fields) =>
  group(
    {
      material: text('Material of the markers.').optional(),
      thickness: fields.length('Thickness of a marker.', [0.3, 6]).optional(),
      proud: fields
        .length('How far a marker stands above the finished board before levelling.', [0, 2])
        .optional(),
      clearance: fields
        .length('By how much a pocket is wider than its marker, both sides together.', [0, 1])
        .optional(),
      cornerRadius: fields
        .length('Radius of the corners of pockets that have corners; 0 is sharp.', [0, 10])
        .optional(),
      spread: fields.length('Between the centres of a double marker, across the board.', [2, 120]).optional(),
      leastLeft: fields
        .length('Least that should be left of a marker once the board is radiused and level.', [0, 5])
        .optional(),
      at: z.array(faceMarkerGroup(fields)).max(36).meta({ description: 'The face markers.' }),
      artwork: z
        .array(artworkGroup(fields))
        .max(36)
        .meta({ description: 'Markers of your own drawing.' })
        .optional(),
      inlays: inlaysGroup(fields).optional(),
    },
    'Markers let into the face of the board. Leave it out for none.',
  );
