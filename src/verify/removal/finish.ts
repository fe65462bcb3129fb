/** How a program ends, and how long it is. */
import type { Intent } from '../../intent/types.ts';
import type { Job } from './job.ts';
import { newPiece, spaceLength } from './piece.ts';
import { breach, judge, judgeRule, keep, type Ledger, newRule, newWorst, note, type Rule } from './proof.ts';
import { loadPiece, type Sweep } from './sweep.ts';
import { feedOf, kindOf, secondsOf, type Tape, toAxis } from './tape.ts';
import { pieceLine } from './where.ts';

/** A program ends within this of the place its intent names. Millimetres. */
const AT_PLACE = 0.001;

/** Writes `program ends` and `end position`. */
export function checkEnd(tape: Tape, intent: Intent, ledger: Ledger): void {
  const { end, words } = tape.result;
  const rule = newRule('program ends', 'a program end (M2 or M30) with spindle or beam off');
  const say = (good: boolean, found: string): void => told(ledger, rule, good, found, tape.result.lines);
  say(end.ended, 'the text stops without a program end');
  // The published grammar lets a second % line end a program too; a control that waits for the word would run into what follows.
  say(words.includes('M2') || words.includes('M30'), 'neither M2 nor M30');
  say(!end.spindleOn, 'spindle or beam still on');
  judgeRule(ledger, rule);
  const off = newWorst();
  if (tape.count > 0) {
    const axes = intent.tool.kind === 'beam' ? [0, 1] : [0, 1, 2];
    for (const axis of axes) {
      note(
        off,
        Math.abs(toAxis(tape, tape.count - 1, axis) - (intent.end.position[axis] ?? Number.NaN)),
        null,
        tape.result.lines,
      );
    }
  }
  judge(ledger, 'end position', off, AT_PLACE);
}

function told(ledger: Ledger, rule: Rule, good: boolean, found: string, line: number): void {
  if (good) keep(rule);
  else breach(ledger, rule, found, line, null);
}

/** Writes `numbers finite`: every coordinate, feed and speed is a number. */
export function checkFinite(job: Job): void {
  const rule = newRule('numbers finite', 'finite numbers only');
  const piece = newPiece();
  for (let i = 0; i < job.sweep.count; i += 1) {
    loadPiece(job.sweep, i, piece);
    const { x0, y0, z0, x1, y1, z1, motion } = piece;
    const feed = feedOf(job.sweep.tape, motion);
    const good = [x0, y0, z0, x1, y1, z1, feed].every(Number.isFinite);
    told(job.ledger, rule, good, 'a number that is not finite', pieceLine(job.sweep, piece));
  }
  judgeRule(job.ledger, rule);
}

/** Rapid speeds of a machine, mm/min. */
export interface RapidSpeed {
  readonly xy: number;
  readonly z: number;
}

/** Lengths of the way at feed and at rapid (mm), and the time it takes (minutes, without speeding up and slowing down). */
export function lengthsOf(
  sweep: Sweep,
  rapid: RapidSpeed | null,
): { cut: number; rapid: number; minutes: number } {
  const piece = newPiece();
  const total = { cut: 0, rapid: 0, minutes: 0 };
  for (let i = 0; i < sweep.count; i += 1) {
    loadPiece(sweep, i, piece);
    const length = spaceLength(piece);
    if (kindOf(sweep.tape, piece.motion) !== 'rapid') {
      total.cut += length;
      if (length > 0) total.minutes += length / feedOf(sweep.tape, piece.motion);
      continue;
    }
    total.rapid += length;
    if (rapid === null) continue;
    const plan = Math.hypot(piece.x1 - piece.x0, piece.y1 - piece.y0);
    total.minutes += Math.max(plan / rapid.xy, Math.abs(piece.z1 - piece.z0) / rapid.z);
  }
  for (let m = 0; m < sweep.tape.count; m += 1) {
    if (kindOf(sweep.tape, m) === 'dwell') total.minutes += secondsOf(sweep.tape, m) / 60;
  }
  return total;
}
