import type { Vec } from '../geometry/types.ts';
import type { Instrument, Tuners } from '../profile/types.ts';
import type { StringRun, TunerPost } from './neckTypes.ts';
import type { StringLine } from './types.ts';

/**
 * A post for every string, on a straight line on each side: the outer strings go to the posts next to the nut. Lines that splay keep
 * the distance between neighbours along themselves.
 */
export function layOutPosts(tuners: Tuners, strings: number, breakX: number): TunerPost[] {
  const bass = Array.from({ length: tuners.onBassSide }, (_, place) => ({ place, string: place + 1 }));
  const treble = Array.from({ length: strings - tuners.onBassSide }, (_, place) => ({
    place,
    string: strings - place,
  }));
  return [
    ...bass.map((post) => postAt(post, 'bass', bass.length, tuners, breakX)),
    ...treble.map((post) => postAt(post, 'treble', treble.length, tuners, breakX)),
  ].toSorted((a, b) => a.string - b.string);
}

function postAt(
  { place, string }: Pick<TunerPost, 'place' | 'string'>,
  side: TunerPost['side'],
  count: number,
  { first, apart, fromCentre, fromCentreLast }: Tuners,
  breakX: number,
): TunerPost {
  const out = count > 1 ? (fromCentreLast - fromCentre) / (count - 1) : 0;
  const along = Math.sqrt(apart * apart - out * out);
  const y = fromCentre + place * out;
  return {
    id: `tuner-${string}`,
    string,
    side,
    place,
    at: [breakX - first - place * along, side === 'bass' ? -y : y],
  };
}

/** Each string from the nut's face to its post, touching it on the side of the centreline. */
export function layOutRuns(
  { headstock, strings: gauges }: Instrument,
  posts: readonly TunerPost[],
  strings: readonly StringLine[],
  breakX: number,
): StringRun[] {
  if (headstock === null) return [];
  const cos = Math.cos(headstock.angle);
  return strings.flatMap((string): StringRun[] => {
    const post = posts.find((p) => p.string === string.position);
    if (post === undefined) return [];
    const gauge = gauges[string.position - 1]?.gauge ?? 0;
    // The nut's face as it is seen square to the head: the nut is so much nearer.
    const from: Vec = [breakX + (string.nut[0] - breakX) * cos, string.nut[1]];
    const to = tangent(from, post, headstock.tuners.post / 2 + gauge / 2);
    return [{ string: string.position, gauge, from, to, sideways: sidewaysOf(string, to, cos, breakX) }];
  });
}

/** Where a line from a point touches a circle, on the side that faces the centreline. */
function tangent(from: Vec, { at, side }: TunerPost, radius: number): Vec {
  const [dx, dy] = [at[0] - from[0], at[1] - from[1]];
  const far = Math.hypot(dx, dy);
  if (far <= radius) throw new Error(`a post ${far} mm from the nut and ${radius} mm thick`);
  const way = Math.sqrt(far * far - radius * radius);
  // Toward -x the centreline lies to the right of a string on the bass side, to the left of one on the treble side.
  const turn = (side === 'bass' ? -1 : 1) * Math.asin(radius / far);
  const [ux, uy] = [dx / far, dy / far];
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return [from[0] + way * (ux * cos - uy * sin), from[1] + way * (ux * sin + uy * cos)];
}

/** Between the string's run over the neck and its run to the post, both seen square to the neck. */
function sidewaysOf({ nut, saddle }: StringLine, to: Vec, cos: number, breakX: number): number {
  const over = Math.atan2(nut[1] - saddle[1], saddle[0] - nut[0]);
  const beyond = Math.atan2(to[1] - nut[1], nut[0] - (breakX + (to[0] - breakX) * cos));
  return Math.abs(beyond - over);
}
