import type { Intent } from '../intent/types.ts';
import { readProgram } from './gcode/readProgram.ts';
import { assignPieces } from './removal/assign.ts';
import { checkBurns } from './removal/beam.ts';
import { checkCuts } from './removal/cuts.ts';
import { checkEngagement } from './removal/engagement.ts';
import { checkEnd, checkFinite, lengthsOf, type RapidSpeed } from './removal/finish.ts';
import type { Job } from './removal/job.ts';
import { checkKeepOuts } from './removal/keepOuts.ts';
import { checkEnvelope, checkFeeds, checkModes, checkReach } from './removal/limits.ts';
import { checkLoosened } from './removal/loosened.ts';
import { type Check, type Ledger, newLedger, type Proof } from './removal/proof.ts';
import { checkBeamRapids, checkRapids } from './removal/rapids.ts';
import { regionOf } from './removal/rings.ts';
import { checkStart, readFromAllStarts } from './removal/start.ts';
import { type Sweep, sweepOf } from './removal/sweep.ts';
import type { Reader } from './removal/tape.ts';
import { type Target, targetOf } from './removal/targets.ts';
import { type Tool, toolOf } from './removal/tool.ts';

export type { Check, Place, Proof } from './removal/proof.ts';

export interface ProveOptions {
  /** Hash of the program's bytes, to tell whether they are those the intent was written beside. */
  readonly programSha256?: string;
  /** Speeds of the machine's rapids, mm/min, for the time it takes. */
  readonly rapid?: RapidSpeed;
  /** Another reader of programs, for tests. */
  readonly read?: Reader;
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
  const tape = readFromAllStarts(options.read ?? readProgram, programBytes, intent, ledger);
  checkStart(tape, intent, ledger);
  checkEnd(tape, intent, ledger);
  const sweep = sweepOf(tape, intent.tool.kind === 'beam');
  const job = jobOf(intent, sweep, ledger);
  if (job !== null) checkJob(job);
  const lengths = lengthsOf(sweep, options.rapid ?? null);
  const { checks, refusals } = ledger;
  return {
    passed: refusals.length === 0 && job !== null && checks.every((c) => c.passed),
    program: intent.program,
    edited: options.programSha256 === undefined ? null : options.programSha256 !== intent.programSha256,
    checks,
    refusals,
    maxOvercut: worstOf(checks, ['wall overcut']),
    maxUndercut: worstOf(checks, ['wall undercut', 'line covered']),
    cutLength: lengths.cut,
    rapidLength: lengths.rapid,
    minutes: lengths.minutes,
  };
}

function jobOf(intent: Intent, sweep: Sweep, ledger: Ledger): Job | null {
  const tool = toolOf(intent);
  if (typeof tool === 'string') {
    ledger.refusals.push({
      line: 0,
      rule: 'provable-tool',
      found: tool,
      allowed: 'a flat end mill, drill or beam that follows its path exactly',
    });
    return null;
  }
  const targets = targetsOf(intent, tool, ledger);
  if (targets === null) return null;
  const stock = regionOf(intent.stock.region);
  return { intent, tool, targets, stock, sweep, ledger, owner: new Int32Array(sweep.count) };
}

function targetsOf(intent: Intent, tool: Tool, ledger: Ledger): Target[] | null {
  const targets: Target[] = [];
  for (const cut of intent.cuts) {
    const target = targetOf(cut, intent, tool);
    if (typeof target !== 'string') targets.push(target);
    else
      ledger.refusals.push({
        line: 0,
        rule: 'provable-cut',
        found: `${cut.id}: ${target}`,
        allowed: 'region or drill (cutter), separate, line (beam)',
      });
  }
  return targets.length === intent.cuts.length && targets.length > 0 ? targets : null;
}

function checkJob(job: Job): void {
  checkFinite(job);
  assignPieces(job);
  checkCuts(job);
  checkLoosened(job);
  checkKeepOuts(job);
  checkEnvelope(job);
  checkFeeds(job);
  checkModes(job);
  if (job.tool.kind === 'beam') {
    checkBeamRapids(job);
    checkBurns(job);
    return;
  }
  checkRapids(job);
  checkEngagement(job);
  checkReach(job);
}

function worstOf(checks: readonly Check[], names: readonly string[]): number {
  return Math.max(0, ...checks.filter((c) => names.includes(c.name)).map((c) => c.value));
}
