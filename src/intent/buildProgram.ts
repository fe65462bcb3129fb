import type { Job } from '../machining/types.ts';
import { buildIntent } from './build.ts';
import type { EarlierTexts } from './clearedGround.ts';
import type { Intent, ProgramIntent } from './types.ts';

/**
 * What a program is meant to do, from its jobs alone: a plain intent, or one for each tool where the machine changes tools.
 * `earlier`: hashes of the programs that it may rely on.
 */
export function buildProgramIntent(
  jobs: readonly Job[],
  programSha256: string,
  earlier: EarlierTexts = new Map(),
): ProgramIntent {
  const stages = jobs.map((job) => buildIntent(job, programSha256, earlier));
  const [first] = stages;
  if (first === undefined) throw new Error('a program without a job');
  if (!first.machine.understands.toolChange) {
    if (stages.length > 1) throw new Error(`${first.program} has several tools and no change of tools`);
    return first;
  }
  const { format, program, units, order, after } = first;
  return { format, program, programSha256, units, order, after, stages };
}

/** The plain intents that a program's intent consists of. */
export function stagesOf(intent: ProgramIntent): readonly Intent[] {
  return 'stages' in intent ? intent.stages : [intent];
}
