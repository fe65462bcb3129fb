/**
 * Proves a program that changes tools: each stage, from its M6 to the next, as if it were a program of its own. It starts
 * with nothing known, ends clear with the spindle off, and is held against the plain intent of its tool.
 */
import type { Intent, ProgramIntent, StagedIntent } from '../intent/types.ts';
import { readProgram } from './gcode/readProgram.ts';
import { type ProveOptions, proofOf, prove } from './prove.ts';
import { at } from './removal/at.ts';
import { checkEnd } from './removal/finish.ts';
import { hasFailed, type Ledger, newLedger, type Proof } from './removal/proof.ts';
import { checkChanges, partsOfTape } from './removal/stages.ts';
import { checkStart, readFromAllStarts } from './removal/start.ts';
import { sweepOf } from './removal/sweep.ts';
import type { Tape } from './removal/tape.ts';

/** Proves a written program against its intent, of one tool or of several. */
export function proveProgram(bytes: Uint8Array, intent: ProgramIntent, options: ProveOptions = {}): Proof {
  return 'stages' in intent ? proveStaged(bytes, intent, options) : prove(bytes, intent, options);
}

function proveStaged(bytes: Uint8Array, intent: StagedIntent, options: ProveOptions): Proof {
  const ledger = newLedger();
  const first = at(intent.stages, 0);
  const tape = readFromAllStarts(
    options.read ?? readProgram,
    bytes,
    // The stages of one program have one machine; after an M6 nothing is known of how it stands.
    { ...first.machine.understands, afreshAfterTool: true },
    ledger,
    options.stopAtFirst === true,
  );
  const parts = partsOfTape(tape);
  checkChanges(tape, parts.before, intent, ledger);
  const done = options.stopAtFirst === true && hasFailed(ledger);
  const proofs =
    done || parts.stages.length !== intent.stages.length
      ? []
      : intent.stages.map((stage, k) => proveStage(at(parts.stages, k), stage, options));
  return together(intent, ledger, proofs, options);
}

function proveStage(tape: Tape, intent: Intent, options: ProveOptions): Proof {
  const ledger = newLedger();
  checkStart(tape, intent, ledger);
  checkEnd(tape, intent, ledger);
  return proofOf(sweepOf(tape, intent.tool.kind === 'beam'), intent, options, ledger);
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
