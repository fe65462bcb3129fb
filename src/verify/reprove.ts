/**
 * A second proof of nearly the same program, for thousands of small changes to one text: only the pieces that differ, and the
 * pieces and cuts about them, are measured again.
 *
 * `prove` stays the reference. What is taken over is decided by comparing pieces of path number by number, so a verdict here is
 * the verdict `prove` would give: everything taken over passed, and nothing that it was measured from has changed.
 */
import type { Intent, ProgramIntent, StagedIntent } from '../intent/types.ts';
import { type ProveOptions, readBack, sweepOfTape } from './prove.ts';
import { readStages } from './proveStages.ts';
import { at } from './removal/at.ts';
import { offsetsOfCuts } from './removal/cuts.ts';
import type { Job } from './removal/job.ts';
import { forSweep, jobOf } from './removal/jobOf.ts';
import { knownFrom } from './removal/known.ts';
import type { Offset } from './removal/located.ts';
import { hasFailed, type Ledger, newLedger } from './removal/proof.ts';
import { checkAll, checkUntilOneFails } from './removal/steps.ts';
import type { Sweep } from './removal/sweep.ts';

/** One tool's work that proved, with all that a proof of a changed text can take over. */
interface Work {
  readonly job: Job;
  /** How far off each of the intent's cuts lies. */
  readonly offsets: readonly (readonly Offset[])[];
}

/** A program that proved. */
export interface Base {
  readonly intent: ProgramIntent;
  /** One for each tool. */
  readonly works: readonly Work[];
}

/** Whether a program proves, and what speaks against it. */
export interface Verdict {
  readonly passed: boolean;
  /** Names of the checks that failed, or of the rule when the program could not be looked at; the first alone when asked. */
  readonly refusedBy: readonly string[];
}

type Options = Pick<ProveOptions, 'stopAtFirst'>;

/** Proves a program to start from; throws when it does not prove. */
export function baseOf(programBytes: Uint8Array, intent: ProgramIntent): Base {
  const ledger = newLedger();
  const works = [...sweepsOf(programBytes, intent, {}, ledger)].map((sweep, k) =>
    workOf(sweep, at(stagesOf(intent), k), ledger),
  );
  const whole = works.flatMap((work) => (work === null ? [] : [work]));
  if (hasFailed(ledger) || whole.length !== stagesOf(intent).length)
    throw new Error(`${intent.program} does not prove: ${failedIn(ledger).join(', ')}`);
  return { intent, works: whole };
}

function workOf(sweep: Sweep, intent: Intent, ledger: Ledger): Work | null {
  const job = jobOf(intent, sweep, ledger, null);
  if (job === null) return null;
  checkAll(job);
  return { job, offsets: offsetsOfCuts({ ...job, ledger: newLedger() }) };
}

/**
 * The verdict on another text against the same intent.
 *
 * @example
 * const base = baseOf(good, intent);
 * proveAgainstBase(base, damaged, { stopAtFirst: true }).refusedBy; // ['wall overcut']
 */
export function proveAgainstBase(base: Base, programBytes: Uint8Array, options: Options = {}): Verdict {
  const ledger = newLedger();
  let looked = 0;
  for (const sweep of sweepsOf(programBytes, base.intent, options, ledger)) {
    if (options.stopAtFirst === true && hasFailed(ledger)) break;
    const { job: before, offsets } = at(base.works, looked);
    looked += 1;
    const job: Job = { ...before, ...forSweep(sweep), ledger, known: knownFrom(before, offsets, sweep) };
    if (options.stopAtFirst === true) checkUntilOneFails(job);
    else checkAll(job);
  }
  return { passed: !hasFailed(ledger) && looked === base.works.length, refusedBy: failedIn(ledger) };
}

/** The path of each tool, one when asked for; none when the program is not made of as many parts as are meant. */
function* sweepsOf(
  bytes: Uint8Array,
  intent: ProgramIntent,
  options: Options,
  ledger: Ledger,
): Generator<Sweep> {
  if (!isStaged(intent)) {
    yield readBack(bytes, intent, options, ledger);
    return;
  }
  const tapes = readStages(bytes, intent, options, ledger);
  for (const [k, tape] of tapes.entries()) yield sweepOfTape(tape, at(intent.stages, k), ledger);
}

function isStaged(intent: ProgramIntent): intent is StagedIntent {
  return 'stages' in intent;
}

function stagesOf(intent: ProgramIntent): readonly Intent[] {
  return isStaged(intent) ? intent.stages : [intent];
}

function failedIn({ checks, refusals }: Job['ledger']): string[] {
  const failed = checks.filter((check) => !check.passed).map((check) => check.name);
  return [...new Set(failed.length > 0 ? failed : refusals.map((refusal) => refusal.rule))];
}
