import type { RouterJob } from '../machining/types.ts';
import { regionOf } from './regions.ts';
import type { ClearedGround, Intent } from './types.ts';

/** Hashes of the texts of earlier programs, by name. */
export type EarlierTexts = ReadonlyMap<string, string>;

/** What a job's program may rely on having been cleared; nothing is written where nothing has been. */
export function clearedGround(job: RouterJob, earlier: EarlierTexts): Pick<Intent, 'cleared'> {
  const cleared = job.operations.flatMap((operation): ClearedGround[] => {
    if (operation.kind !== 'pocket' || operation.cleared === null) return [];
    const { by, regions, z } = operation.cleared;
    const program = job.reliesOn.find((r) => r.operation === by)?.program;
    if (program === undefined) throw new Error(`${operation.id} relies on ${by}, which is in no program`);
    const programSha256 = program === job.program ? null : shaOf(program, earlier);
    return [{ program, programSha256, cut: by, region: regions.flatMap(regionOf), z }];
  });
  return cleared.length === 0 ? {} : { cleared };
}

function shaOf(program: string, earlier: EarlierTexts): string {
  const sha256 = earlier.get(program);
  if (sha256 === undefined)
    throw new Error(`the text of ${program} must be written before what relies on it`);
  return sha256;
}
