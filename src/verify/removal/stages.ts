/** The parts of a program between its changes of tools, and whether tools are changed as meant. */
import type { StagedIntent } from '../../intent/types.ts';
import type { ReadResult } from '../gcode/types.ts';
import { at } from './at.ts';
import { breach, judgeRule, keep, type Ledger, newRule } from './proof.ts';
import { kindOf, lineOf, partOfTape, speedOf, type Tape, toAxis } from './tape.ts';

/** Heights in the text are rounded by less than this. Millimetres. */
const ROUNDING = 1e-6;

interface Parts {
  /** What comes before the first M6. */
  readonly before: Tape;
  /** One for each M6. */
  readonly stages: readonly Tape[];
}

/** Cuts a tape at every M6. */
export function partsOfTape(tape: Tape): Parts {
  const { toolChanges } = tape.result;
  const starts = toolChanges.map((change) => firstAtLine(tape, change.line));
  const before = partOfTape(tape, 0, starts[0] ?? tape.count, tape.result);
  const stages = toolChanges.map((_, k) => {
    const [from, to] = [at(starts, k), starts[k + 1] ?? tape.count];
    return partOfTape(tape, from, to, resultOf(tape.result, k));
  });
  return { before, stages };
}

/** Number of the first motion on or after a line; the line's own motion follows its M6. */
function firstAtLine(tape: Tape, line: number): number {
  for (let m = 0; m < tape.count; m += 1) if (lineOf(tape, m) >= line) return m;
  return tape.count;
}

/** A stage ends at the next M6, the last with the program. */
function resultOf(whole: ReadResult, k: number): ReadResult {
  const next = whole.toolChanges[k + 1];
  const { tool } = at(whole.toolChanges, k);
  return {
    ...whole,
    lines: next?.line ?? whole.lines,
    end: { ...whole.end, spindleOn: next?.spindleOn ?? whole.end.spindleOn },
    tools: [tool],
  };
}

/**
 * Writes `tool changes` (the tools of the intent, each put in once, in order) and `before the first tool`: nothing but a lift
 * with the spindle off. That every stage ends clear with the spindle off, its own checks say.
 */
export function checkChanges(tape: Tape, before: Tape, intent: StagedIntent, ledger: Ledger): void {
  const changes = newRule('tool changes', 'each tool of the intent put in by M6 once, in its order');
  const meant = intent.stages.map((stage) => stage.tool.id);
  const { toolChanges, tools } = tape.result;
  toolChanges.forEach(({ tool, line }, k) => {
    if (tool === meant[k]) keep(changes);
    else breach(ledger, changes, `tool ${tool} as number ${k + 1}`, line, null);
  });
  if (toolChanges.length !== meant.length) {
    breach(ledger, changes, `${toolChanges.length} changes, ${meant.length} meant`, 0, null);
  }
  for (const named of tools) if (!meant.includes(named)) breach(ledger, changes, `T${named}`, 0, null);
  judgeRule(ledger, changes);
  checkBefore(before, at(intent.stages, 0).limits.clearHeight, toolChanges[0]?.spindleOn === true, ledger);
}

function checkBefore(before: Tape, clear: number, spindleOn: boolean, ledger: Ledger): void {
  const rule = newRule(
    'before the first tool',
    `only a rapid straight up to z ${clear} or higher, spindle off`,
  );
  let lifted = false;
  for (let m = 0; m < before.count; m += 1) {
    const isLift =
      kindOf(before, m) === 'rapid' &&
      Number.isNaN(toAxis(before, m, 0)) &&
      Number.isNaN(toAxis(before, m, 1)) &&
      toAxis(before, m, 2) >= clear - ROUNDING &&
      speedOf(before, m) === 0;
    if (isLift) keep(rule);
    else breach(ledger, rule, 'another motion', lineOf(before, m), null);
    lifted ||= isLift;
  }
  if (!lifted) breach(ledger, rule, 'no lift', 0, null);
  if (spindleOn) breach(ledger, rule, 'a turning spindle', 0, null);
  judgeRule(ledger, rule);
}
