import { degreesFromRadians } from '../units/convert.ts';
import { formatNumber } from '../units/format.ts';
import { declare, type OrderFacts } from './facts.ts';
import type { DeclaredStep, StepNumber } from './types.ts';

/** Board and neck put together, frets in, and the neck set against the body, in that order (common practice, no source). */
export function neckSteps(facts: OrderFacts): DeclaredStep[] {
  return [rod(facts), dryFit(facts), glueBoard(facts), press(facts), level(facts), ...set(facts)];
}

function rod({ instrument }: OrderFacts): DeclaredStep {
  const { trussRod } = instrument;
  return declare({
    id: 'fit-rod',
    title: 'Fit the truss rod and try it',
    wanted: trussRod !== null,
    after: ['measure'],
    does: [
      'Measure the rod itself before its channel is cut, not its drawing.',
      'Turn it both ways, a little, in its channel, before the board closes it in.',
    ],
    numbers:
      trussRod === null
        ? []
        : [
            { what: 'channel width', is: trussRod.width, workTo: 0.1 },
            { what: 'channel depth', is: trussRod.depth, workTo: 0.2 },
          ],
    cautions: ['A rod under load can strip or break: turn by eighths and stop when it binds.'],
    hold: 'the rod lies at or below the neck’s face, and its adjuster can be reached',
  });
}

function dryFit({ instrument }: OrderFacts): DeclaredStep {
  const pinned = instrument.indexPins.place !== 'none';
  return declare({
    id: 'dry-fit-board',
    title: 'Put the board on the neck, dry',
    after: ['deepen-slots', 'side-markers', 'fit-rod'],
    does: [
      pinned
        ? 'Set the index pins with the board dry on the neck, before any glue is spread.'
        : 'Mark the board’s place on the neck, and try the cauls that hold it there.',
    ],
    hold: 'the centreline of the board lies on that of the neck at the nut and at the joint; the nut face is where the head wants it',
  });
}

function glueBoard(facts: OrderFacts): DeclaredStep {
  const { neckJoint } = facts.instrument;
  return declare({
    id: 'glue-board',
    title: 'Glue the board to the neck',
    after: ['dry-fit-board'],
    does: [
      'Over the pins, with a caul as long as the board; take care that no glue runs into the rod or the slots.',
      ...(neckJoint === null
        ? []
        : [
            'Leave the clamps on until the glue’s own sheet allows otherwise: a board that creeps moves the whole scale.',
          ]),
    ],
  });
}

function press({ instrument }: OrderFacts): DeclaredStep {
  const { fretWire } = instrument;
  return declare({
    id: 'press-frets',
    title: 'Fret',
    after: ['glue-board', 'deepen-slots', 'round-back'],
    does: [
      'Measure the check slots of the bench sheet once more before the first wire goes in.',
      'Nip each piece to its length on the bench sheet; press or tap from the middle outward, or from end to end.',
    ],
    numbers: [{ what: 'tang depth of the wire', is: fretWire.tangDepth, workTo: null }],
    cautions: ['Cut ends of wire fly and are sharp: nip them under a cloth and wear eye protection.'],
    hold: 'every crown sits down on the wood at both ends and in the middle',
  });
}

function level({ instrument }: OrderFacts): DeclaredStep {
  const fallAway = instrument.neckJoint?.fallAway ?? 0;
  const numbers: StepNumber[] =
    fallAway > 0 ? [{ what: 'lower at the end of the board', is: fallAway, workTo: 0.1 }] : [];
  return declare({
    id: 'level-frets',
    title: 'Level, crown and dress the frets, with the neck straight',
    after: ['press-frets'],
    does: ['The neck’s angle is measured from the frets: level them first, or the angle is set to a bump.'],
    numbers,
    hold: 'no rock under a short straightedge over any three frets',
  });
}

function set({ neck }: OrderFacts): DeclaredStep[] {
  const numbers: StepNumber[] =
    neck === null
      ? []
      : [
          { what: 'straightedge above the bare top at the saddle line', is: neck.straightedge, workTo: 0.3 },
          { what: 'the neck’s middle past the bridge’s, sideways', is: 0, workTo: 0.4 },
          {
            what: 'angle, head back',
            is: `${formatNumber(degreesFromRadians(neck.angle), 2)} deg`,
            workTo: null,
          },
        ];
  return [
    declare({
      id: 'set-neck',
      title: 'Set the neck',
      wanted: neck !== null,
      after: ['level-frets'],
      does: [
        'Lay the straightedge on the frets, measure at the saddle line, and give both figures to nutline neckset: it says what to take off each corner of the heel.',
        'Take off less than it says, seat the neck, measure again.',
      ],
      numbers,
      hold: 'height and aim hold three times running, with the neck seated anew between. A wrong angle cannot be undone once it is glued',
    }),
    declare({
      id: 'join-neck',
      title: 'Join the neck to the body',
      wanted: neck !== null,
      after: ['set-neck', 'glue-board'],
      does: ['Support the board over the body by the wedge, or flatten the top, as the neck-set sheet says.'],
      hold: 'measure the straightedge once more before the glue has taken hold, or before the bolts are tightened for good',
    }),
  ];
}
