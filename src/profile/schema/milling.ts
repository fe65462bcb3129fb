/** How a router's cutters go along walls: pockets, bores, outlines. */
import { choice, type Fields, group } from './fields.ts';

const DIRECTIONS = ['climb', 'conventional'] as const;

/** The direction for everything, where its own group says nothing. */
export const millingDirection = () =>
  choice(
    DIRECTIONS,
    'Which way cutters go along walls: with the turn of the edges (climb), or against it (conventional), for machines with play.',
  ).optional();

/** Groups of a shop file that say how walls of each kind are cut. */
export const millingGroups = (fields: Fields) => ({
  pockets: group(
    {
      direction: choice(
        DIRECTIONS,
        'Which way a cutter goes along the walls of pockets that are not bored or drilled.',
      ).optional(),
      allowance: fields
        .length('Left on the walls of such pockets for the finishing pass.', [0.02, 1])
        .optional(),
    },
    'How a router clears pockets.',
  ).optional(),
  bores: group(
    { direction: choice(DIRECTIONS, 'Which way a cutter goes round the walls of what it bores.').optional() },
    'How a router bores round holes and pockets.',
  ).optional(),
  outlines: group(
    {
      direction: choice(DIRECTIONS, 'Which way a cutter goes along an outline.').optional(),
      allowance: fields
        .length('Left along an outline for the finishing pass; 0 for none.', [0, 1])
        .optional(),
    },
    'How a router cuts outlines.',
  ).optional(),
});
