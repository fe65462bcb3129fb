/** Do two scales, frets in pieces, courses and a zero fret make a board that can be built and played? */
import type { Finding } from '../report/finding.ts';
import { shareAt } from '../spacing/cents.ts';
import { carrierAt, meetEdge, type SlotCarrier } from '../spacing/slant.ts';
import { reachOf } from './anchorShape.ts';
import { type BoardSections, boardEnd, fretLine, halfWidthAt } from './boardShape.ts';
import { type Check, check, doubtful, HAIR, mm, when, wrong } from './check.ts';
import type { Fret, FretPiece, Instrument } from './types.ts';

/** Least board between a reference line and the centreline. */
const LEAST_HALF = 5;
/** Least wood between a slot and the end of the board, at its edges. */
const LEAST_END = 0.5;

const referenceLinesLie = check(['scale'], ({ scale: { lines } }) => {
  if (lines === null) return [];
  const narrow = Math.min(lines.nut, lines.saddle);
  return when(narrow < LEAST_HALF, () =>
    wrong(
      'reference-lines-meet',
      'scale.referenceLines',
      `The reference lines lie ${mm(narrow)} from the centreline.`,
      { allowed: `at least ${mm(LEAST_HALF)} all along`, remedy: 'Measure them from the edges again.' },
    ),
  );
});

const squareFretExists = check(['scale', 'frets'], ({ scale, frets }) => {
  const name = /^fret (.+)$/.exec(scale.slant?.squareWords ?? '')?.[1];
  const missing = name !== undefined && !frets.list.some(({ label }) => label === name);
  return when(missing, () =>
    wrong('no-such-fret', 'scale.squareAt.fret', `There is no fret ${name} to be square.`, {
      allowed: `0 for scale zero, or one of ${namesOf(frets.list)}`,
    }),
  );
});

const squareIsOnBoard = check(['scale'], ({ scale: { slant } }) => {
  if (slant === null) return [];
  const isFar = slant.squareShare < -0.1 || slant.squareShare > 0.9;
  return when(isFar, () =>
    doubtful(
      'square-far-away',
      'scale.squareAt',
      'The place where slots are square lies far off the board.',
      {
        allowed: 'from scale zero to the last fret is usual',
        remedy: 'Measure it from scale zero.',
      },
    ),
  );
});

const scalesAreNamed = check(['scale'], ({ scale: { stated, slant } }) =>
  when(slant !== null && stated.bass < stated.treble, () =>
    doubtful('scales-swapped', 'scale.bass', 'The bass side has the shorter scale.', {
      allowed: 'the longer scale on the bass side is usual',
      remedy: 'Turn the two round when they were swapped. Bass means the position, for either hand.',
    }),
  ),
);

/** Along an edge of the board, bass -1 or treble 1. */
function onEdge(sections: BoardSections, line: SlotCarrier, side: -1 | 1): number {
  const at0 = halfWidthAt(sections, 0);
  return meetEdge(line, { at0, slope: halfWidthAt(sections, 1) - at0 }, side)[0];
}

const SIDES = [-1, 1] as const;
const sideWord = (side: -1 | 1): string => (side < 0 ? 'bass' : 'treble');

/** A fret's line that runs out at an edge. */
interface EdgeLine {
  readonly label: string;
  readonly x: number;
}

/**
 * Where frets meet an edge, nut side first: of a fret in pieces the piece under the outer string, at its own place. A partial fret that
 * stops before the edge does not meet it.
 */
function linesAtEdge(sections: BoardSections & Pick<Instrument, 'strings'>, side: -1 | 1): EdgeLine[] {
  const outer = side < 0 ? 1 : sections.strings.length;
  return sections.frets.list.flatMap(({ label, cents, pieces }) => {
    const own = pieces === null ? cents : pieces.find((p) => p.first <= outer && outer <= p.last)?.cents;
    if (own === undefined) return [];
    return [{ label, x: onEdge(sections, carrierAt(sections.scale, shareAt(own)), side) }];
  });
}

const EDGE_NEEDS = ['scale', 'frets', 'fingerboard', 'nut', 'strings'] as const;

/** On a square board the middle tells it all, and other checks look there. */
const slantedHaveRoom = check([...EDGE_NEEDS, 'fretWire'], (sections) => {
  if (sections.scale.slant === null) return [];
  const least = sections.fretWire.crownWidth + 1;
  const close = SIDES.flatMap((side) => {
    const lines = linesAtEdge(sections, side);
    return lines.flatMap((own, i) => {
      const before = lines[i - 1];
      const gap = before === undefined ? Number.POSITIVE_INFINITY : own.x - before.x;
      return before !== undefined && gap < least - HAIR ? [{ side, before, own, gap }] : [];
    });
  });
  const worst = close.toSorted((a, b) => a.gap - b.gap)[0];
  if (worst === undefined) return [];
  const [before, own] = [worst.before.label, worst.own.label];
  return [
    wrong(
      'frets-too-close',
      'scale',
      worst.gap <= 0
        ? `The slots of frets ${before} and ${own} cross inside the board.`
        : `On the ${sideWord(worst.side)} edge frets ${before} and ${own} are ${mm(worst.gap)} apart.`,
      {
        allowed: `at least ${mm(least)}`,
        remedy: 'Scales nearer to each other, or another fret that is square.',
      },
    ),
  ];
});

const slantedEndOnBoard = check(EDGE_NEEDS, (sections) => {
  const { slant } = sections.scale;
  const { endArc, endAngle, endArtwork } = sections.fingerboard;
  if (slant === null || endArc !== null || endArtwork !== null) return [];
  const end: SlotCarrier = { at: boardEnd(sections), lean: Math.tan(endAngle) };
  return SIDES.flatMap((side) => {
    const last = linesAtEdge(sections, side).at(-1);
    if (last === undefined) return [];
    const room = onEdge(sections, end, side) - last.x - sections.frets.slotWidth / 2;
    return when(room < LEAST_END - HAIR, () =>
      wrong(
        'slot-past-end',
        'fingerboard.overhang',
        `The slot of fret ${last.label} comes to ${mm(room)} from the end of the board on the ${sideWord(side)} edge.`,
        {
          allowed: `at least ${mm(LEAST_END)}`,
          remedy: 'More overhang, or an endAngle that leans with the slot.',
        },
      ),
    );
  });
});

const slantedNutHasRoom = check([...EDGE_NEEDS, 'fretWire'], (sections) => {
  if (sections.scale.slant === null) return [];
  const face: SlotCarrier = { at: sections.nut.setForward, lean: fretLine(sections, 0).lean };
  const least = sections.fretWire.crownWidth + 3;
  return SIDES.flatMap((side) => {
    const first = linesAtEdge(sections, side)[0];
    if (first === undefined) return [];
    const room = first.x - onEdge(sections, face, side);
    return when(room < least - HAIR, () =>
      wrong(
        'nut-too-far-forward',
        'nut.setForward',
        `On the ${sideWord(side)} edge the nut face is ${mm(room)} before fret ${first.label}.`,
        { allowed: `at least ${mm(least)}` },
      ),
    );
  });
});

/** Least wood between the saddle line and a pin hole's edge, as for a square row. */
const LEAST_BEHIND_SADDLE = 3;

/** A square row behind a slanted saddle comes nearest to it under the bass string. */
const squareRowClears = check(['scale', 'bridge', 'strings'], ({ scale, bridge, strings }) => {
  const { anchor } = bridge;
  if (scale.slant === null || anchor.row === 'saddle' || anchor.kind === 'tailpiece') return [];
  const { difference, squareShare, half } = scale.slant;
  const lean = (difference * (squareShare - 1)) / (2 * half.saddle);
  const reach = reachOf(anchor);
  const setBacks = (strings.at(-1)?.setBack ?? 0) - (strings[0]?.setBack ?? 0);
  const slope = lean + (bridge.stringSpread === 0 ? 0 : setBacks / bridge.stringSpread);
  const room = anchor.behindSaddle - Math.abs(slope) * (anchor.spread / 2) - reach;
  return when(room < LEAST_BEHIND_SADDLE, () =>
    wrong(
      'pins-in-saddle',
      `bridge.${anchor.kind}.row`,
      `A square row comes to ${mm(room)} from the slanted saddle at one end.`,
      {
        allowed: `at least ${LEAST_BEHIND_SADDLE} mm`,
        remedy: 'Write row: saddle, so that the row follows it, or set it further behind.',
      },
    ),
  );
});

const namesOf = (list: readonly Fret[]): string => list.map(({ label }) => label).join(', ');

const fretsRise = check(['frets'], ({ frets: { list } }) => {
  const at = list.findIndex(({ cents }, i) => !(cents > (list[i - 1]?.cents ?? 0)));
  const [fret, before] = [list[at], list[at - 1]];
  if (fret === undefined)
    return when(list.length === 0, () => wrong('no-frets', 'frets', 'No fret is left.'));
  return [
    wrong(
      'frets-do-not-rise',
      'frets',
      `Fret ${fret.label} does not stand above ${before === undefined ? 'the open string' : `fret ${before.label}`}.`,
      {
        remedy:
          'Put the steps of the octave in rising order; take a half fret out that falls on another fret.',
      },
    ),
  ];
});

const piecesFit = check(['frets', 'strings', 'scale', 'fretWire'], (sections) =>
  sections.frets.list.flatMap((fret, i) =>
    (fret.pieces ?? []).flatMap((piece) => [
      ...stringsExist(fret, piece, sections.strings.length),
      ...pieceHasRoom(sections, i, piece),
    ]),
  ),
);

function stringsExist({ label }: Fret, { last }: FretPiece, strings: number): readonly Finding[] {
  return when(last > strings, () =>
    wrong('no-such-string', 'frets', `Fret ${label} is to run under string ${last}; there are ${strings}.`, {
      allowed: `strings 1 to ${strings}`,
    }),
  );
}

type PieceSections = Pick<Instrument, 'frets' | 'scale' | 'fretWire'>;

/** The crown of a piece must not run into that of the fret before or behind it under the same strings. */
function pieceHasRoom(
  { frets, scale, fretWire }: PieceSections,
  i: number,
  piece: FretPiece,
): readonly Finding[] {
  const { list } = frets;
  const x = (cents: number): number => scale.length * (1 - 2 ** (-cents / 1200));
  const meets = (other: Fret | undefined): number[] => {
    if (other === undefined) return [];
    if (other.pieces === null) return [other.cents];
    return other.pieces.filter((p) => p.first <= piece.last && piece.first <= p.last).map((p) => p.cents);
  };
  const before = Math.min(...meets(list[i - 1]).map((cents) => x(piece.cents) - x(cents)));
  const behind = Math.min(...meets(list[i + 1]).map((cents) => x(cents) - x(piece.cents)));
  const gap = Math.min(before, behind, i === 0 ? x(piece.cents) : Number.POSITIVE_INFINITY);
  const least = fretWire.crownWidth + 1;
  return when(gap < least - HAIR, () =>
    wrong(
      'frets-too-close',
      'frets.ownPlaces',
      `Fret ${list[i]?.label ?? ''} under strings ${piece.first} to ${piece.last} comes to ${mm(gap)} from the fret beside it.`,
      { allowed: `at least ${mm(least)}`, remedy: 'A place nearer to that of the other strings.' },
    ),
  );
}

const MOST_IN_COURSE = 3;

const coursesFit = check(['courses', 'strings'], ({ courses }) =>
  courses.flatMap(({ first, size }) =>
    when(size > MOST_IN_COURSE, () =>
      doubtful('course-large', `strings[${first - 1}].course`, `${size} strings make one course.`, {
        allowed: `up to ${MOST_IN_COURSE} are usual`,
      }),
    ),
  ),
);

/** Pairs closer than this rattle against each other (common practice, no source). */
const CLOSEST_PAIR = 0.8;

const courseGapsFit = check(['courses', 'nut', 'bridge', 'strings'], ({ courses, nut, bridge, strings }) => {
  if (courses.every(({ size }) => size === 1)) return [];
  const inside = (strings.length - courses.length) * nut.courseGap;
  const outer = ((strings[0]?.gauge ?? 0) + (strings.at(-1)?.gauge ?? 0)) / 2;
  const wood = strings.reduce((sum, { gauge }) => sum + gauge, 0) - outer;
  const gap = (nut.stringSpread - inside - wood) / Math.max(1, courses.length - 1);
  return [
    ...(
      [
        ['nut.courseGap', nut.courseGap],
        ['bridge.courseGap', bridge.courseGap],
      ] as const
    ).flatMap(([path, value]) =>
      when(value < CLOSEST_PAIR, () =>
        doubtful('course-close', path, `The strings of a course are ${mm(value)} apart.`, {
          allowed: `at least ${mm(CLOSEST_PAIR)} is usual`,
        }),
      ),
    ),
    ...when(courses.length > 1 && gap <= nut.courseGap, () =>
      wrong(
        'courses-run-together',
        'nut.courseGap',
        `Between courses there are ${mm(gap)} at the nut and ${mm(nut.courseGap)} within each.`,
        {
          allowed: 'more room between courses than within them',
          remedy: 'A wider stringSpread, or less room within.',
        },
      ),
    ),
  ];
});

const zeroFretFits = check(['nut', 'fretWire', 'frets'], ({ nut, fretWire, frets }) => {
  const least = Math.max(fretWire.crownWidth, frets.slotWidth) / 2 + 0.5;
  return when(nut.zeroFret && -nut.setForward < least, () =>
    wrong(
      'nut-on-zero-fret',
      'nut.zeroFret.setBack',
      `The nut face ${mm(-nut.setForward)} behind the zero fret stands on its crown.`,
      { allowed: `at least ${mm(least)}` },
    ),
  );
});

export const scaleChecks: readonly Check[] = [
  referenceLinesLie,
  squareFretExists,
  squareIsOnBoard,
  scalesAreNamed,
  slantedHaveRoom,
  slantedEndOnBoard,
  slantedNutHasRoom,
  squareRowClears,
  fretsRise,
  piecesFit,
  coursesFit,
  courseGapsFit,
  zeroFretFits,
];
