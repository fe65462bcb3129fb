import { byMachine, declare, doersOf, makersOf, type OrderFacts } from './facts.ts';
import type { DeclaredStep, StepNumber } from './types.ts';

/** What a rasp and a gauge can hold (common practice, no source). */
const DEPTH = 0.3;

/** The back of the neck, from the square blank to the gauges: after the board is glued, before the frets go in. */
export function carvingSteps(facts: OrderFacts): DeclaredStep[] {
  const { carving } = facts.sheet;
  const [first, last] = [carving?.places[0], carving?.places.at(-1)];
  const depths: StepNumber[] = [first, last].flatMap((place) =>
    place === undefined
      ? []
      : [{ what: `depth of the neck below the board, ${place.what}`, is: place.edges.depth, workTo: DEPTH }],
  );
  const doers = doersOf(facts, 'neckBack');
  const isRouted = byMachine(facts, 'neckBack');
  const common = { wanted: carving !== null } as const;
  const byHand = { wanted: carving !== null && !isRouted } as const;
  return [
    declare({
      id: 'rout-neck-back',
      title: 'Carve the back by the router, the blank on its face',
      wanted: isRouted,
      after: ['try-in-scrap', ...makersOf(facts, 'neckBlank')],
      does: [
        'Before the board and the heel’s blocks are glued on: the face lies flat on the table, and nothing stands up but the head.',
        'Clamp both ends of the blank, outside what is carved, and walk round it first: the head must pass under the spindle nowhere.',
      ],
      numbers: depths,
      doers: isRouted ? doers : [],
      cautions: [
        'The wood between the clamps gets thin and narrow: stop when it hums or lifts. Long cutters break when they are forced.',
      ],
      hold: 'the depth at the first and the last gauge by a caliper, before the blank leaves the table',
    }),
    declare({
      ...byHand,
      id: 'true-neck-blank',
      title: 'Bring the neck’s sides flush with the board, and its back to the depth',
      after: ['glue-board'],
      does: [
        'Sides first, square to the board’s underside; then plane the back straight from one depth to the other.',
        'Leave the head’s foot and the heel’s block alone: the shaft’s own shape ends before them.',
      ],
      numbers: depths,
      hold: 'depth and width at both ends of the shaft; nothing deeper than the truss rod allows',
    }),
    declare({
      ...byHand,
      id: 'carve-flats',
      title: 'Draw the lines, and rasp the first flat, then the second ones',
      after: ['true-neck-blank'],
      does: [
        'Mark the places of the bench sheet at each fret, on side and back, and join them.',
        'Rasp the first flat to its two lines on both sides, then draw and rasp the two beside it.',
      ],
      hold: 'both sides look alike from the end; no flat has gone past its line',
    }),
    declare({
      ...common,
      id: 'round-back',
      title: 'Round the back to the gauges',
      after: ['carve-flats', 'rout-neck-back', 'glue-board', ...makersOf(facts, 'neckGauges')],
      does: [
        ...(isRouted
          ? [
              'Saw off the wood that was left beside the neck, and bring the sides flush with the board.',
              'Carve the ramps at both ends into the head’s foot and the heel.',
            ]
          : []),
        'Take the ridges off evenly along the whole shaft, and try each gauge at its fret.',
      ],
      doers: isRouted ? [] : doers,
      jigs: makersOf(facts, 'neckGauges').length > 0 ? ['gauges for the back of the neck'] : [],
      hold: 'each gauge’s tips stand level with the underside of the board, and no light shows under it',
    }),
  ];
}
