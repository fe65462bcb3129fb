import { anchorWords } from '../sheet/anchorWords.ts';
import { BENCH } from '../sheet/benchTolerances.ts';
import { declare, doersOf, makersOf, type OrderFacts } from './facts.ts';
import type { DeclaredStep, StepNumber } from './types.ts';

/** Places of level holes (common practice, no source). */
const HOLES = 0.3;
/** What the set-up is measured to (common practice, no source). */
const SET_UP = { action: 0.1, nut: 0.05, relief: 0.05, saddle: 0.1 };

/** The bridge, its pins, saddle and nut: placed from the nut after the neck is set, nut slots last (common practice, no source). */
export function stringSteps(facts: OrderFacts): DeclaredStep[] {
  return [
    drillTieHoles(facts),
    place(facts),
    glueBridge(facts),
    drillPins(facts),
    ream(facts),
    slotInPlace(facts),
    saddle(facts),
    stringUp(facts),
    findPlace(facts),
    ...setUp(facts),
  ];
}

const pinned = ({ bridge }: OrderFacts): boolean => bridge !== null && bridge.pins.length > 0;
const isFloating = ({ instrument }: OrderFacts): boolean => instrument.bridge.anchor.kind === 'tailpiece';

function place(facts: OrderFacts): DeclaredStep {
  const { bridge, sheet } = facts;
  const { checkedAt: one } = anchorWords(facts.instrument.bridge.anchor.kind);
  const numbers: StepNumber[] =
    bridge === null
      ? []
      : [
          {
            what: 'nut face to the saddle slot’s middle, on the centreline',
            is: bridge.place.slot.atCentre,
            workTo: BENCH.bridgeLengthwise,
          },
          {
            what: `bass corner at the nut to the bass-most ${one}`,
            is: bridge.place.skew.bass,
            workTo: BENCH.bridgeSkew,
          },
          {
            what: `treble corner to the treble-most ${one}`,
            is: bridge.place.skew.treble,
            workTo: BENCH.bridgeSkew,
          },
          {
            what: `sideways, bass edge carried on to the bass-most ${one}`,
            is: bridge.place.centring.bass,
            workTo: BENCH.bridgeCentring,
          },
          {
            what: `sideways, treble edge carried on to the treble-most ${one}`,
            is: bridge.place.centring.treble,
            workTo: BENCH.bridgeCentring,
          },
        ];
  return declare({
    id: 'place-bridge',
    title: 'Find the bridge’s place',
    after: [
      'level-frets',
      'join-neck',
      'drill-tie-holes',
      ...makersOf(facts, 'bridgeShape'),
      ...jigsOf(facts),
    ],
    does: [
      'Measure from the nut face, with one rule laid once, now that the neck is where it stays. A plan’s distance from the joint no longer counts.',
      ...(sheet.nutFace === 0
        ? []
        : ['The nut face is not scale zero on this instrument: use the figures from the nut face.']),
    ],
    numbers,
    hold: isFloating(facts)
      ? 'its feet stand on the bare top without a gap; mark its place in pencil only: the strings find the true one'
      : 'lengthwise, crosswise and sideways distances all hold at once; mark round the bridge with a knife only then',
  });
}

/** Ids of the steps that make the bridge's template, its caul and the stop collars. */
function jigsOf(facts: OrderFacts): string[] {
  return makersOf(facts, 'bridgeJigs');
}

function glueBridge(facts: OrderFacts): DeclaredStep {
  return declare({
    id: 'glue-bridge',
    title: 'Scrape the finish from under the bridge, and glue it',
    wanted: !isFloating(facts),
    after: ['place-bridge', ...jigsOf(facts)],
    does: [
      'Scrape to bare wood a little within the knife line. Try the bridge dry under its caul: no light under any edge.',
      'Leave it clamped as the glue’s own sheet says, and 24 to 48 hours before holes are drilled or strings go on.',
    ],
    hold: 'the distances of the step before, once more, while the glue still lets it slide',
  });
}

function drillPins(facts: OrderFacts): DeclaredStep {
  const { anchor } = facts.instrument.bridge;
  const drill = anchor.kind === 'pins' || anchor.kind === 'through' ? anchor.drill : null;
  return declare({
    id: 'drill-pin-holes',
    title: 'Drill the string holes',
    wanted: drill !== null,
    after: ['glue-bridge', ...makersOf(facts, 'pinTemplate'), ...makersOf(facts, 'bridgePlate')],
    does: [
      'Through bridge, top and plate, with a backing block held against the plate, and a slow drill.',
      ...(anchor.kind === 'through'
        ? ['Round over the front edge of every hole, where its string bends toward the saddle.']
        : []),
    ],
    numbers: drill === null ? [] : [{ what: 'drill', is: drill, workTo: null }],
    jigs: makersOf(facts, 'pinTemplate').length > 0 ? ['bridge pin drilling template'] : [],
    hold: 'the template’s saddle line lies on the saddle’s, before the first hole',
  });
}

function ream(facts: OrderFacts): DeclaredStep {
  const [first] = facts.bridge?.pins ?? [];
  return declare({
    id: 'ream-pins',
    title: 'Ream the pin holes, one at a time',
    wanted: pinned(facts),
    after: ['drill-pin-holes', ...makersOf(facts, 'pinCoupon')],
    does: [
      'Each pin is measured and has a hole of its own; the last 2 mm are reamed by trying it.',
      'Cut each string’s slot in the front of its hole to the width on the bench sheet.',
    ],
    numbers:
      first === undefined
        ? []
        : [{ what: 'ream on after first contact, string 1', is: first.advance, workTo: null }],
    hold: 'each pin stands proud by the last push, and goes home by hand, never with a hammer',
  });
}

function slotInPlace(facts: OrderFacts): DeclaredStep {
  const doers = doersOf(facts, 'saddleInPlace');
  return declare({
    id: 'cut-saddle-slot-in-place',
    title: 'Find the saddle’s place with strings on, and cut its slot there',
    wanted: doers.length > 0,
    after: ['glue-bridge', 'drill-pin-holes', 'ream-pins'],
    does: [
      'String the outer two up over a loose saddle, move it until the open string and the octave agree, and mark it.',
      'Slacken and take the strings off before the slot is cut.',
    ],
    doers,
    hold: 'both marks twice the same, with the strings taken off and put on between',
  });
}

function saddle(facts: OrderFacts): DeclaredStep {
  const work = facts.bridge?.saddle;
  const tallest = work === undefined ? [] : work.points.map((p) => p.aboveBridge);
  return declare({
    id: 'fit-saddle',
    title: 'Make the saddle and fit it',
    wanted: work !== undefined || doersOf(facts, 'saddleBlank').length > 0,
    after: ['place-bridge', 'glue-bridge', 'drill-pin-holes', 'ream-pins', 'cut-saddle-slot-in-place'],
    doers: doersOf(facts, 'saddleBlank'),
    does: [
      'Fit it to its slot: it goes in with a push of the fingers, stands on the slot’s floor and does not lean; then shape its top.',
      'Leave it high: what is filed off does not come back.',
    ],
    numbers:
      tallest.length === 0
        ? []
        : [
            { what: 'above the bridge’s face, least', is: Math.min(...tallest), workTo: SET_UP.saddle },
            { what: 'above the bridge’s face, most', is: Math.max(...tallest), workTo: SET_UP.saddle },
          ],
  });
}

function stringUp({ instrument }: OrderFacts): DeclaredStep {
  return declare({
    id: 'string-up',
    title: 'String up, in stages',
    after: ['fit-saddle', 'level-frets', 'glue-bridge'],
    does: [
      `${instrument.strings.length} strings, up to pitch in stages and evenly across; watch the bridge’s back edge and the joint.`,
      'Let it stand a day at pitch before the action is judged.',
    ],
    cautions: [
      'Strings at pitch store energy: face turned away, eyes protected; cut a string only after it is slack.',
    ],
    hold:
      instrument.bridge.anchor.kind === 'tailpiece'
        ? 'the bridge stands square on its feet and has not leaned toward the nut; no line of light at the joint'
        : 'no gap behind the bridge, no line of light at the joint',
  });
}

/** A bridge that the strings alone hold goes where they play in tune. */
function findPlace(facts: OrderFacts): DeclaredStep {
  return declare({
    id: 'find-bridge-place',
    title: 'Find the bridge’s place by ear or tuner, and mark it',
    wanted: isFloating(facts),
    after: ['string-up'],
    does: [
      'Slacken a little, move one end of the bridge, tune up again, until on both outer strings the stopped octave agrees with the open string’s.',
      'Each time see that the bridge stands upright: tuning pulls its top toward the nut.',
    ],
    hold: 'both outer strings agree twice running; then mark the feet, and change strings one at a time',
  });
}

/** Level holes are drilled while the bridge is still a loose block. */
function drillTieHoles(facts: OrderFacts): DeclaredStep {
  const { anchor } = facts.instrument.bridge;
  const doers = doersOf(facts, 'tieHoles');
  return declare({
    id: 'drill-tie-holes',
    title: 'Drill the level holes of the tie block',
    wanted: anchor.kind === 'tied',
    does: [
      'From the front face of the block, along the strings, the bridge clamped on its end or to a fence, a backing block behind.',
      'Round over both ends of every hole: a sharp edge cuts the string.',
    ],
    numbers:
      anchor.kind === 'tied'
        ? [
            { what: 'drill', is: anchor.hole, workTo: null },
            { what: 'middle of the holes below the bridge’s face', is: anchor.below, workTo: HOLES },
            { what: 'between the outer holes', is: anchor.spread, workTo: HOLES },
          ]
        : [],
    doers,
    after: makersOf(facts, 'bridgeOutline'),
    hold: 'a string goes through each hole by hand',
  });
}

function setUp({ instrument, sheet }: OrderFacts): DeclaredStep[] {
  const { targets, trussRod } = instrument;
  const fret = instrument.frets.list[targets.actionFret - 1]?.label ?? String(targets.actionFret);
  return [
    declare({
      id: 'set-relief',
      title: trussRod === null ? 'Measure the relief' : 'Set the relief with the rod',
      after: ['string-up', 'find-bridge-place'],
      does: [
        'Measure between a straightedge and the fret in the middle of the neck’s bow, strings at pitch.',
      ],
      numbers: [{ what: 'relief', is: targets.relief, workTo: SET_UP.relief }],
      cautions:
        trussRod === null ? [] : ['Slacken the strings before the rod is turned far; turn by eighths.'],
    }),
    declare({
      id: 'set-action',
      title: 'Bring the action down at the saddle',
      after: ['set-relief'],
      does: [
        'File the saddle’s underside or top, a little at a time: a millimetre there is about half of one over the octave.',
      ],
      numbers: [
        { what: `bass-most string over fret ${fret}`, is: targets.actionBass, workTo: SET_UP.action },
        { what: `treble-most string over fret ${fret}`, is: targets.actionTreble, workTo: SET_UP.action },
      ],
    }),
    declare({
      id: 'file-nut',
      title: sheet.zeroFret ? 'File the nut slots below the zero fret' : 'File the nut slots, last of all',
      after: ['set-action'],
      does: [
        sheet.zeroFret
          ? 'The zero fret carries the open strings: the nut only keeps them apart, its slots a little lower.'
          : 'With the strings on, to the height over the first fret; each slot falls back toward the tuners.',
      ],
      numbers: sheet.zeroFret
        ? []
        : [
            {
              what: 'bass-most open string over the first fret',
              is: targets.firstFretBass,
              workTo: SET_UP.nut,
            },
            {
              what: 'treble-most open string over the first fret',
              is: targets.firstFretTreble,
              workTo: SET_UP.nut,
            },
          ],
      hold: 'file, tune, measure, file: half a stroke too many is a new nut',
    }),
    declare({
      id: 'write-down',
      title: 'Measure it all once more, and write it down',
      after: ['file-nut'],
      does: ['Fill in the bench sheet as built, and keep it with the profile: the next one begins there.'],
    }),
  ];
}
