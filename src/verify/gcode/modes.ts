import {
  G_COMPENSATION,
  G_DISTANCE,
  G_FEED_MODE,
  G_MOTION,
  G_NONMODAL,
  G_PATH,
  G_PLANE,
  G_RETURN,
  G_UNITS,
  M_SPINDLE,
  M_TOOL,
  nameOfG,
} from './codes.ts';
import { emitDwell } from './emit.ts';
import { BIT_F, BIT_H, BIT_P, BIT_S, BIT_T, INDEX_F, INDEX_P, INDEX_S, INDEX_T } from './letters.ts';
import { gCodeOf, type LineWords, mCodeOf, wordValue } from './lineWords.ts';
import { setToolLength, setWorkOffset } from './offsets.ts';
import { dropSticky, KNOWN, MM_PER_INCH, type Reading, readAfresh, secondsPerDwell } from './reading.ts';
import { refuse } from './refusals.ts';
import { requireModes } from './requirements.ts';
import type { Plane } from './types.ts';

/** Everything on a line that comes before its motion, in the order of NISTIR 6556, table 8. */
export function applyModes(reading: Reading, words: LineWords): void {
  const modes = words.gGroups & ~(1 << G_MOTION);
  if (modes === 0 && words.mGroups === 0) {
    // Most lines: a motion and perhaps a feed.
    if (words.letters & BIT_F) setFeed(reading, words);
    if (words.letters & (BIT_S | BIT_T)) setSpeedAndTool(reading, words);
    if (words.letters & BIT_H) setToolLength(reading, words);
    return;
  }
  setFeedMode(reading, words);
  setFeed(reading, words);
  setSpeedAndTool(reading, words);
  changeTool(reading, words);
  turnSpindle(reading, words);
  dwell(reading, words);
  setPlane(reading, words);
  setUnits(reading, words);
  if (gCodeOf(words, G_COMPENSATION) >= 0) reading.known |= KNOWN.compensation;
  setToolLength(reading, words);
  setWorkOffset(reading, words);
  setPathControl(reading, words);
  setDistanceMode(reading, words);
  setReturnLevel(reading, words);
}

/**
 * G93, G94. The report does not say what becomes of F; some controls drop it, even when the word only repeats the mode.
 * So it counts as unknown until F is written again.
 */
function setFeedMode(reading: Reading, words: LineWords): void {
  const code = gCodeOf(words, G_FEED_MODE);
  if (code < 0) return;
  reading.inverseTime = code === 930;
  reading.known |= KNOWN.feedMode;
  // In inverse time each line is asked for its own F.
  if (reading.inverseTime) reading.known |= KNOWN.feed;
  else reading.known &= ~KNOWN.feed;
}

/** F comes before G20 and G21 in table 8, so on a line that changes the units its meaning depends on the control. */
export function setFeed(reading: Reading, words: LineWords): void {
  const changes = changesUnits(reading, words);
  if (changes && !reading.inverseTime) reading.known &= ~KNOWN.feed;
  if (!(words.letters & BIT_F)) return;
  reading.used |= BIT_F;
  const given = wordValue(words, INDEX_F);
  if (!(given > 0)) refuse(reading.refusals, 'feed-range', `F${given}`, 'A feed above 0.');
  if (changes && !reading.inverseTime) {
    refuse(reading.refusals, 'feed-unclear', 'F on the line that sets the units', 'Write F on a later line.');
  }
  reading.feed = reading.inverseTime ? given : given * reading.scale;
  reading.known |= KNOWN.feed;
}

function setSpeedAndTool(reading: Reading, words: LineWords): void {
  setSpeed(reading, words);
  selectTool(reading, words);
}

function setSpeed(reading: Reading, words: LineWords): void {
  if (!(words.letters & BIT_S)) return;
  reading.used |= BIT_S;
  const given = wordValue(words, INDEX_S);
  if (!(given >= 0)) refuse(reading.refusals, 'speed-range', `S${given}`, 'A speed of 0 or more.');
  if (reading.turning && given !== reading.speed) reading.starts += 1;
  reading.speed = given;
  reading.known |= KNOWN.speed;
}

function selectTool(reading: Reading, words: LineWords): void {
  if (!(words.letters & BIT_T)) return;
  reading.used |= BIT_T;
  const given = wordValue(words, INDEX_T);
  // Where M6 changes tools, T alone says which comes next. Where nothing does, some controls stop and ask for it, or turn to it.
  if (!reading.understands.toolChange && mCodeOf(words, M_TOOL) < 0) {
    refuse(reading.refusals, 'tool-alone', `T${given}`, 'The control changes no tools. Take it out.');
  }
  if (given >= 0 && Number.isInteger(given)) {
    reading.selectedTool = given;
    reading.toolsNamed.add(given);
  } else refuse(reading.refusals, 'tool-range', `T${given}`, 'A whole number, 0 or more.');
}

/** M6 stops the spindle and puts in the tool that T named last (NISTIR 6556, 3.6.3). */
function changeTool(reading: Reading, words: LineWords): void {
  if (mCodeOf(words, M_TOOL) < 0) return;
  if (!reading.understands.toolChange) {
    refuse(
      reading.refusals,
      'not-understood',
      'M6',
      'The control changes no tools. One program for each tool.',
    );
  }
  if (reading.selectedTool < 0) {
    refuse(reading.refusals, 'mode-not-set', 'M6 before a tool is named', 'Write T before or with M6.');
  }
  reading.tool = reading.selectedTool;
  reading.toolChanges.push({ line: reading.refusals.line, tool: reading.tool, spindleOn: reading.turning });
  reading.turning = false;
  if (reading.understands.afreshAfterTool) readAfresh(reading);
}

function turnSpindle(reading: Reading, words: LineWords): void {
  const code = mCodeOf(words, M_SPINDLE);
  if (code < 0) return;
  if (code !== 5) requireModes(reading, KNOWN.speed, `M${code}`);
  if (code !== 5 && !reading.turning) reading.starts += 1;
  reading.turning = code !== 5;
}

function dwell(reading: Reading, words: LineWords): void {
  if (gCodeOf(words, G_NONMODAL) < 0) return;
  reading.used |= BIT_P;
  const seconds = words.letters & BIT_P ? wordValue(words, INDEX_P) * secondsPerDwell(reading) : Number.NaN;
  if (seconds >= 0) emitDwell(reading, seconds);
  else refuse(reading.refusals, 'dwell', 'G4 without a P of 0 or more', 'G4 P and the time.');
}

const PLANE_OF: Readonly<Record<number, Plane>> = { 170: 'xy', 180: 'xz', 190: 'yz' };

function setPlane(reading: Reading, words: LineWords): void {
  const code = gCodeOf(words, G_PLANE);
  if (code < 0) return;
  const plane = PLANE_OF[code];
  if (plane === undefined) throw new Error(`G code ${code} in the group of planes`);
  if (plane !== 'xy' && !reading.understands.arcPlanes.includes(plane)) {
    refuse(reading.refusals, 'not-understood', nameOfG(code), 'The control makes no arcs in this plane.');
  }
  if (plane !== reading.plane) {
    dropSticky(reading);
    reading.cycleLevel = Number.NaN;
  }
  reading.plane = plane;
  reading.known |= KNOWN.plane;
}

/** True when the line sets the units for the first time, or to others. */
function changesUnits(reading: Reading, words: LineWords): boolean {
  const code = gCodeOf(words, G_UNITS);
  return code >= 0 && (scaleOf(code) !== reading.scale || !(reading.known & KNOWN.units));
}

function scaleOf(code: number): number {
  return code === 200 ? MM_PER_INCH : 1;
}

function setUnits(reading: Reading, words: LineWords): void {
  const code = gCodeOf(words, G_UNITS);
  if (code < 0) return;
  const scale = scaleOf(code);
  // The report does not say in which units a sticky number of a cycle is kept.
  if (scale !== reading.scale) dropSticky(reading);
  reading.scale = scale;
  reading.known |= KNOWN.units;
}

function setPathControl(reading: Reading, words: LineWords): void {
  const code = gCodeOf(words, G_PATH);
  if (code < 0) return;
  if (!reading.understands.exactPath) {
    refuse(reading.refusals, 'not-understood', nameOfG(code), 'The control has no word for path control.');
  }
  reading.exactPath = code === 610;
}

function setDistanceMode(reading: Reading, words: LineWords): void {
  const code = gCodeOf(words, G_DISTANCE);
  if (code < 0) return;
  reading.absolute = code === 900;
  reading.known |= KNOWN.distance;
}

function setReturnLevel(reading: Reading, words: LineWords): void {
  const code = gCodeOf(words, G_RETURN);
  if (code < 0) return;
  reading.returnToStart = code === 980;
  reading.known |= KNOWN.returnLevel;
}
