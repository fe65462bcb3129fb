/**
 * What a careful builder looks at before cutting: distances between everything that is cut into a board.
 *
 * In: a Layout and its Instrument. Out: findings, none of them a fault of ours. Frame: that of the layout. Millimetres.
 */
import type { Polygon } from '../geometry/area.ts';
import type { Layout } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';

export interface Board {
  readonly layout: Layout;
  readonly instrument: Instrument;
  readonly cuts: readonly Cut[];
}

/** Something cut into the board, seen from above. */
export interface Cut {
  readonly id: string;
  readonly kind: 'slot' | 'pocket' | 'pin' | 'side hole';
  /** In words, as `the slot of fret 7`. */
  readonly name: string;
  readonly outline: Polygon;
  /** What it leaves standing inside its outline, as in the middle of a ring. */
  readonly islands: readonly Polygon[];
  /** Field of the profile to change. */
  readonly path: string;
}
