import { emitDwell, emitStraight, isUnset, loseAxes, placeIsSure, setKnown } from './emit.ts';
import {
  BIT_L,
  BIT_P,
  BIT_Q,
  BIT_R,
  BITS_XYZ,
  INDEX_L,
  INDEX_P,
  INDEX_Q,
  INDEX_R,
  INDEX_X,
  letterName,
} from './letters.ts';
import { type LineWords, wordValue } from './lineWords.ts';
import { KNOWN, type PlaneAxes, planeAxes, type Reading, secondsPerDwell } from './reading.ts';
import { refuse } from './refusals.ts';
import { FOR_ARC, requireModes } from './requirements.ts';
import { refuseStart } from './target.ts';

/** How far above the last bottom a peck comes back at rapid: 0.010 inch in the interpreter that NIST published. */
const PECK_BACK_OFF = 0.254;
/** A last peck shorter than this is rounding, not a peck. */
const PECK_NOISE = 1e-9;
/** More repeats or pecks than this are a slip of the pen. */
const MOST_REPEATS = 10_000;

/** One drill line, worked out: levels along the axis of the hole and steps across it, mm. */
interface Hole {
  readonly axes: PlaneAxes;
  readonly bottom: number;
  readonly retract: number;
  readonly clear: number;
  readonly peck: number;
  readonly dwell: number;
  readonly repeats: number;
  /** Where the first hole is, and the step from each to the next. */
  readonly at: readonly [number, number];
  readonly step: readonly [number, number];
}

/**
 * G81, G82, G83 expanded into their moves (NISTIR 6556, 3.5.16): sticky numbers, L repeats, G98 and G99. Where the report
 * and interpreters in use are known to differ about the level to return to, the line is refused.
 */
export function drillCycle(reading: Reading, words: LineWords): void {
  const cycle = reading.motionCode / 10;
  const uses = (cycle === 82 ? BIT_P : 0) | (cycle === 83 ? BIT_Q : 0);
  reading.used |= BITS_XYZ | BIT_R | BIT_L | uses;
  requireModes(reading, FOR_ARC, `G${cycle}`);
  const sure = placeIsSure(reading);
  const hole = isAllowed(reading, words, cycle) ? holeOf(reading, words, cycle) : null;
  if (hole === null || !sure) {
    loseAxes(reading, words.letters);
    return;
  }
  reading.cycle = cycle;
  drillAll(reading, hole, cycle);
  reading.cycle = 0;
}

function isAllowed(reading: Reading, words: LineWords, cycle: number): boolean {
  if (!reading.understands.drillCycles) {
    return no(
      reading,
      'not-understood',
      `G${cycle}`,
      'The control has no drill cycles. Write the moves out.',
    );
  }
  if (reading.inverseTime) {
    return no(
      reading,
      'cycle-feed',
      `G${cycle} in inverse time`,
      'Drill cycles take a feed per minute: G94.',
    );
  }
  const repeats = words.letters & BIT_L ? wordValue(words, INDEX_L) : 1;
  if (!(repeats >= 1 && Number.isInteger(repeats))) {
    return no(reading, 'cycle-repeat', `L${repeats}`, 'A whole number of 1 or more.');
  }
  placeStart(reading, words);
  return true;
}

/** The hole's axis must stand at a stated place, and so must the other two unless this line sends them to one. */
function placeStart(reading: Reading, words: LineWords): void {
  const { first, second, normal } = planeAxes(reading.plane);
  for (const axis of [normal, first, second]) {
    const sent = axis !== normal && reading.absolute && words.letters & (1 << (INDEX_X + axis));
    if (sent) setKnown(reading, axis);
    else if (isUnset(reading, axis)) refuseStart(reading, axis);
  }
}

function no(reading: Reading, rule: string, found: string, rest: string): false {
  refuse(reading.refusals, rule, found, rest);
  return false;
}

function keep(words: LineWords, letter: number, scale: number, kept: number): number {
  return words.letters & (1 << letter) ? wordValue(words, letter) * scale : kept;
}

/** Takes the words over into the sticky numbers and works out the levels; null when something is missing or wrong. */
function holeOf(reading: Reading, words: LineWords, cycle: number): Hole | null {
  const { sticky, scale, absolute, position } = reading;
  const axes = planeAxes(reading.plane);
  sticky.bottom = keep(words, INDEX_X + axes.normal, scale, sticky.bottom);
  sticky.retract = keep(words, INDEX_R, scale, sticky.retract);
  sticky.peck = keep(words, INDEX_Q, scale, sticky.peck);
  sticky.dwell = keep(words, INDEX_P, secondsPerDwell(reading), sticky.dwell);
  if (!numbersAreGood(reading, axes, cycle)) return null;
  const here = position[axes.normal] as number;
  if (Number.isNaN(reading.cycleLevel)) reading.cycleLevel = here;
  const retract = absolute ? sticky.retract : here + sticky.retract;
  const bottom = absolute ? sticky.bottom : retract + sticky.bottom;
  if (retract < bottom) {
    no(reading, 'cycle-level', 'R below the bottom of the hole', 'R at or above the bottom.');
    return null;
  }
  if (!levelIsClear(reading, here, retract)) return null;
  const repeats = words.letters & BIT_L ? wordValue(words, INDEX_L) : 1;
  const pecks = cycle === 83 ? (retract - bottom) / sticky.peck : 1;
  if (repeats * pecks > MOST_REPEATS) {
    no(
      reading,
      'cycle-repeat',
      `${repeats * pecks} pecks or holes`,
      `At most ${MOST_REPEATS} from one line.`,
    );
    return null;
  }
  const clear = reading.returnToStart ? Math.max(here, retract) : retract;
  return {
    axes,
    bottom,
    retract,
    clear,
    peck: sticky.peck,
    dwell: sticky.dwell,
    repeats,
    ...across(reading, words, axes),
  };
}

function across(reading: Reading, words: LineWords, axes: PlaneAxes): Pick<Hole, 'at' | 'step'> {
  const { position, scale, absolute } = reading;
  const both = [axes.first, axes.second].map((axis) => {
    const here = position[axis] as number;
    const given = keep(words, INDEX_X + axis, scale, Number.NaN);
    if (Number.isNaN(given)) return [here, 0] as const;
    return absolute ? ([given, 0] as const) : ([here + given, given] as const);
  });
  const [[a, stepA], [b, stepB]] = both as [readonly [number, number], readonly [number, number]];
  return { at: [a, b], step: [stepA, stepB] };
}

function numbersAreGood(reading: Reading, axes: PlaneAxes, cycle: number): boolean {
  const { sticky } = reading;
  const depth = letterName(INDEX_X + axes.normal);
  if (Number.isNaN(sticky.bottom) || Number.isNaN(sticky.retract)) {
    const missing = Number.isNaN(sticky.bottom) ? depth : 'R';
    return no(
      reading,
      'cycle-words',
      `G${cycle} without ${missing}`,
      `${depth} and R in the first line of the cycle.`,
    );
  }
  if (cycle === 82 && !(sticky.dwell >= 0)) {
    return no(reading, 'cycle-words', 'G82 without a P of 0 or more', 'P and the seconds at the bottom.');
  }
  if (cycle === 83 && !(sticky.peck > 0)) {
    return no(reading, 'cycle-words', 'G83 without a Q above 0', 'Q and the depth of one peck.');
  }
  return true;
}

/**
 * In a row of cycles the report measures from where the axis stands; interpreters in use measure from where it stood
 * before the row. A line that the two read differently is refused, and so is a return level that nobody has set.
 */
function levelIsClear(reading: Reading, here: number, retract: number): boolean {
  const { cycleLevel, absolute, returnToStart } = reading;
  if (here > retract) requireModes(reading, KNOWN.returnLevel, 'a drill cycle');
  const moved = Math.abs(here - cycleLevel) > PECK_NOISE;
  const differs = absolute
    ? returnToStart && Math.max(here, retract) !== Math.max(cycleLevel, retract)
    : moved;
  if (!differs) return true;
  const found = 'a drill cycle that does not begin at the height where its row began';
  return no(reading, 'cycle-unclear', found, 'Write G80 and a G0 move to the clear height before this line.');
}

function drillAll(reading: Reading, hole: Hole, cycle: number): void {
  const { target, position } = reading;
  const { axes } = hole;
  target.set(position);
  if ((position[axes.normal] as number) < hole.retract) along(reading, axes, hole.retract, 'rapid');
  for (let n = 0; n < hole.repeats; n++) {
    target[axes.first] = hole.at[0] + n * hole.step[0];
    target[axes.second] = hole.at[1] + n * hole.step[1];
    emitStraight(reading, 'rapid', 0);
    along(reading, axes, hole.retract, 'rapid');
    if (cycle === 83) peckDown(reading, hole);
    along(reading, axes, hole.bottom, 'feed');
    if (cycle === 82) emitDwell(reading, hole.dwell);
    along(reading, axes, hole.clear, 'rapid');
  }
}

/** All pecks but the last: down one peck, out to clear, back to a little above the bottom. */
function peckDown(reading: Reading, hole: Hole): void {
  const { axes, peck, retract, bottom, clear } = hole;
  for (let n = 1; retract - n * peck > bottom + PECK_NOISE; n++) {
    const depth = retract - n * peck;
    along(reading, axes, depth, 'feed');
    along(reading, axes, clear, 'rapid');
    along(reading, axes, depth + PECK_BACK_OFF, 'rapid');
  }
}

function along(reading: Reading, axes: PlaneAxes, level: number, kind: 'rapid' | 'feed'): void {
  reading.target[axes.normal] = level;
  emitStraight(reading, kind, kind === 'feed' ? reading.feed : 0);
}
