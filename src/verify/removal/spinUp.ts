/** No cut before the spindle is up to speed. */
import { at } from './at.ts';
import { type Job, NOT_CUTTING } from './job.ts';
import { breach, judgeRule, keep, newRule } from './proof.ts';
import { motionOf } from './sweep.ts';
import { fromAxis, kindOf, lineOf, secondsOf, speedOf, startsOf } from './tape.ts';

/** Times in the text are rounded by less than this. Seconds. */
const TIME_SLACK = 0.05;

/**
 * Writes `up to speed`: the program stands still long enough between switching the spindle on, or to another speed, and the next
 * cut. Only dwells count: how long a motion takes depends on the machine and on the switches at it.
 */
export function checkSpinUp(job: Job): void {
  const { spinUp = 0 } = job.intent.machine;
  if (spinUp === 0) return;
  const { tape } = job.sweep;
  const rule = newRule(
    'up to speed',
    `no cut within ${spinUp} s of switching the spindle on or to another speed`,
  );
  const cutting = new Set<number>();
  for (let i = 0; i < job.sweep.count; i += 1)
    if (at(job.owner, i) !== NOT_CUTTING) cutting.add(motionOf(job.sweep, i));
  let [speed, starts, stood] = [0, 0, 0];
  for (let m = 0; m < tape.count; m += 1) {
    // Stopped and started again, or set to another speed and back, with no motion between: it has to come up to speed anew.
    if (speedOf(tape, m) !== speed || startsOf(tape, m) !== starts) stood = 0;
    [speed, starts] = [speedOf(tape, m), startsOf(tape, m)];
    if (kindOf(tape, m) === 'dwell') stood += secondsOf(tape, m);
    if (!cutting.has(m)) continue;
    // A cut with the spindle off breaks another rule.
    if (speed === 0 || stood >= spinUp - TIME_SLACK) keep(rule);
    else {
      const place = [fromAxis(tape, m, 0), fromAxis(tape, m, 1), fromAxis(tape, m, 2)] as const;
      breach(job.ledger, rule, `a cut after ${stood} s`, lineOf(tape, m), place);
    }
  }
  judgeRule(job.ledger, rule);
}
