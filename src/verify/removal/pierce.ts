/** A beam stands still while it is on only where a cut begins, as long as meant. */
import type { Burn } from './beamRuns.ts';
import type { Job } from './job.ts';
import { breach, judgeRule, keep, newRule } from './proof.ts';
import { fromAxis, kindOf, lineOf, secondsOf, speedOf, type Tape } from './tape.ts';

/** Times in the text are rounded by less than this. Seconds. */
const TIME_SLACK = 0.002;

/** Writes `pierce`: the pause at the start of each cut, and no other. Burns are in the order in which they are run. */
export function checkPierce(job: Job, burns: readonly Burn[]): void {
  const rule = newRule(
    'pierce',
    'the beam stands still where a cut begins as long as meant, and nowhere else',
  );
  const { tape } = job.sweep;
  const claimed = new Set<number>();
  job.targets.forEach((target, number) => {
    const first = burns.find((burn) => burn.owner === number);
    if (first === undefined) return;
    const { motion } = first.piece;
    const pause = pauseBefore(tape, motion);
    if (pause !== null) claimed.add(pause);
    const found = pause === null ? 0 : secondsOf(tape, pause);
    const meant = target.cut.beam?.pierce ?? 0;
    if (Math.abs(found - meant) <= TIME_SLACK) keep(rule);
    else {
      const said = `${found} s, ${target.cut.id} says ${meant}`;
      breach(job.ledger, rule, said, lineOf(tape, motion), [first.piece.x0, first.piece.y0, 0]);
    }
  });
  for (let m = 0; m < tape.count; m += 1) {
    if (kindOf(tape, m) !== 'dwell' || speedOf(tape, m) === 0 || claimed.has(m)) continue;
    const place = [fromAxis(tape, m, 0), fromAxis(tape, m, 1), 0] as const;
    const found = `the beam on for ${secondsOf(tape, m)} s in one place`;
    breach(job.ledger, rule, found, lineOf(tape, m), place.every(Number.isFinite) ? place : null);
  }
  judgeRule(job.ledger, rule);
}

/** The pause with the beam on right before a motion, or null. */
function pauseBefore(tape: Tape, motion: number): number | null {
  const before = motion - 1;
  return before >= 0 && kindOf(tape, before) === 'dwell' && speedOf(tape, before) > 0 ? before : null;
}

/** Writes `beam word`: the beam comes on by the word that its control is to be given, and by no other. */
export function checkBeamWord(job: Job): void {
  const { beamWord = 'M3' } = job.intent.machine.understands;
  const rule = newRule('beam word', `${beamWord} turns the beam on`);
  const { words } = job.sweep.tape.result;
  const other = beamWord === 'M3' ? 'M4' : 'M3';
  if (words.includes(other)) breach(job.ledger, rule, other, 0, null);
  else keep(rule);
  judgeRule(job.ledger, rule);
}
