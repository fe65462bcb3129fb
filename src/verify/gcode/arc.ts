import { emitArc, jumpToTarget } from './emit.ts';
import { BIT_R, BITS_IJK, BITS_XYZ, INDEX_I, INDEX_R, letterName, letterNames } from './letters.ts';
import { type LineWords, wordValue } from './lineWords.ts';
import { type ArcWork, MM_PER_INCH, type PlaneAxes, planeAxes, type Reading } from './reading.ts';
import { refuse } from './refusals.ts';
import { FOR_ARC, requireModes } from './requirements.ts';
import { feedIsGiven, feedOver, resolveTarget } from './target.ts';

/** Start and end may differ this much in their distance from the centre (NISTIR 6556, 3.5.3.2). */
const MISMATCH_MM = 0.002;
const MISMATCH_INCH = 0.0002 * MM_PER_INCH;
/** Far below the last digit of any program, far above the noise of adding doubles. */
const SAME_PLACE = 1e-6;
const NOISE = 1e-9;
const FULL_TURN = 2 * Math.PI;

/** G2 and G3 in the plane in force, centre or radius format, circular or helical (NISTIR 6556, 3.5.3). */
export function moveArc(reading: Reading, words: LineWords, clockwise: boolean): void {
  requireModes(reading, FOR_ARC, clockwise ? 'G2' : 'G3');
  reading.used |= BITS_XYZ | BITS_IJK | BIT_R;
  const axes = planeAxes(reading.plane);
  const sure = resolveTarget(reading, words, true);
  const good =
    wordsAreGood(reading, words, axes) &&
    feedIsGiven(reading, words) &&
    sure &&
    (words.letters & BIT_R
      ? radiusFormat(reading, words, axes, clockwise)
      : centreFormat(reading, words, axes, clockwise));
  if (!good) {
    jumpToTarget(reading);
    return;
  }
  writeArc(reading, axes);
  const { arc } = reading;
  const along = (reading.target[axes.normal] as number) - (reading.position[axes.normal] as number);
  emitArc(reading, feedOver(reading, length(arc.radius * arc.sweep, along)));
}

function wordsAreGood(reading: Reading, words: LineWords, axes: PlaneAxes): boolean {
  const { letters } = words;
  const offsets = letters & BITS_IJK;
  const stray = offsets & (1 << (INDEX_I + axes.normal));
  const byRadius = (letters & BIT_R) !== 0;
  if (!reading.understands.arcPlanes.includes(reading.plane)) {
    return badArc(
      reading,
      'not-understood',
      `an arc in ${reading.plane}`,
      'The control makes no arcs in this plane.',
    );
  }
  if ((letters & axes.axisBits) !== 0 && stray === 0 && byRadius === (offsets === 0)) return true;
  return badArc(reading, 'arc-words', wrongWords(letters, axes), rightWords(axes));
}

function wrongWords(letters: number, axes: PlaneAxes): string {
  const offsets = letters & BITS_IJK;
  if (!(letters & axes.axisBits)) return `an arc without ${letterNames(axes.axisBits)}`;
  if (letters & BIT_R && offsets) return `R with ${letterNames(offsets)}`;
  if (offsets === 0) return 'an arc without a centre or a radius';
  return `${letterName(INDEX_I + axes.normal)} for an arc in another plane`;
}

function rightWords(axes: PlaneAxes): string {
  const offsets = letterNames(BITS_IJK & ~(1 << (INDEX_I + axes.normal)));
  return `At least one of ${letterNames(axes.axisBits)}, with at least one of ${offsets}, or with R alone.`;
}

function takeEnds(reading: Reading, axes: PlaneAxes): ArcWork {
  const { arc } = reading;
  arc.a0 = reading.position[axes.first] as number;
  arc.b0 = reading.position[axes.second] as number;
  arc.a1 = reading.target[axes.first] as number;
  arc.b1 = reading.target[axes.second] as number;
  return arc;
}

/** Centre as an offset from the start, in either distance mode. */
function centreFormat(reading: Reading, words: LineWords, axes: PlaneAxes, clockwise: boolean): boolean {
  const arc = takeEnds(reading, axes);
  arc.ca = arc.a0 + offset(words, axes.first) * reading.scale;
  arc.cb = arc.b0 + offset(words, axes.second) * reading.scale;
  const endRadius = length(arc.a1 - arc.ca, arc.b1 - arc.cb);
  arc.radius = length(arc.a0 - arc.ca, arc.b0 - arc.cb);
  if (arc.radius < SAME_PLACE)
    return badArc(reading, 'arc-radius', 'a radius of 0', 'A centre off the start.');
  const limit = reading.scale === 1 ? MISMATCH_MM : MISMATCH_INCH;
  if (!(Math.abs(arc.radius - endRadius) <= limit + NOISE)) {
    const found = `start ${show(arc.radius)} and end ${show(endRadius)} mm from the centre`;
    return badArc(reading, 'arc-radius', found, `They differ by at most ${show(limit)} mm.`);
  }
  return takeSweep(reading, arc, clockwise);
}

/** Turn from the start to the end about the centre; a full turn when they are one place. */
function takeSweep(reading: Reading, arc: ArcWork, clockwise: boolean): boolean {
  if (length(arc.a1 - arc.a0, arc.b1 - arc.b0) < SAME_PLACE) {
    arc.sweep = clockwise ? -FULL_TURN : FULL_TURN;
    return true;
  }
  const startA = arc.a0 - arc.ca;
  const startB = arc.b0 - arc.cb;
  const endA = arc.a1 - arc.ca;
  const endB = arc.b1 - arc.cb;
  const turn = Math.atan2(startA * endB - startB * endA, startA * endA + startB * endB);
  if (Math.abs(turn) * arc.radius < SAME_PLACE) {
    const allowed = 'Whether this is no turn or a full one is not clear. End a full circle where it starts.';
    return badArc(reading, 'arc-unclear', 'an end in line with the start', allowed);
  }
  if (clockwise) arc.sweep = turn > 0 ? turn - FULL_TURN : turn;
  else arc.sweep = turn < 0 ? turn + FULL_TURN : turn;
  return true;
}

/** Radius, positive for at most half a turn and negative for more (NISTIR 6556, 3.5.3.1). */
function radiusFormat(reading: Reading, words: LineWords, axes: PlaneAxes, clockwise: boolean): boolean {
  const arc = takeEnds(reading, axes);
  const given = wordValue(words, INDEX_R) * reading.scale;
  const chordA = arc.a1 - arc.a0;
  const chordB = arc.b1 - arc.b0;
  const half = length(chordA, chordB) / 2;
  if (half < SAME_PLACE) {
    return badArc(
      reading,
      'arc-radius',
      'R with an end at the start',
      'A full circle is written with its centre.',
    );
  }
  const limit = reading.scale === 1 ? MISMATCH_MM : MISMATCH_INCH;
  if (half - Math.abs(given) > limit) {
    const found = `R ${show(given)} mm over a chord of ${show(2 * half)} mm`;
    return badArc(reading, 'arc-radius', found, 'A radius of at least half the chord.');
  }
  arc.radius = Math.max(Math.abs(given), half);
  const long = given < 0;
  const height = Math.sqrt(arc.radius * arc.radius - half * half);
  // The centre of a short clockwise arc lies to the right of the chord; each of the two words moves it across.
  const side = clockwise === long ? height : -height;
  arc.ca = (arc.a0 + arc.a1) / 2 - (side * chordB) / (2 * half);
  arc.cb = (arc.b0 + arc.b1) / 2 + (side * chordA) / (2 * half);
  const short = 2 * Math.asin(half / arc.radius);
  const turn = long ? FULL_TURN - short : short;
  arc.sweep = clockwise ? -turn : turn;
  return true;
}

function writeArc(reading: Reading, axes: PlaneAxes): void {
  const { motion, arc } = reading;
  motion.radius = arc.radius;
  motion.sweep = arc.sweep;
  motion.centreX = inAxis(arc, axes, 0);
  motion.centreY = inAxis(arc, axes, 1);
  motion.centreZ = inAxis(arc, axes, 2);
}

function inAxis(arc: ArcWork, axes: PlaneAxes, axis: number): number {
  if (axis === axes.first) return arc.ca;
  return axis === axes.second ? arc.cb : 0;
}

/** Faster than Math.hypot, and exact enough for numbers that are kept in range. */
function length(a: number, b: number): number {
  return Math.sqrt(a * a + b * b);
}

function offset(words: LineWords, axis: number): number {
  const letter = INDEX_I + axis;
  return words.letters & (1 << letter) ? wordValue(words, letter) : 0;
}

function badArc(reading: Reading, rule: string, found: string, allowed: string): false {
  refuse(reading.refusals, rule, found, allowed);
  return false;
}

/** Four decimals, enough to compare with the limits. */
function show(value: number): string {
  return String(Number(value.toFixed(5)));
}
