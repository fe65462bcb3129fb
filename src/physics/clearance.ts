/** How high a string runs over the frets, and how far it may swing before it buzzes on one. */
import { saddleHeightAt } from './frettedLength.ts';
import type { SetUp } from './types.ts';

/** Underside of the open string over each fret's top, first fret first, mm. */
export function openHeights(setUp: SetUp, setBack: number): number[] {
  const saddle = setUp.scale + setBack;
  const rise = (saddleHeightAt(setUp, setBack) - setUp.nutHeight) / (saddle - setUp.nutForward);
  return Array.from(
    setUp.frets,
    (x, i) => setUp.nutHeight + rise * (x - setUp.nutForward) + (setUp.drops[i] ?? 0),
  );
}

/** The widest swing of one note that touches no fret. */
export interface Swing {
  /** Stopped at this fret; 0 is the open string. */
  readonly stoppedAt: number;
  /** How far the string may be drawn at the plucking point, mm; negative: it lies on a fret before it is plucked. */
  readonly room: number;
  /** The fret that it would touch first; null when no fret lies under the sounding part. */
  readonly touches: number | null;
}

/**
 * For the open string and each fret, how far the string may be drawn aside, `pluckAt` mm before the saddle, and let go
 * toward the frets.
 *
 * An ideal plucked string swings inside a parallelogram: the triangle it was drawn to and the same triangle turned end for
 * end (Helmholtz and Young, in any textbook on acoustics). Drawn up or down, its lowest place at x is the larger of the two
 * triangles' depths there. The string is straight between its ends; its own stiffness and its stretch narrow the swing, so
 * the room is a little more than this.
 */
export function swings(setUp: SetUp, setBack: number, pluckAt: number): Swing[] {
  return [...Array(setUp.frets.length + 1).keys()].map((stop) => swingOf(setUp, setBack, pluckAt, stop));
}

function swingOf(setUp: SetUp, setBack: number, pluckAt: number, stoppedAt: number): Swing {
  const saddle = { x: setUp.scale + setBack, z: saddleHeightAt(setUp, setBack) };
  const stop =
    stoppedAt === 0
      ? { x: setUp.nutForward, z: setUp.nutHeight }
      : { x: setUp.frets[stoppedAt - 1] ?? 0, z: -(setUp.drops[stoppedAt - 1] ?? 0) };
  const length = saddle.x - stop.x;
  const pluck = Math.max(0.5, 1 - pluckAt / length);
  let best: Swing = { stoppedAt, room: Number.POSITIVE_INFINITY, touches: null };
  for (let k = stoppedAt; k < setUp.frets.length; k += 1) {
    const u = ((setUp.frets[k] ?? 0) - stop.x) / length;
    if (u <= 0) continue;
    const clear = stop.z + (saddle.z - stop.z) * u + (setUp.drops[k] ?? 0);
    const room = clear / Math.max(triangle(u, pluck), triangle(u, 1 - pluck));
    if (room < best.room) best = { stoppedAt, room, touches: k + 1 };
  }
  return best;
}

/** Depth at `u` of a triangle of depth 1 at `peak`, both as shares of the length. */
const triangle = (u: number, peak: number): number => (u <= peak ? u / peak : (1 - u) / (1 - peak));
