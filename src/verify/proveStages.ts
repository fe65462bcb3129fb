/**
 * Proves a program that changes tools: each stage, from its M6 to the next, as if it were a program of its own. It starts
 * with nothing known, ends clear with the spindle off, and is held against the plain intent of its tool.
 */
import type { Intent, ProgramIntent, StagedIntent } from '../intent/types.ts';
import { readProgram } from './gcode/readProgram.ts';
import { type ProveOptions, proofOf, prove, sweepOfTape } from './prove.ts';
import { at } from './removal/at.ts';
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
  const proofs = tapes.map((tape, k) => proveStage(tape, at(intent.stages, k), options));
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

function proveStage(tape: Tape, intent: Intent, options: ProveOptions): Proof {
  const ledger = newLedger();
  return proofOf(sweepOfTape(tape, intent, ledger), intent, options, ledger);
}

function together(
  intent: StagedIntent,
  ledger: Ledger,
  proofs: readonly Proof[],
  { programSha256 }: ProveOptions,
): Proof {
  const sum = (figure: (proof: Proof) => number): number => proofs.reduce((total, p) => total + figure(p), 0);
  const most = (figure: (proof: Proof) => number): number => Math.max(0, ...proofs.map(figure));
  return {
    passed: !hasFailed(ledger) && proofs.length === intent.stages.length && proofs.every((p) => p.passed),
    program: intent.program,
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
