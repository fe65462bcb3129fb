/** The paths at full depth of every cut of a written program, by the feature that the cut makes. */
import type { Intent, ProgramIntent } from '../../intent/types.ts';
import { readProgram } from '../gcode/readProgram.ts';
import { assignPieces } from '../removal/assign.ts';
import { at } from '../removal/at.ts';
import { markCutting } from '../removal/cutting.ts';
import { finalsOf } from '../removal/finals.ts';
import { jobOf } from '../removal/jobOf.ts';
import { newLedger } from '../removal/proof.ts';
import { partsOfTape } from '../removal/stages.ts';
import { readFromAllStarts } from '../removal/start.ts';
import { sweepOf } from '../removal/sweep.ts';
import type { Tape } from '../removal/tape.ts';
import type { Target } from '../removal/targets.ts';
import type { Run } from './cutWalls.ts';
import type { WrittenProgram } from './types.ts';

/** One cut as it was really made. */
export interface RealCut {
  readonly feature: string;
  readonly target: Target;
  readonly runs: readonly Run[];
  /** Of the cutter or the kerf. */
  readonly radius: number;
  /** Takes a point of the program to the frame of its part. */
  readonly matrix: Intent['toPart']['matrix'];
}

/** Reads a program back and finds what ran at full depth for each of its cuts. */
export function readCuts({ bytes, intent }: WrittenProgram): RealCut[] {
  return stagesOf(bytes, intent).flatMap(({ tape, stage }) => cutsOf(tape, stage));
}

function stagesOf(bytes: Uint8Array, intent: ProgramIntent): { tape: Tape; stage: Intent }[] {
  const ledger = newLedger();
  if (!('stages' in intent)) {
    return [
      {
        tape: readFromAllStarts(readProgram, bytes, intent.machine.understands, ledger, false),
        stage: intent,
      },
    ];
  }
  const understands = { ...at(intent.stages, 0).machine.understands, afreshAfterTool: true as const };
  const parts = partsOfTape(readFromAllStarts(readProgram, bytes, understands, ledger, false));
  return parts.stages.flatMap((tape, k) => {
    const stage = intent.stages[k];
    return stage === undefined ? [] : [{ tape, stage }];
  });
}

function cutsOf(tape: Tape, intent: Intent): RealCut[] {
  const job = jobOf(intent, sweepOf(tape, intent.tool.kind === 'beam'), newLedger(), null);
  if (job === null) return [];
  markCutting(job);
  assignPieces(job);
  const radius = job.tool.usual;
  return job.targets.map((target) => ({
    feature: target.cut.feature,
    target,
    radius,
    runs: finalsOf(job, target).map((piece) => ({ piece, radius })),
    matrix: intent.toPart.matrix,
  }));
}
