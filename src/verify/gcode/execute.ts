import { moveArc } from './arc.ts';
import { G_MOTION, G_NONMODAL, M_STOP, nameOfG } from './codes.ts';
import { drillCycle } from './cycle.ts';
import { loseAxes } from './emit.ts';
import { BIT_F, BIT_P, BITS_XYZ, letterNames } from './letters.ts';
import { gCodeOf, type LineWords, mCodeOf } from './lineWords.ts';
import { applyModes, setFeed } from './modes.ts';
import { dropSticky, MOTION_REFUSED, type Reading } from './reading.ts';
import { refuse } from './refusals.ts';
import { moveStraight } from './target.ts';

/** Letters of a straight move. */
const STRAIGHT = BITS_XYZ | BIT_F;
const CANCEL = 800;
const FIRST_CYCLE = 810;

/** Carries out one line that was read: modes, motion, stop. */
export function executeLine(reading: Reading, words: LineWords): void {
  reading.used = 0;
  applyModes(reading, words);
  setMotion(reading, words);
  perform(reading, words);
  if (mCodeOf(words, M_STOP) >= 0) reading.ended = true;
}

/**
 * Carries out a line that `quickLine` read: the same as `executeLine`, without looking for what such a line cannot hold.
 */
export function executePlain(reading: Reading, words: LineWords): void {
  const given = words.gGroups === 0 ? reading.motionCode : (words.gCodes[G_MOTION] as number);
  const isStraight = given === 0 || given === 10;
  if (!isStraight || (words.letters & ~STRAIGHT) !== 0 || (words.letters & BITS_XYZ) === 0) {
    executeLine(reading, words);
    return;
  }
  if (words.letters & BIT_F) setFeed(reading, words);
  setMotion(reading, words);
  moveStraight(reading, words, given === 10);
}

function setMotion(reading: Reading, words: LineWords): void {
  const given = gCodeOf(words, G_MOTION);
  if (given < 0) {
    if (words.modeTaken) reading.motionCode = MOTION_REFUSED;
    return;
  }
  if (given !== reading.motionCode) dropSticky(reading);
  if (given < FIRST_CYCLE) reading.cycleLevel = Number.NaN;
  reading.motionCode = given;
}

function perform(reading: Reading, words: LineWords): void {
  const named = words.letters & BITS_XYZ;
  if (words.broken || words.axesTaken) {
    loseAxes(reading, words.broken ? BITS_XYZ : named);
    return;
  }
  if (named !== 0) move(reading, words);
  else refuseIdleMotion(reading, words);
  const unused = words.letters & ~reading.used;
  if (unused !== 0 && reading.motionCode !== MOTION_REFUSED) {
    const found = letterNames(unused);
    refuse(reading.refusals, 'word-unused', found, 'Nothing on this line uses it. Take it out.');
  }
}

function move(reading: Reading, words: LineWords): void {
  const code = reading.motionCode;
  if (code === 0 || code === 10) moveStraight(reading, words, code === 10);
  else if (code === 20 || code === 30) moveArc(reading, words, code === 20);
  else if (code >= FIRST_CYCLE) drill(reading, words);
  else {
    reading.used |= BITS_XYZ;
    loseAxes(reading, words.letters);
    if (code === MOTION_REFUSED) return;
    const found = `${letterNames(words.letters & BITS_XYZ)} with no motion word in force`;
    refuse(
      reading.refusals,
      'motion-not-set',
      found,
      'Write G0, G1, G2, G3 or a drill cycle with the axis words.',
    );
  }
}

function drill(reading: Reading, words: LineWords): void {
  if (gCodeOf(words, G_NONMODAL) >= 0 && words.letters & BIT_P) {
    refuse(reading.refusals, 'dwell', 'G4 in a drill cycle', 'Write G4 on its own line: P would serve both.');
  }
  drillCycle(reading, words);
}

/** A motion word asks for axis words (NISTIR 6556, 3.5.1 to 3.5.3 and 3.5.16); G80 does not. */
function refuseIdleMotion(reading: Reading, words: LineWords): void {
  const given = gCodeOf(words, G_MOTION);
  if (given < 0 || given === CANCEL) return;
  refuse(reading.refusals, 'axis-missing', nameOfG(given), 'At least one of X, Y, Z on the line.');
}
