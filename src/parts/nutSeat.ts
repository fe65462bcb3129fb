import type { Vec } from '../geometry/types.ts';
import { add, leftNormal, scale, subtract, unit } from '../geometry/vec.ts';
import type { Layout } from '../layout/types.ts';
import type { SlotFeature } from './types.ts';

/** A ledge is cut this far past the board's nut end, so that no fin is left where the outline is cut. */
const PAST_END = 1;
/** Past the board's edges, beyond where the round cutter has its full width. */
const PAST_EDGE = 1;

/**
 * The slot or ledge that the nut stands in, from edge to edge with a flat floor. A ledge is a slot whose other wall lies in the
 * waste. `crest`: height of the finished board's crest.
 */
export function nutSeatFeatures({ nutSeat }: Layout, crest: number): SlotFeature[] {
  if (nutSeat === null) return [];
  const { kind, front, back, depth } = nutSeat;
  const along = unit(subtract(front[1], front[0]));
  // From the front wall back toward the nut's end of the board: toward lesser x whichever hand.
  const normal = leftNormal(along);
  const behind = normal[0] < 0 ? normal : scale(normal, -1);
  const length = dot(subtract(back[0], front[0]), behind);
  const width = length + (kind === 'ledge' ? PAST_END : 0);
  const middle = (end: Vec): Vec => add(end, scale(behind, width / 2));
  // A cutter is no wider than the slot, and the board's edges and the slot's ends are not quite parallel.
  const lean = Math.abs(along[0] / along[1]);
  const runOut = (width / 2) * (1 + lean) + PAST_EDGE;
  return [
    {
      id: 'nut-seat',
      work: 'nutSeat',
      kind: 'slot',
      line: [middle(front[0]), middle(front[1])],
      width,
      floor: { kind: 'plane', z: crest - depth },
      runOut: [runOut, runOut],
      ...(kind === 'ledge'
        ? { ledge: normal[0] < 0 ? ('wall on the right' as const) : ('wall on the left' as const) }
        : {}),
    },
  ];
}

function dot(a: Vec, b: Vec): number {
  return a[0] * b[0] + a[1] * b[1];
}
