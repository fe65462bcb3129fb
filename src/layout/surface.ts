import type { BoardSurface } from '../geometry/boardSurface.ts';
import type { Instrument } from '../profile/types.ts';
import { fretCarrier } from './scale.ts';
import type { StringLine } from './types.ts';

/**
 * The playing surface, its two stations at the nut face and at the body end. Matched: R(x) = R(nut) spread(x) / spread(nut), the
 * spread being the distance between the outer strings; then every string lies along a ruling of the cone.
 */
export function layOutSurface(
  instrument: Instrument,
  strings: readonly StringLine[],
  [from, to]: readonly [number, number],
): BoardSurface {
  const { radius, radiusAlong } = instrument.fingerboard;
  if (!Number.isFinite(radius)) return { kind: 'flat' };
  switch (radiusAlong.kind) {
    case 'constant':
      return { kind: 'cone', x: [from, to], R: [radius, radius] };
    case 'cone': {
      const x = radiusAlong.fret === null ? to : fretCarrier(instrument, radiusAlong.fret).at;
      const growth = (radiusAlong.radius - radius) / (x - from);
      return { kind: 'cone', x: [from, to], R: [radius, radius + growth * (to - from)] };
    }
    case 'matched':
      return {
        kind: 'cone',
        x: [from, to],
        R: [radius, (radius * spreadAt(strings, to)) / spreadAt(strings, from)],
      };
  }
}

/** Distance between the outer strings, square to the centreline. */
function spreadAt(strings: readonly StringLine[], x: number): number {
  const [first, last] = [strings[0], strings.at(-1)];
  if (first === undefined || last === undefined) throw new Error('a board without strings');
  return yAt(last, x) - yAt(first, x);
}

function yAt({ nut, saddle }: Pick<StringLine, 'nut' | 'saddle'>, x: number): number {
  return nut[1] + ((saddle[1] - nut[1]) * (x - nut[0])) / (saddle[0] - nut[0]);
}
