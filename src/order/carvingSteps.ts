import { declare, makersOf, type OrderFacts } from './facts.ts';
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
  const common = { wanted: carving !== null } as const;
  return [
    declare({
      ...common,
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
      ...common,
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
      after: ['carve-flats', ...makersOf(facts, 'neckGauges')],
      does: ['Take the ridges off evenly along the whole shaft, and try each gauge at its fret.'],
      jigs: makersOf(facts, 'neckGauges').length > 0 ? ['gauges for the back of the neck'] : [],
      hold: 'each gauge’s tips stand level with the underside of the board, and no light shows under it',
    }),
  ];
}
