/**
 * How long a string is, open and pressed.
 *
 * Anderson & Beausoleil (2024) for the parts: L0 open, Ln from fret to saddle, L'n from fret over the finger to the nut.
 * Beyond their model: relief, a press deeper than the straight run, and frets behind the finger that carry the string.
 */
import type { SetUp } from './types.ts';

/** Length of a slanted run. Plain roots: nothing here comes near overflow, and this is worked out a million times. */
const slanted = (along: number, up: number): number => Math.sqrt(along * along + up * up);

/** Height of the string's underside at the saddle, above the plane. */
export const saddleHeightAt = (setUp: SetUp, setBack: number): number =>
  setUp.saddleHeight + setUp.saddleSlope * setBack;

/** Nut to saddle. */
export function openLength(setUp: SetUp, setBack: number): number {
  const along = setUp.scale + setBack - setUp.nutForward;
  return slanted(along, saddleHeightAt(setUp, setBack) - setUp.nutHeight);
}

/** Fret to saddle; `fret` counts from 0 here and below. */
export function soundingLength(setUp: SetUp, fret: number, setBack: number): number {
  const along = setUp.scale + setBack - at(setUp.frets, fret);
  return slanted(along, saddleHeightAt(setUp, setBack) + at(setUp.drops, fret));
}

/** From the fret down to the finger and over the frets behind it to the nut. */
export function restLength(setUp: SetUp, fret: number, setBack: number): number {
  const x = at(setUp.frets, fret);
  const top = -at(setUp.drops, fret);
  const behind = at(setUp.fingerBehind, fret);
  const slope = (saddleHeightAt(setUp, setBack) - top) / (setUp.scale + setBack - x);
  const below = Math.min(slope * behind + setUp.press, setUp.crownHeight);
  return slanted(behind, below) + tautToNut(setUp, fret, x - behind, top - below);
}

/** Length of a taut string from a point to the nut, over the tops of the frets that lie in between. */
function tautToNut(setUp: SetUp, fret: number, fromX: number, fromZ: number): number {
  let x = fromX;
  let z = fromZ;
  let length = 0;
  let next = setUp.restsOnFrets ? fret - 1 : -1;
  while (next >= 0) {
    const touched = highestSeen(setUp, next, x, z);
    if (touched < 0) break;
    const tx = at(setUp.frets, touched);
    const tz = -at(setUp.drops, touched);
    length += slanted(x - tx, tz - z);
    x = tx;
    z = tz;
    next = touched - 1;
  }
  return length + slanted(x - setUp.nutForward, setUp.nutHeight - z);
}

/** The fret at or below index `last` that stands highest above the line of sight, or -1 when the nut does. */
function highestSeen(setUp: SetUp, last: number, x: number, z: number): number {
  let best = (setUp.nutHeight - z) / (x - setUp.nutForward);
  let touched = -1;
  for (let k = last; k >= 0; k -= 1) {
    const away = x - at(setUp.frets, k);
    const up = -at(setUp.drops, k) - z;
    if (away > 0 && up > best * away) {
      best = up / away;
      touched = k;
    }
  }
  return touched;
}

function at(list: ArrayLike<number>, index: number): number {
  const value = list[index];
  if (value === undefined) throw new Error(`no fret ${index + 1} among ${list.length}`);
  return value;
}
