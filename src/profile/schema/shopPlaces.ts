/** Sections of a shop file about how parts are held: what stands beside them, and pins that they are turned over on. */
import * as z from 'zod';
import { type Fields, group, identifier, text } from './fields.ts';

/** One box that no tool may enter. */
export const keepOutGroup = (fields: Fields) => {
  const place = (about: string) => fields.length(about, [-5000, 5000]);
  const interval = (axis: string) =>
    z
      .tuple([place(`From, ${axis}.`), place(`To, ${axis}.`)])
      .meta({ description: `From and to in ${axis}.` });
  return group(
    {
      name: text('What stands there.'),
      part: identifier('Part during whose programs it stands there, as fingerboard.'),
      machine: identifier(
        'Machine it stands on, by its id. Left out: every machine that works on the part.',
      ).optional(),
      x: interval('x'),
      y: interval('y'),
      z: interval('z'),
    },
    "A box that no part of the tool may enter, measured from the work zero of the part's programs on that machine: of a fingerboard on a router X0 at the nut end of its blank, Y0 on its middle line; of every panel, and of all parts on a laser, the lower left corner of the blank. Z0 on its top. part: fingerboard-edge is the board standing on edge for its side markers, fingerboard-turned its blank lying face down on its turning pins, each with the work zero that its program says.",
  );
};

/** Pins for turning a blank over. */
export const turningGroup = (fields: Fields) =>
  group(
    {
      pinDiameter: fields.length('Diameter of the pins on which a blank is turned over.', [1, 8]).optional(),
      pinDepth: fields.length('How deep the pins stand in the board below.', [2, 20]).optional(),
    },
    'Pins in the waste of a blank, on which it is turned over.',
  );
