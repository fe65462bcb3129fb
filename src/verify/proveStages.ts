/**
 * Proves a program that changes tools: each stage, from its M6 to the next, as if it were a program of its own. It starts
 * with nothing known, ends clear with the spindle off, and is held against the plain intent of its tool.
 */
import type { ProgramIntent, StagedIntent } from '../intent/types.ts';
import { readProgram } from './gcode/readProgram.ts';
import { type ProveOptions, proofOf, prove, readBack, sweepOfTape } from './prove.ts';
import { at } from './removal/at.ts';
import type { Ran } from './removal/clearedBefore.ts';
import { hasFailed, type Ledger, newLedger, type Proof } from './removal/proof.ts';
import { checkChanges, partsOfTape } from './removal/stages.ts';
import { readFromAllStarts } from './removal/start.ts';
import type { Tape } from './removal/tape.ts';

/** Proves a written program against its intent, of one tool or of several. */
export function proveProgram(bytes: Uint8Array, intent: ProgramIntent, options: ProveOptions = {}): Proof {
  return 'stages' in intent ? proveStaged(bytes, intent, options) : prove(bytes, intent, options);
}

function proveStaged(bytes: Uint8Array, intent: StagedIntent, options: ProveOptions): Proof {
  const ledger = newLedger();
  const tapes = readStages(bytes, intent, options, ledger);
  const proofs: Proof[] = [];
  const ran: Ran[] = [...(options.ran ?? [])];
  for (const [k, tape] of tapes.entries()) {
    const stage = at(intent.stages, k);
    const own = newLedger();
    const sweep = sweepOfTape(tape, stage, own);
    proofs.push(proofOf(sweep, stage, { ...options, ran }, own));
    ran.push({ program: intent.program, programSha256: null, intent: stage, sweep });
  }
  return together(intent, ledger, proofs, options);
}

/**
 * Reads a program that changes tools, with the checks of its text and of its changes; gives one tape a stage. None when there
 * are not as many stages as are meant, or when one failure is enough and there is one.
 */
export function readStages(
  bytes: Uint8Array,
  intent: StagedIntent,
  options: ProveOptions,
  ledger: Ledger,
): readonly Tape[] {
  const first = at(intent.stages, 0);
  const tape = readFromAllStarts(
    options.read ?? readProgram,
    bytes,
    // The stages of one program have one machine; after an M6 nothing is known of how it stands.
    { ...first.machine.understands, afreshAfterTool: true },
    ledger,
    options.stopAtFirst === true,
  );
  const { before, stages } = partsOfTape(tape);
  checkChanges(tape, before, intent, ledger);
  const done = options.stopAtFirst === true && hasFailed(ledger);
  return done || stages.length !== intent.stages.length ? [] : stages;
}

/**
 * The work of an earlier program, as the proof of a later one looks at it: give it to that proof where it relies on what this one
 * clears. That it proves itself is not looked at here.
 */
export function ranBefore(bytes: Uint8Array, intent: ProgramIntent, programSha256: string): Ran[] {
  const of = { program: intent.program, programSha256 };
  const ledger = newLedger();
  if (!('stages' in intent)) return [{ ...of, intent, sweep: readBack(bytes, intent, {}, ledger) }];
  return readStages(bytes, intent, {}, ledger).map((tape, k) => {
    const stage = at(intent.stages, k);
    return { ...of, intent: stage, sweep: sweepOfTape(tape, stage, ledger) };
  });
}

function together(
  intent: StagedIntent,
  ledger: Ledger,
  proofs: readonly Proof[],
  { programSha256 }: ProveOptions,
): Proof {
  const sum = (figure: (proof: Proof) => number): number => proofs.reduce((total, p) => total + figure(p), 0);
  const onlyAfter = proofs.flatMap((p) => p.onlyAfter ?? []);
  const most = (figure: (proof: Proof) => number): number => Math.max(0, ...proofs.map(figure));
  return {
    passed: !hasFailed(ledger) && proofs.length === intent.stages.length && proofs.every((p) => p.passed),
    program: intent.program,
    ...(onlyAfter.length === 0 ? {} : { onlyAfter }),
    edited: programSha256 === undefined ? null : programSha256 !== intent.programSha256,
    checks: [
      ...ledger.checks,
      ...proofs.flatMap((p, k) => p.checks.map((check) => ({ ...check, stage: k + 1 }))),
    ],
    refusals: [...ledger.refusals, ...proofs.flatMap((p) => p.refusals)],
    maxOvercut: most((p) => p.maxOvercut),
    maxUndercut: most((p) => p.maxUndercut),
    cutLength: sum((p) => p.cutLength),
    rapidLength: sum((p) => p.rapidLength),
    minutes: sum((p) => p.minutes),
  };
}
