/** Does the board hold what the nut stands in? */
import { boardStart, edgeFall } from './boardShape.ts';
import { type Check, check, HAIR, leaves, mm, when, wrong } from './check.ts';

/** Least wood under the nut (common practice, no source). */
const LEAST_LEFT = 1;
/** A seat must be this deep at the board's edge at least, or the nut does not stand in it there. */
const LEAST_AT_EDGE = 0.5;

const NEEDS = ['scale', 'frets', 'fingerboard', 'nut', 'bridge'] as const;

const seatLeavesWood = check(['fingerboard', 'nut'], ({ fingerboard: { thickness }, nut: { seat } }) => {
  if (seat === null) return [];
  const left = thickness - seat.depth;
  return when(left < LEAST_LEFT - HAIR, () =>
    wrong(
      'nut-seat-too-deep',
      'nut.seat.depth',
      `On a board ${mm(thickness)} thick ${leaves(left, `a ${seat.kind} of ${mm(seat.depth)}`)} under the nut.`,
      {
        allowed: `at most ${mm(thickness - LEAST_LEFT)}`,
        remedy: 'A shallower seat; or leave nut.seat out, and the nut stands before the board.',
      },
    ),
  );
});

const seatReachesEdge = check(NEEDS, (sections) => {
  const { seat, setForward } = sections.nut;
  if (seat === null) return [];
  const fall = Math.max(...[boardStart(sections), setForward].map((x) => edgeFall(sections, x)));
  return when(seat.depth < fall + LEAST_AT_EDGE - HAIR && Number.isFinite(fall), () =>
    wrong(
      'nut-seat-too-shallow',
      'nut.seat.depth',
      `The board falls away by ${mm(fall)} to its edges, so that a flat floor ${mm(seat.depth)} below its crest is ${mm(Math.max(0, seat.depth - fall))} deep there.`,
      { allowed: `at least ${mm(fall + LEAST_AT_EDGE)}`, remedy: 'A deeper seat or a larger radius.' },
    ),
  );
});

export const nutSeatChecks: readonly Check[] = [seatLeavesWood, seatReachesEdge];
