import { INDEX_X } from './letters.ts';
import { AXIS_KNOWN, AXIS_LOST, AXIS_UNSET, type Reading } from './reading.ts';
import type { Motion } from './types.ts';

/** Hands the record to the sink as a straight move from the position to the target; nothing when nothing moves. */
export function emitStraight(reading: Reading, kind: 'rapid' | 'feed', feed: number): void {
  const { motion, position, target } = reading;
  if (target[0] === position[0] && target[1] === position[1] && target[2] === position[2]) return;
  motion.kind = kind;
  motion.feed = feed;
  clearArc(motion);
  send(reading);
}

/** Hands the record, whose arc fields are set, to the sink. */
export function emitArc(reading: Reading, feed: number): void {
  const { motion } = reading;
  motion.kind = 'arc';
  motion.feed = feed;
  send(reading);
}

/** Standing still for a time. */
export function emitDwell(reading: Reading, seconds: number): void {
  const { motion, position, target } = reading;
  target.set(position);
  motion.kind = 'dwell';
  motion.feed = 0;
  clearArc(motion);
  motion.seconds = seconds;
  send(reading);
  motion.seconds = 0;
}

function clearArc(motion: Motion): void {
  motion.centreX = 0;
  motion.centreY = 0;
  motion.centreZ = 0;
  motion.radius = 0;
  motion.sweep = 0;
}

function send(reading: Reading): void {
  const { motion, position, target } = reading;
  motion.line = reading.refusals.line;
  motion.plane = reading.plane;
  motion.fromX = position[0] as number;
  motion.fromY = position[1] as number;
  motion.fromZ = position[2] as number;
  motion.toX = target[0] as number;
  motion.toY = target[1] as number;
  motion.toZ = target[2] as number;
  motion.spindleOn = reading.turning && reading.speed > 0;
  motion.spindle = motion.spindleOn ? reading.speed : 0;
  motion.spindleStarts = reading.starts;
  motion.tool = reading.tool;
  motion.exactPath = reading.exactPath;
  motion.cycle = reading.cycle;
  position[0] = motion.toX;
  position[1] = motion.toY;
  position[2] = motion.toZ;
  reading.motions++;
  reading.sink(motion);
}

/** Length of the straight move from the position to the target, mm. */
export function straightLength(reading: Reading): number {
  const { position, target } = reading;
  const x = (target[0] as number) - (position[0] as number);
  const y = (target[1] as number) - (position[1] as number);
  const z = (target[2] as number) - (position[2] as number);
  return Math.sqrt(x * x + y * y + z * z);
}

/** True when the place of no axis was lost to a refused line. */
export function placeIsSure(reading: Reading): boolean {
  const { axes } = reading;
  return axes[0] !== AXIS_LOST && axes[1] !== AXIS_LOST && axes[2] !== AXIS_LOST;
}

/** After a refused move the axes it named stand nobody knows where, until an absolute word names them again. */
export function loseAxes(reading: Reading, axisLetters: number): void {
  for (let axis = 0; axis < 3; axis++) {
    if (axisLetters & (1 << (INDEX_X + axis))) reading.axes[axis] = AXIS_LOST;
  }
}

/** Takes over the target without a motion, for a move that was refused. */
export function jumpToTarget(reading: Reading): void {
  reading.position.set(reading.target);
}

export function isUnset(reading: Reading, axis: number): boolean {
  return reading.axes[axis] === AXIS_UNSET;
}

export function setKnown(reading: Reading, axis: number): void {
  reading.axes[axis] = AXIS_KNOWN;
}
