/** Does the playing surface go with the board, its strings and its end? */
import { stripAlong } from '../spacing/slant.ts';
import {
  type BoardSections,
  boardEnd,
  boardStart,
  fallAt,
  fretLine,
  fretRange,
  halfWidthAt,
  noSuchFret,
  radiusAt,
} from './boardShape.ts';
import { type Check, check, HAIR, mm, when, wrong } from './check.ts';

const NEEDS = ['scale', 'frets', 'fingerboard', 'nut', 'bridge'] as const;

/** A cone must go on this far past the board's ends, where cutters turn. */
const PAST_ENDS = 15;

const radiusFits = check(NEEDS, (sections) => {
  const { thickness } = sections.fingerboard;
  const ends = [boardEnd(sections), boardStart(sections)];
  // One radius is tightest where the board is widest; of a cone the nut may be the tighter place.
  const places = ends.slice(0, sections.fingerboard.radiusAlong.kind === 'constant' ? 1 : 2).map((x) => ({
    radius: radiusAt(sections, x),
    half: halfWidthAt(sections, x),
  }));
  // A radius that has no sense there is another check's matter.
  const tight = places.find(({ radius, half }) => fallAt(Math.max(radius, 1), half) >= thickness);
  if (tight === undefined) return [];
  return [
    wrong(
      'radius-too-small',
      'fingerboard.radius',
      `A radius of ${mm(tight.radius)} leaves no edge on a board ${mm(2 * tight.half)} wide and ${mm(thickness)} thick.`,
      { remedy: 'A larger radius or a thicker board.' },
    ),
  ];
});

const coneGoesOn = check(NEEDS, (sections) => {
  const ends = [boardStart(sections) - PAST_ENDS, boardEnd(sections) + PAST_ENDS];
  const tight = ends.filter((x) => !(radiusAt(sections, x) > halfWidthAt(sections, x) + 1));
  if (tight.length === 0 || sections.fingerboard.radiusAlong.kind === 'constant') return [];
  return [
    wrong(
      'radius-changes-too-fast',
      sections.fingerboard.radiusAlong.kind === 'cone'
        ? 'fingerboard.radiusAt.radius'
        : 'fingerboard.radiusAlong',
      `Carried on ${PAST_ENDS} mm past the board's ends, its radius would shrink to ${mm(Math.max(0, radiusAt(sections, tight[0] ?? 0)))}: there would be no surface left across the board.`,
      { remedy: 'Two radii that are nearer to each other.' },
    ),
  ];
});

const matchedHasStrings = check(['fingerboard', 'strings', 'nut', 'bridge'], (sections) => {
  const { fingerboard, strings, nut, bridge } = sections;
  const spreads = Math.min(nut.stringSpread, bridge.stringSpread);
  return when(fingerboard.radiusAlong.kind === 'matched' && (strings.length < 2 || spreads < 1), () =>
    wrong(
      'nothing-to-match',
      'fingerboard.radiusAlong',
      'A surface is matched to the outer strings, which must lie apart at the nut and at the saddle.',
      {
        found: `${strings.length} strings, ${mm(nut.stringSpread)} apart at the nut and ${mm(bridge.stringSpread)} at the saddle`,
        allowed: 'two strings or more, at least 1 mm apart',
        remedy: 'Use constant, or a cone with radiusAt.',
      },
    ),
  );
});

const secondRadiusFretExists = check(['fingerboard', 'frets'], ({ fingerboard: { radiusAlong }, frets }) => {
  const fret = radiusAlong.kind === 'cone' ? radiusAlong.fret : null;
  return when(fret !== null && fret > frets.count, () =>
    wrong(
      'no-such-fret',
      'fingerboard.radiusAt.fret',
      `The second radius is given at a fret that is not there. ${noSuchFret(frets, fret ?? 0)}`,
      { allowed: fretRange(frets) },
    ),
  );
});

const arcReachesEdges = check(['scale', 'frets', 'fingerboard', 'nut'], (sections) => {
  const { endArc } = sections.fingerboard;
  if (endArc === null) return [];
  // The edges lean outward, so a hollow end meets them a little farther out than the middle's width.
  const least = 1.1 * halfWidthAt(sections, boardEnd(sections));
  return when(Math.abs(endArc) < least, () =>
    wrong(
      'end-arc-too-small',
      'fingerboard.endArc',
      `An arc of ${mm(Math.abs(endArc))} does not span the end of the board.`,
      { found: mm(endArc), allowed: `at least ${mm(least)} (negative where the end is hollow)` },
    ),
  );
});

const stopsClearOfBinding = check(['scale', 'frets', 'fingerboard', 'nut'], (sections) => {
  const { slotsStopShort, binding } = sections.fingerboard;
  if (slotsStopShort === 0) return [];
  const least = alongBinding(sections, binding?.width ?? 0) + 1;
  return when(slotsStopShort < least - HAIR, () =>
    wrong(
      'slot-stops-too-near',
      'fingerboard.slotsStopShort',
      `A slot that stops ${mm(slotsStopShort)} before the edge leaves a wall of less than 1 mm${binding === null ? '' : ' beside the binding'}, measured along the slot, which breaks.`,
      {
        allowed: `0, or at least ${mm(least)}; slots are ${mm(sections.frets.slotWidth)} wide`,
        remedy: 'Let the slots run out at the edge of the wood, or stop them farther in.',
      },
    ),
  );
});

/** How far in the binding reaches along that slot which leans most. */
function alongBinding(sections: BoardSections, width: number): number {
  const at0 = halfWidthAt(sections, 0);
  const edge = { at0, slope: halfWidthAt(sections, 1) - at0 };
  const lines = Array.from({ length: sections.frets.count }, (_, i) => fretLine(sections, i + 1));
  return Math.max(
    ...lines.flatMap((line) => ([-1, 1] as const).map((side) => stripAlong(line, edge, width, side))),
  );
}

const bindingLeavesWood = check(['fingerboard', 'nut'], ({ fingerboard: { binding, widthAtNut }, nut }) => {
  if (binding === null) return [];
  const wood = widthAtNut - 2 * binding.width;
  return when(wood < nut.stringSpread, () =>
    wrong(
      'binding-too-wide',
      'fingerboard.binding.width',
      `Between two strips of ${mm(binding.width)} the board's wood is ${mm(wood)} wide at the nut, and the outer strings lie ${mm(nut.stringSpread)} apart: they would run over the binding.`,
      {
        allowed: `at most ${mm((widthAtNut - nut.stringSpread) / 2)}`,
        remedy: 'Narrower strips or a wider board.',
      },
    ),
  );
});

export const surfaceChecks: readonly Check[] = [
  radiusFits,
  coneGoesOn,
  matchedHasStrings,
  secondRadiusFretExists,
  arcReachesEdges,
  stopsClearOfBinding,
  bindingLeavesWood,
];
