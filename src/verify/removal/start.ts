/** Nothing is taken on trust at the start: the same motions from every state a machine may have been left in. */
import type { Intent } from '../../intent/types.ts';
import type { Understands } from '../gcode/understands.ts';
import { at } from './at.ts';
import { breach, judge, judgeRule, keep, type Ledger, newRule } from './proof.ts';
import {
  firstDifference,
  isKnown,
  kindOf,
  lineOf,
  type Reader,
  recordTape,
  STARTS,
  speedOf,
  type Tape,
  toAxis,
} from './tape.ts';

/** Heights in the text are rounded by less than this. Millimetres. */
const ROUNDING = 1e-6;

/**
 * Reads the program from every start; writes `program reads` and `same from any start`. With `stopAtFirst` a program that is
 * refused from the first start is not read again.
 */
export function readFromAllStarts(
  read: Reader,
  bytes: Uint8Array,
  understands: Understands,
  ledger: Ledger,
  stopAtFirst: boolean,
): Tape {
  const first = recordTape(read, bytes, at(STARTS, 0), understands);
  ledger.refusals.push(...first.result.refusals);
  const reads = {
    value: first.result.refusals.length,
    place: null,
    line: firstLine(first),
    seen: first.result.lines,
  };
  judge(ledger, 'program reads', reads, 0);
  if (stopAtFirst && first.result.refusals.length > 0) return first;
  const same = newRule(
    'same from any start',
    'the same motions whatever units, plane, modes and place the machine was left in',
  );
  for (const start of STARTS.slice(1))
    compareTapes(ledger, same, first, recordTape(read, bytes, start, understands));
  judgeRule(ledger, same);
  return first;
}

function firstLine(tape: Tape): number {
  return tape.result.refusals[0]?.line ?? 0;
}

function compareTapes(ledger: Ledger, same: ReturnType<typeof newRule>, a: Tape, b: Tape): void {
  const differs = firstDifference(a, b);
  if (differs >= 0) {
    const tape = differs < a.count ? a : b;
    breach(
      ledger,
      same,
      'a motion that depends on the state before the program',
      lineOf(tape, differs),
      null,
    );
  } else if (b.result.refusals.length > a.result.refusals.length) {
    const more = at(b.result.refusals, b.result.refusals.length - 1);
    breach(ledger, same, more.found, more.line, null);
  } else keep(same);
}

/** Writes `first move lifts` (a cutter) and `placed before cutting`. */
export function checkStart(tape: Tape, intent: Intent, ledger: Ledger): void {
  const isBeam = intent.tool.kind === 'beam';
  const lifts = newRule(
    'first move lifts',
    `the first move is a rapid straight up to z ${intent.limits.clearHeight} or higher`,
  );
  const placed = newRule(
    'placed before cutting',
    'x, y and z are set by rapids at clear height, above all that stands on the bed, before any feed',
  );
  let begun = false;
  for (let m = 0; m < tape.count; m += 1) {
    if (kindOf(tape, m) === 'dwell') continue;
    if (!begun && !isBeam) {
      if (isLift(tape, m, intent.limits.clearHeight)) keep(lifts);
      else breach(ledger, lifts, 'another first move', lineOf(tape, m), null);
    }
    begun = true;
    if (isPlacing(tape, m, intent)) keep(placed);
    else breach(ledger, placed, 'a move from a place the program has not set', lineOf(tape, m), null);
  }
  if (!isBeam) judgeRule(ledger, lifts);
  judgeRule(ledger, placed);
}

function isLift(tape: Tape, m: number, clear: number): boolean {
  const isStill = Number.isNaN(toAxis(tape, m, 0)) && Number.isNaN(toAxis(tape, m, 1));
  return kindOf(tape, m) === 'rapid' && isStill && toAxis(tape, m, 2) >= clear - ROUNDING;
}

/** Known from start to end; or a rapid that is still finding its place, high enough, a beam off. */
function isPlacing(tape: Tape, m: number, { tool, limits, keepOuts }: Intent): boolean {
  if (isKnown(tape, m)) return true;
  const isBeam = tool.kind === 'beam';
  if (kindOf(tape, m) === 'rapid') {
    // From a known place on, `beam off in rapids` looks at it.
    if (isBeam) return isXyKnown(tape, m) || speedOf(tape, m) === 0;
    // Straight up or down it stays over the place where it stands; sideways from there it may pass over anything on the bed.
    const isUpright = [0, 1].every((axis) => Number.isNaN(toAxis(tape, m, axis)));
    const tops = isUpright ? [] : keepOuts.map((keepOut) => keepOut.z[1]);
    return toAxis(tape, m, 2) >= Math.max(limits.clearHeight, ...tops) - ROUNDING;
  }
  return isBeam && [0, 1].every((axis) => Number.isFinite(toAxis(tape, m, axis))) && isXyKnown(tape, m);
}

function isXyKnown(tape: Tape, m: number): boolean {
  // The end of the motion before is the start of this one.
  return m > 0 && [0, 1].every((axis) => Number.isFinite(toAxis(tape, m - 1, axis)));
}
