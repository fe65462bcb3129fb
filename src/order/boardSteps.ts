import { BENCH } from '../sheet/benchTolerances.ts';
import { nameOf } from '../sheet/slotTable.ts';
import { byMachine, declare, doersOf, inOneRun, makersOf, type OrderFacts } from './facts.ts';
import type { DeclaredStep, StepNumber } from './types.ts';

/** How far a radius gauge or a rule lets a board's thickness and width be known (common practice, no source). */
const BOARD = { width: 0.2, thickness: 0.1 };

/**
 * The fingerboard, from the blank to a board that is ready for glue: slotted while its edges are square, then tapered, radiused,
 * and its slots deepened (common practice, no source).
 */
export function boardSteps(facts: OrderFacts): DeclaredStep[] {
  return [
    underside(facts),
    pins(facts),
    slots(facts),
    ...pockets(facts),
    outline(facts),
    binding(facts),
    ...surface(facts),
    depth(facts),
    sideMarkers(facts),
  ];
}

function underside(facts: OrderFacts): DeclaredStep {
  const clearance = facts.instrument.trussRod?.clearance ?? null;
  const turns = byMachine(facts, 'boardUnderside');
  return declare({
    id: 'cut-underside',
    title: 'Cut the pocket over the rod into the board’s underside',
    wanted: clearance !== null,
    after: ['walk-round-board'],
    does: [
      'Before all else, while the top still is flat and lies on the table without rocking.',
      ...(turns
        ? [
            'Drill the holes of the two turning pins, on into the board below; set the pins, and turn the blank over about its length.',
          ]
        : []),
    ],
    numbers:
      clearance === null
        ? []
        : [
            { what: 'pocket, wide', is: clearance.width, workTo: BOARD.width },
            { what: 'pocket, deep', is: clearance.depth, workTo: BOARD.thickness },
            { what: 'its near end from the nut face', is: clearance.from, workTo: BENCH.marker },
          ],
    doers: doersOf(facts, 'boardUnderside'),
    hold: turns
      ? 'before the pocket: the nut end still is on the left, and both pins hold the blank without play. After it: the rod’s nut or anchor goes in with room around it'
      : 'the rod’s nut or anchor goes in with room around it',
  });
}

function pins(facts: OrderFacts): DeclaredStep {
  const { indexPins } = facts.instrument;
  return declare({
    id: 'bore-index-pins',
    title: 'Bore the index pins’ holes in the board',
    wanted: indexPins.place !== 'none',
    after: ['walk-round-board', 'cut-underside'],
    does: [
      'Bore them first: they are what every later step comes back to.',
      'Take the pins out again before the slots are cut, because a cutter must not meet them.',
    ],
    numbers: [{ what: 'hole for an index pin', is: indexPins.diameter, workTo: 0.05 }],
    doers: doersOf(facts, 'indexPins'),
    hold: 'both pins go in by hand without play, and stand square',
  });
}

function slots(facts: OrderFacts): DeclaredStep {
  const { sheet, instrument } = facts;
  const isMachined = byMachine(facts, 'fretSlots');
  const workTo = isMachined ? BENCH.slotMachined : BENCH.slotSawn;
  const radiused = instrument.fingerboard.surfaceWhenSlotted === 'radiused';
  const sawn = isMachined
    ? []
    : [
        'Saw with a stop at the depth; lay the template or the rule once and mark every slot from the nut face.',
      ];
  return declare({
    id: 'cut-slots',
    title: 'Cut the fret slots',
    after: [
      'cut-underside',
      'bore-index-pins',
      ...(radiused ? ['radius-board'] : []),
      ...(isMachined ? [] : makersOf(facts, 'slotTemplate')),
    ],
    does: [
      'Slot the board while its long edges are still straight and square: a fence and a square need them.',
      ...sawn,
      'Press a piece of the wire into a slot in scrap of the same wood before the board is touched.',
    ],
    numbers: [
      ...checkSlots(facts, workTo),
      { what: 'slot width', is: sheet.slotWidth, workTo: BENCH.slotWidth },
    ],
    doers: doersOf(facts, 'fretSlots'),
    jigs: isMachined ? [] : jigsFor(facts, 'slotTemplate', 'fret slot template'),
    hold: 'count the slots from the nut and from the end; measure the slots named here from the nut face. After this a miscount costs the board',
  });
}

/** The octave and the last slot: together they show a miscount and a rule that has slipped. */
function checkSlots({ sheet }: OrderFacts, workTo: number): StepNumber[] {
  const { octave } = sheet.checks;
  const last = sheet.frets.at(-1);
  const place = (n: number): StepNumber[] => {
    const fret = sheet.frets.find((f) => f.n === n);
    const octaves = n === octave?.fret ? ', the octave,' : '';
    return fret === undefined
      ? []
      : [{ what: `slot ${nameOf(n)}${octaves} from the nut face`, is: fret.fromNutFace, workTo }];
  };
  const wanted = [octave?.fret, last?.n].filter((n) => n !== undefined);
  return [...new Set(wanted)].flatMap(place);
}

function pockets(facts: OrderFacts): DeclaredStep[] {
  const { faceMarkers } = facts.instrument;
  const wanted = facts.sheet.markers.length > 0;
  return [
    declare({
      id: 'cut-inlays',
      title: 'Cut the parts of the inlay',
      wanted: doersOf(facts, 'inlays').length > 0,
      after: ['try-in-scrap'],
      does: ['Cut them before the pockets: a part that broke can be cut again, a pocket cannot.'],
      doers: doersOf(facts, 'inlays'),
      cautions: [
        'Dust of shell harms the lungs for good: work it wet or under extraction, with a mask for fine dust.',
      ],
    }),
    declare({
      id: 'cut-marker-pockets',
      title: 'Cut the pockets of the face markers',
      wanted,
      after: ['cut-slots', 'cut-inlays'],
      does: ['Mark by name: before each one is cut, read the two slots between which it lies.'],
      numbers: [{ what: 'each from the place on the bench sheet', is: 'see there', workTo: BENCH.marker }],
      doers: doersOf(facts, 'faceMarkers'),
      hold: 'the frets that carry a marker, read aloud from the nut, are those of the bench sheet; a marker drops in without force',
    }),
    declare({
      id: 'set-markers',
      title: 'Glue the face markers in',
      wanted,
      after: [
        'cut-marker-pockets',
        ...(inOneRun(facts, 'faceMarkers', 'boardOutline') ? ['taper-board'] : []),
      ],
      does: [
        'Markers come before wire, because neither file nor block gets between frets.',
        'Let the glue dry before anything is levelled.',
      ],
      numbers: [{ what: 'stands above the finished surface', is: faceMarkers.proud, workTo: null }],
    }),
  ];
}

function outline(facts: OrderFacts): DeclaredStep {
  const { fingerboard } = facts.instrument;
  const { widthAt } = fingerboard;
  const where = widthAt.fret === null ? 'at the body end' : `at fret ${labelOf(facts, widthAt.fret)}`;
  const over = fingerboard.binding === null ? '' : ', over the binding';
  return declare({
    id: 'taper-board',
    title: 'Taper the board and cut its end',
    after: ['cut-slots', 'cut-marker-pockets'],
    does: ['Now, not before: with its edges tapered the board has nothing left that is square to the slots.'],
    numbers: [
      { what: `width at the nut face${over}`, is: fingerboard.widthAtNut, workTo: BOARD.width },
      { what: `width ${where}${over}`, is: widthAt.width, workTo: BOARD.width },
    ],
    doers: doersOf(facts, 'boardOutline'),
    hold: 'both edges straight by a rule, the same wood left on both sides of the centreline',
  });
}

const labelOf = ({ instrument }: OrderFacts, place: number): string =>
  instrument.frets.list[place - 1]?.label ?? String(place);

function binding(facts: OrderFacts): DeclaredStep {
  const strips = facts.instrument.fingerboard.binding;
  return declare({
    id: 'bind-board',
    title: 'Glue the binding on',
    wanted: strips !== null,
    after: ['taper-board', ...(isStripDrilled(facts) ? ['side-markers'] : [])],
    does: [
      'Sweep the slots out first and keep glue out of them: their ends are closed from here on.',
      'Scrape the binding flush once the glue is hard.',
    ],
    numbers: strips === null ? [] : [{ what: 'binding, seen from above', is: strips.width, workTo: 0.1 }],
  });
}

function surface(facts: OrderFacts): DeclaredStep[] {
  const { sheet, instrument } = facts;
  const { fingerboard } = instrument;
  const early = fingerboard.surfaceWhenSlotted === 'radiused';
  const { radii } = sheet.board;
  return [
    declare({
      id: 'radius-board',
      title: radii === null ? 'Level the board’s face' : 'Work the board to its radius',
      after: [
        ...(early ? ['bore-index-pins'] : ['taper-board', 'bind-board', 'set-markers']),
        ...makersOf(facts, 'radiusBlock'),
      ],
      does: [
        byMachine(facts, 'boardSurface')
          ? 'Sand the ridges that the cutter left with the block, along the grain.'
          : 'Work along the grain, with the block as long as the board bears, until the gauge shows no light.',
      ],
      numbers: [
        ...(radii === null ? [] : [{ what: 'radius at the nut face', is: radii[0], workTo: null }]),
        ...(radii === null || radii[0] === radii[1]
          ? []
          : [{ what: 'radius at the body end', is: radii[1], workTo: null }]),
        { what: 'thickness along the middle', is: fingerboard.thickness, workTo: BOARD.thickness },
      ],
      doers: doersOf(facts, 'boardSurface'),
      jigs: jigsFor(facts, 'radiusBlock', 'radius sanding block'),
      hold: 'the gauge stands without light at the nut, the middle and the end; the board is as thick as it should be along its middle',
    }),
  ];
}

function depth(facts: OrderFacts): DeclaredStep {
  const { sheet } = facts;
  return declare({
    id: 'deepen-slots',
    title: 'Look at the depth of every slot, and deepen what has become shallow',
    after: ['cut-slots', 'radius-board', 'bind-board', 'set-markers'],
    does: ['Measure at both edges; deepen with a saw and a stop, and sweep the dust out.'],
    numbers: [
      {
        what: 'slot depth at the edge of the finished board',
        is: sheet.slotDepth,
        workTo: { more: BENCH.slotDepthOver },
      },
    ],
    hold: 'a tang held in each slot does not touch its floor',
  });
}

/** Whether the holes go through the bare strip of the binding, before it is on the board. */
function isStripDrilled({ instrument: { fingerboard, sideMarkers } }: OrderFacts): boolean {
  return fingerboard.binding !== null && sideMarkers.drilled === 'before binding';
}

function sideMarkers(facts: OrderFacts): DeclaredStep {
  const { sheet, instrument } = facts;
  const strip = isStripDrilled(facts);
  return declare({
    id: 'side-markers',
    title: strip
      ? 'Drill the binding strip of the bass side and set the side markers'
      : 'Drill the bass edge and set the side markers',
    wanted: sheet.sideMarkers.length > 0,
    after: [
      ...(strip ? ['taper-board'] : ['taper-board', 'bind-board', 'radius-board']),
      ...makersOf(facts, 'sideMarkerTemplate'),
    ],
    does: [
      strip
        ? 'Lay the strip flat and mark its nut end: lengths along it count from there.'
        : 'Into the bass edge: lay the board face up with the nut on your left and look twice which edge that is.',
    ],
    numbers: [
      { what: 'centre below the finished edge', is: instrument.sideMarkers.below, workTo: BENCH.marker },
      { what: 'diameter', is: instrument.sideMarkers.diameter, workTo: null },
      strip
        ? { what: 'depth', is: 'right through the strip', workTo: null }
        : { what: 'depth', is: instrument.sideMarkers.depth, workTo: 0.5 },
    ],
    doers: doersOf(facts, 'sideMarkers'),
    jigs: jigsFor(facts, 'sideMarkerTemplate', 'side-marker template'),
    hold: strip
      ? 'before the first hole: the strip is the bass side’s, and its nut end lies where the bench sheet counts from'
      : 'before the first hole: the edge is the bass edge, and each place lies between the slots that the bench sheet names',
  });
}

/** A jig by its name where this build makes one. */
function jigsFor({ tasks }: OrderFacts, work: string, name: string): string[] {
  return tasks.some(({ works }) => works.includes(work)) ? [name] : [];
}
