/**
 * A second proof of nearly the same program, for thousands of small changes to one text: only the pieces that differ, and the
 * pieces and cuts about them, are measured again.
 *
 * `prove` stays the reference. What is taken over is decided by comparing pieces of path number by number, so a verdict here is
 * the verdict `prove` would give: everything taken over passed, and nothing that it was measured from has changed.
 */
import type { Intent } from '../intent/types.ts';
import { type ProveOptions, readBack } from './prove.ts';
import { offsetsOfCuts } from './removal/cuts.ts';
import type { Job } from './removal/job.ts';
import { forSweep, jobOf } from './removal/jobOf.ts';
import { knownFrom } from './removal/known.ts';
import type { Offset } from './removal/located.ts';
import { hasFailed, newLedger } from './removal/proof.ts';
import { checkAll, checkUntilOneFails } from './removal/steps.ts';

/** A program that proved, with all that a proof of a changed text can take over. */
export interface Base {
  readonly intent: Intent;
  readonly job: Job;
  /** How far off each of the intent's cuts lies. */
  readonly offsets: readonly (readonly Offset[])[];
}

/** Whether a program proves, and what speaks against it. */
export interface Verdict {
  readonly passed: boolean;
  /** Names of the checks that failed, or of the rule when the program could not be looked at; the first alone when asked. */
  readonly refusedBy: readonly string[];
}

/** Proves a program to start from; throws when it does not prove. */
export function baseOf(programBytes: Uint8Array, intent: Intent): Base {
  const ledger = newLedger();
  const job = jobOf(intent, readBack(programBytes, intent, {}, ledger), ledger, null);
  if (job !== null) checkAll(job);
  if (job === null || hasFailed(ledger))
    throw new Error(`${intent.program} does not prove: ${failedIn(ledger).join(', ')}`);
  return { intent, job, offsets: offsetsOfCuts({ ...job, ledger: newLedger() }) };
}

/**
 * The verdict on another text against the same intent.
 *
 * @example
 * const base = baseOf(good, intent);
 * proveAgainstBase(base, damaged, { stopAtFirst: true }).refusedBy; // ['wall overcut']
 */
export function proveAgainstBase(
  base: Base,
  programBytes: Uint8Array,
  options: Pick<ProveOptions, 'stopAtFirst'> = {},
): Verdict {
  const ledger = newLedger();
  const sweep = readBack(programBytes, base.intent, options, ledger);
  if (options.stopAtFirst === true && hasFailed(ledger)) return verdictOf(ledger);
  const known = knownFrom(base.job, base.offsets, sweep);
  const job: Job = { ...base.job, ...forSweep(sweep), ledger, known };
  if (options.stopAtFirst === true) checkUntilOneFails(job);
  else checkAll(job);
  return verdictOf(ledger);
}

function verdictOf(ledger: Job['ledger']): Verdict {
  return { passed: !hasFailed(ledger), refusedBy: failedIn(ledger) };
}

function failedIn({ checks, refusals }: Job['ledger']): string[] {
  const failed = checks.filter((check) => !check.passed).map((check) => check.name);
  return [...new Set(failed.length > 0 ? failed : refusals.map((refusal) => refusal.rule))];
}
