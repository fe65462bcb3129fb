import type { Intent } from '../intent/types.ts';
import { readProgram } from './gcode/readProgram.ts';
import { checkClearedBefore, type Ran } from './removal/clearedBefore.ts';
import { checkEnd, lengthsOf, type RapidSpeed } from './removal/finish.ts';
import type { Job } from './removal/job.ts';
import { jobOf } from './removal/jobOf.ts';
import { type Check, hasFailed, type Ledger, newLedger, type Proof } from './removal/proof.ts';
import { checkStart, readFromAllStarts } from './removal/start.ts';
import { checkAll, checkUntilOneFails } from './removal/steps.ts';
import { type Sweep, sweepOf } from './removal/sweep.ts';
import type { Reader, Tape } from './removal/tape.ts';
import { type CutWork, workOf } from './removal/work.ts';

export type { Check, Place, Proof } from './removal/proof.ts';

export interface ProveOptions {
  /** Hash of the program's bytes, to tell whether they are those the intent was written beside. */
  readonly programSha256?: string;
  /** Speeds of the machine's rapids, mm/min, for the time it takes. */
  readonly rapid?: RapidSpeed;
  /** Another reader of programs, for tests. */
  readonly read?: Reader;
  /** What ran before on the same blank, as far as it is at hand; see `ranBefore`. */
  readonly ran?: readonly Ran[];
  /** Only whether it proves is asked: the checks that take the least time come first, and none follows one that fails. */
  readonly stopAtFirst?: boolean;
  /** Is told which lines work on which cut, once for each tool; nothing of a tool or intent that cannot be proven. */
  readonly onWork?: (work: readonly CutWork[]) => void;
}

/**
 * Proves a written program against the intent file beside it: what it removes is what was meant, and nothing on the way does
 * harm. Distances in mm, by closed forms over the path; nothing is assumed of the machine's state at the start.
 *
 * @example
 * const proof = prove(bytes, intent, { programSha256 });
 * if (!proof.passed) for (const check of proof.checks.filter((c) => !c.passed)) tell(check);
 */
export function prove(programBytes: Uint8Array, intent: Intent, options: ProveOptions = {}): Proof {
  const ledger = newLedger();
  const sweep = readBack(programBytes, intent, options, ledger);
  return proofOf(sweep, intent, options, ledger);
}

/** The proof of a path that was read back, with what was found while reading it already in the ledger. */
export function proofOf(sweep: Sweep, intent: Intent, options: ProveOptions, ledger: Ledger): Proof {
  const done = options.stopAtFirst === true && hasFailed(ledger);
  const job = done ? null : jobOf(intent, sweep, ledger, null);
  if (job !== null) check(job, options);
  options.onWork?.(job === null ? [] : workOf(job));
  const onlyAfter = checkClearedBefore(intent, options.ran ?? [], ledger);
  const lengths = lengthsOf(sweep, options.rapid ?? null);
  const { checks, refusals } = ledger;
  return {
    passed: job !== null && !hasFailed(ledger),
    program: intent.program,
    ...(onlyAfter.length === 0 ? {} : { onlyAfter }),
    edited: options.programSha256 === undefined ? null : options.programSha256 !== intent.programSha256,
    checks,
    refusals,
    maxOvercut: worstOf(checks, ['wall overcut', 'gouge']),
    maxUndercut: worstOf(checks, ['wall undercut', 'line covered', 'ridges left']),
    cutLength: lengths.cut,
    rapidLength: lengths.rapid,
    minutes: lengths.minutes,
  };
}

/** Reads the program, with the checks of its text, start and end. */
export function readBack(
  programBytes: Uint8Array,
  intent: Intent,
  options: ProveOptions,
  ledger: Ledger,
): Sweep {
  const read = options.read ?? readProgram;
  const { understands } = intent.machine;
  const tape = readFromAllStarts(read, programBytes, understands, ledger, options.stopAtFirst === true);
  return sweepOfTape(tape, intent, ledger);
}

/** The path of a program, or of one tool's part of it, with the checks of its start and end. */
export function sweepOfTape(tape: Tape, intent: Intent, ledger: Ledger): Sweep {
  checkStart(tape, intent, ledger);
  checkEnd(tape, intent, ledger);
  return sweepOf(tape, intent.tool.kind === 'beam');
}

function check(job: Job, options: ProveOptions): void {
  if (options.stopAtFirst === true) checkUntilOneFails(job);
  else checkAll(job);
}

function worstOf(checks: readonly Check[], names: readonly string[]): number {
  return Math.max(0, ...checks.filter((c) => names.includes(c.name)).map((c) => c.value));
}
