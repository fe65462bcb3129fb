import { emitStraight, isUnset, jumpToTarget, placeIsSure, setKnown, straightLength } from './emit.ts';
import { BIT_F, BITS_XYZ, INDEX_X, letterName } from './letters.ts';
import type { LineWords } from './lineWords.ts';
import { AXIS_KNOWN, AXIS_LOST, type Reading } from './reading.ts';
import { refuse } from './refusals.ts';
import { FOR_FEED, FOR_RAPID, requireModes } from './requirements.ts';

const BIT_X = 1 << INDEX_X;
const BIT_Y = 2 << INDEX_X;
const BIT_Z = 4 << INDEX_X;

/**
 * Works out where the axis words lead, in mm, and returns false when that or the start is not known because an earlier
 * line was refused. `cutting` demands that the start is known too: X and Y always, Z when it is named (a beam has none).
 */
export function resolveTarget(reading: Reading, words: LineWords, cutting: boolean): boolean {
  if (!reading.absolute || !isAllKnown(reading.axes)) return findTarget(reading, words, cutting);
  setTarget(reading, words);
  return true;
}

function findTarget(reading: Reading, words: LineWords, cutting: boolean): boolean {
  const { position, target, axes, scale, absolute } = reading;
  const sure = placeIsSure(reading);
  for (let axis = 0; axis < 3; axis++) {
    const letter = INDEX_X + axis;
    const here = position[axis] as number;
    if (words.letters & (1 << letter)) {
      if ((cutting || !absolute) && isUnset(reading, axis)) refuseStart(reading, axis);
      const value = (words.values[letter] as number) * scale;
      target[axis] = absolute ? value : here + value;
      if (absolute || axes[axis] !== AXIS_LOST) axes[axis] = AXIS_KNOWN;
    } else {
      if (cutting && axis !== 2 && isUnset(reading, axis)) refuseStart(reading, axis);
      target[axis] = here;
    }
  }
  return sure;
}

function isAllKnown(axes: Uint8Array): boolean {
  return axes[0] === AXIS_KNOWN && axes[1] === AXIS_KNOWN && axes[2] === AXIS_KNOWN;
}

/** Nearly all lines: absolute words, nothing to be found wrong, nothing to be learnt. */
function setTarget({ position, target, scale }: Reading, { letters, values }: LineWords): void {
  target[0] = letters & BIT_X ? (values[INDEX_X] as number) * scale : (position[0] as number);
  target[1] = letters & BIT_Y ? (values[INDEX_X + 1] as number) * scale : (position[1] as number);
  target[2] = letters & BIT_Z ? (values[INDEX_X + 2] as number) * scale : (position[2] as number);
}

/** Refuses a move that begins wherever the axis happened to stand; once for each axis. */
export function refuseStart(reading: Reading, axis: number): void {
  const name = letterName(INDEX_X + axis);
  refuse(
    reading.refusals,
    'position-not-set',
    `a cut or an incremental move before ${name} has been sent to a place`,
    `Send ${name} to a stated place with G0 and G90 first.`,
  );
  setKnown(reading, axis);
}

/** G0 and G1 with at least one axis word. */
export function moveStraight(reading: Reading, words: LineWords, cutting: boolean): void {
  requireModes(reading, cutting ? FOR_FEED : FOR_RAPID, cutting ? 'G1' : 'G0');
  reading.used |= BITS_XYZ;
  const sure = resolveTarget(reading, words, cutting);
  if (cutting && !feedIsGiven(reading, words)) jumpToTarget(reading);
  else if (!sure) jumpToTarget(reading);
  else if (!cutting) emitStraight(reading, 'rapid', 0);
  // Only inverse time asks for the length, whose root takes a twentieth of the reading time.
  else if (reading.inverseTime) emitStraight(reading, 'feed', feedOver(reading, straightLength(reading)));
  else emitStraight(reading, 'feed', reading.feed);
}

/** In inverse time every cutting line carries its own F (NISTIR 6556, 3.5.19). */
export function feedIsGiven(reading: Reading, words: LineWords): boolean {
  if (!reading.inverseTime || words.letters & BIT_F) return true;
  refuse(
    reading.refusals,
    'feed-missing',
    'a cut in inverse time (G93) without F',
    'Write F on every such line.',
  );
  return false;
}

/** Feed along a path of this length, mm/min: F in inverse time is one over the minutes the move takes. */
export function feedOver(reading: Reading, length: number): number {
  return reading.inverseTime ? length * reading.feed : reading.feed;
}
