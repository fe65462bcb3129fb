/** Does the board hold its strings, its slots and its wire? */
import type { Finding } from '../report/finding.ts';
import { courseSpace } from '../spacing/strings.ts';
import {
  boardEnd,
  edgeThickness,
  fretName,
  fretRange,
  halfWidthAt,
  noSuchFret,
  slotX,
} from './boardShape.ts';
import { type Check, check, doubtful, HAIR, leaves, mm, when, wrong } from './check.ts';

/** Least board beside an outer string, so that the string cannot slip off the fret's bevelled end. */
const STRING_MARGIN = { least: 1, usual: 2 };
/** A board must end this far before the saddle line at least. */
const ROOM_BEFORE_SADDLE = 40;
/** More air than this under a tang only weakens the board (common practice, no source). */
const USUAL_AIR_UNDER_TANG = 0.8;

const widthsGrow = check(['fingerboard', 'frets'], ({ fingerboard: { widthAtNut, widthAt }, frets }) => [
  ...when(widthAt.width < widthAtNut, () =>
    wrong(
      'board-narrows',
      'fingerboard.widthAt.width',
      `The board is ${mm(widthAt.width)} wide ${widthAt.fret === null ? 'at its end' : `at fret ${fretName(frets, widthAt.fret)}`} and ${mm(widthAtNut)} at the nut: it narrows toward the body.`,
      { allowed: `at least ${mm(widthAtNut)}`, remedy: 'Measure both widths again.' },
    ),
  ),
  ...when(widthAt.fret !== null && widthAt.fret > frets.count, () =>
    wrong(
      'no-such-fret',
      'fingerboard.widthAt.fret',
      `The second width is given at a fret that is not there. ${noSuchFret(frets, widthAt.fret ?? 0)}`,
      { allowed: fretRange(frets) },
    ),
  ),
]);

const endsBeforeBridge = check(['scale', 'frets', 'fingerboard', 'nut'], (sections) => {
  const room = sections.scale.length - boardEnd(sections);
  return when(room < ROOM_BEFORE_SADDLE, () =>
    wrong(
      'board-too-long',
      'fingerboard.overhang',
      `The board ends ${mm(room)} before the end of the scale.`,
      {
        allowed: `at least ${ROOM_BEFORE_SADDLE} mm before it`,
        remedy: 'Fewer frets, or less overhang.',
      },
    ),
  );
});

const holdsRounding = check(['scale', 'frets', 'fingerboard', 'nut'], (sections) => {
  const half = halfWidthAt(sections, boardEnd(sections));
  const most = Math.min(half, sections.fingerboard.overhang);
  return when(sections.fingerboard.endRounding > most, () =>
    wrong(
      'rounding-too-large',
      'fingerboard.endRounding',
      'The rounded corners would reach into the last fret or meet.',
      {
        found: mm(sections.fingerboard.endRounding),
        allowed: `at most ${mm(most)}`,
      },
    ),
  );
});

const holdsStrings = check(['strings', 'scale', 'frets', 'fingerboard', 'nut', 'bridge'], (sections) => {
  const { nut, bridge, scale, strings } = sections;
  if (strings.length < 2) return [];
  const thickest = Math.max(strings[0]?.gauge ?? 0, strings.at(-1)?.gauge ?? 0);
  const marginAt = (x: number): number => {
    const along = (x - nut.setForward) / (scale.length - nut.setForward);
    const spread = nut.stringSpread + (bridge.stringSpread - nut.stringSpread) * along;
    return halfWidthAt(sections, x) - (spread + thickest) / 2;
  };
  const last = slotX(sections, sections.frets.count);
  return [
    ...stringMargin('at the nut', marginAt(nut.setForward), 'nut.stringSpread'),
    ...stringMargin(
      `at fret ${fretName(sections.frets, sections.frets.count)}`,
      marginAt(last),
      'bridge.stringSpread',
    ),
  ];
});

function stringMargin(place: string, margin: number, path: string): readonly Finding[] {
  const text =
    margin < 0
      ? `The outer strings lie ${mm(-margin)} outside the board ${place}.`
      : `The outer strings lie ${mm(margin)} from the board's edge ${place}.`;
  const allowed = `at least ${STRING_MARGIN.least} mm; ${STRING_MARGIN.usual} mm or more is usual`;
  const remedy = 'A wider board, or a narrower string spread.';
  if (margin < STRING_MARGIN.least) return [wrong('strings-off-board', path, text, { allowed, remedy })];
  return when(margin < STRING_MARGIN.usual, () =>
    doubtful('strings-near-edge', path, text, { allowed, remedy }),
  );
}

const stringsFitSpread = check(['strings', 'courses', 'nut'], ({ strings, courses, nut }) => {
  const row = {
    gauges: strings.map((string) => string.gauge),
    courses: courses.map(({ size }) => size),
    courseGap: nut.courseGap,
  };
  const gap = courseSpace(row, nut.stringSpread);
  return when(courses.length > 1 && gap < 1, () =>
    wrong(
      'strings-touch',
      'nut.stringSpread',
      `${strings.length} strings in ${mm(nut.stringSpread)} leave gaps of ${mm(gap)}.`,
      {
        allowed: 'gaps of 1 mm or more',
      },
    ),
  );
});

const stringsInOrder = check(['strings', 'family'], ({ strings, family }) => {
  const falls = strings.every((string, i) => i === 0 || string.hertz < (strings[i - 1]?.hertz ?? 0));
  const reentrant = family === 'ukulele' || family === 'dulcimer';
  return when(strings.length > 2 && falls && !reentrant, () =>
    doubtful('strings-reversed', 'strings', 'The strings fall in pitch from the first to the last.', {
      allowed: 'the bass side first',
      remedy:
        'Turn the list round. For a left-handed instrument set hand: left and keep the bass side first.',
    }),
  );
});

const slotFitsWire = check(['frets', 'fretWire'], ({ frets, fretWire }) => [
  ...when(frets.slotWidth <= fretWire.tangWidth, () =>
    wrong(
      'slot-too-narrow',
      'frets.slotWidth',
      `A tang of ${mm(fretWire.tangWidth)} does not go into a slot of ${mm(frets.slotWidth)}.`,
      {
        allowed: `more than ${mm(fretWire.tangWidth)}, less than ${mm(fretWire.barbWidth)}`,
        remedy: 'Measure the tang between its barbs again; else choose another wire or a wider slot.',
      },
    ),
  ),
  ...when(frets.slotWidth >= fretWire.barbWidth, () =>
    wrong(
      'slot-too-wide',
      'frets.slotWidth',
      `Barbs of ${mm(fretWire.barbWidth)} do not bite in a slot of ${mm(frets.slotWidth)}.`,
      {
        allowed: `more than ${mm(fretWire.tangWidth)}, less than ${mm(fretWire.barbWidth)}`,
        remedy: 'Measure over the barbs again; else choose another wire or a narrower slot.',
      },
    ),
  ),
  ...when(fretWire.crownWidth <= fretWire.barbWidth, () =>
    wrong(
      'crown-too-narrow',
      'fretWire.crownWidth',
      'The crown is not wider than the barbs, so it would not cover the slot.',
      {
        allowed: `more than ${mm(fretWire.barbWidth)}`,
      },
    ),
  ),
  ...slotDepthFits(frets.slotDepth - fretWire.tangDepth, fretWire.tangDepth),
]);

function slotDepthFits(air: number, tang: number): readonly Finding[] {
  const allowed = `tang depth (${mm(tang)}) + 0.3 to 0.5 mm is usual`;
  if (air <= HAIR) {
    return [
      wrong(
        'slot-too-shallow',
        'frets.slotDepth',
        `The slot is ${mm(tang + air)} deep and the tang ${mm(tang)}: the fret would not seat.`,
        { allowed },
      ),
    ];
  }
  return when(air > USUAL_AIR_UNDER_TANG, () =>
    doubtful('slot-very-deep', 'frets.slotDepth', `The slot leaves ${mm(air)} of air under the tang.`, {
      allowed,
    }),
  );
}

const slotLeavesWood = check(['scale', 'frets', 'fingerboard', 'nut', 'bridge'], (sections) => {
  const { frets } = sections;
  const last = slotX(sections, frets.count);
  const left = edgeThickness(sections, last) - frets.slotDepth;
  return when(left < frets.leastWoodBelow - HAIR && Number.isFinite(left), () =>
    wrong(
      'slot-too-deep',
      'frets.slotDepth',
      `At fret ${fretName(frets, frets.count)} the board's edge is ${mm(left + frets.slotDepth)} thick; ${leaves(left, 'the slot')}.`,
      {
        allowed: `at least ${mm(frets.leastWoodBelow)} (frets.leastWoodBelow)`,
        remedy: 'A thicker board, a shallower slot or a larger radius.',
      },
    ),
  );
});

const blankHoldsBoard = check(
  ['fingerboard'],
  ({ fingerboard: { thickness, blankThickness, surfaceWhenSlotted } }) => [
    ...when(blankThickness < thickness - HAIR, () =>
      wrong('blank-too-thin', 'fingerboard.blankThickness', 'The blank is thinner than the finished board.', {
        found: mm(blankThickness),
        allowed: `at least ${mm(thickness)}`,
      }),
    ),
    ...when(surfaceWhenSlotted === 'radiused' && blankThickness > thickness + HAIR, () =>
      wrong(
        'blank-not-finished',
        'fingerboard.blankThickness',
        'A board that is radiused before slotting already has its finished thickness.',
        {
          found: mm(blankThickness),
          allowed: mm(thickness),
          remedy: 'Give the same thickness twice, or surfaceWhenSlotted: flat.',
        },
      ),
    ),
  ],
);

const fretsHaveRoom = check(['scale', 'frets', 'fretWire'], (sections) => {
  const { frets, fretWire } = sections;
  const gap = slotX(sections, frets.count) - slotX(sections, frets.count - 1);
  return when(gap < fretWire.crownWidth + 1, () =>
    wrong(
      'frets-too-close',
      'frets.count',
      `Frets ${fretName(frets, frets.count - 1)} and ${fretName(frets, frets.count)} are ${mm(gap)} apart, the crown is ${mm(fretWire.crownWidth)} wide.`,
      {
        allowed: `at least ${mm(fretWire.crownWidth + 1)}`,
        remedy: 'Fewer frets, or a narrower wire.',
      },
    ),
  );
});

const nutIsBeforeFirstFret = check(['scale', 'frets', 'nut', 'fretWire'], (sections) => {
  const room = slotX(sections, 1) - sections.nut.setForward;
  return when(room < sections.fretWire.crownWidth + 3, () =>
    wrong('nut-too-far-forward', 'nut.setForward', `The nut face is ${mm(room)} before the first fret.`, {
      remedy: 'Measure setForward from scale zero; for a plain nut leave it out.',
    }),
  );
});

const rodFits = check(['trussRod', 'scale', 'frets', 'fingerboard', 'nut'], (sections) => {
  const { trussRod: rod, nut, fingerboard } = sections;
  if (rod === null) return [];
  const end = nut.setForward + rod.from + rod.length;
  const most = fingerboard.widthAtNut - 2 * 8;
  return [
    ...when(rod.width > most, () =>
      wrong(
        'rod-too-wide',
        'trussRod.width',
        `A channel of ${mm(rod.width)} does not leave 8 mm of neck on each side at the nut.`,
        {
          allowed: `at most ${mm(most)}`,
        },
      ),
    ),
    ...when(end > boardEnd(sections), () =>
      wrong(
        'rod-too-long',
        'trussRod.length',
        `The channel ends ${mm(end - boardEnd(sections))} past the end of the board.`,
        {
          remedy: 'Shorten it, or measure trussRod.from from the nut face.',
        },
      ),
    ),
  ];
});

const targetFretExists = check(['targets', 'frets'], ({ targets, frets }) =>
  when(targets.actionFret > frets.count, () =>
    wrong(
      'no-such-fret',
      'targets.actionFret',
      `The action is to be measured at a fret that is not there. ${noSuchFret(frets, targets.actionFret)}`,
      {
        allowed: fretRange(frets),
      },
    ),
  ),
);

export const boardChecks: readonly Check[] = [
  widthsGrow,
  endsBeforeBridge,
  holdsRounding,
  holdsStrings,
  stringsFitSpread,
  stringsInOrder,
  slotFitsWire,
  slotLeavesWood,
  blankHoldsBoard,
  fretsHaveRoom,
  nutIsBeforeFirstFret,
  rodFits,
  targetFretExists,
];
