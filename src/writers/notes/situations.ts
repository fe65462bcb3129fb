import type { HandStep, Job } from '../../machining/types.ts';
import type { Instrument } from '../../profile/types.ts';
import type { Caution, Situation } from './cautions.ts';
import { bullets } from './markdown.ts';
import { reliesOnEarlier } from './relianceRows.ts';

/** What is at hand when one program runs. */
export function situationOf(job: Job): Situation {
  return {
    workers: [job.kind],
    classes: [job.part.materialClass],
    materials: [job.part.material],
    tools: job.kind === 'router' ? [job.tool.diameter] : [],
    parts: [],
    clearedBefore: reliesOnEarlier(job),
    strings: false,
    trussRod: false,
  };
}

/** What is at hand through the whole build: every program, every hand step, fretting and stringing. */
export function situationOfAll(
  jobs: readonly Job[],
  handSteps: readonly HandStep[],
  instrument: Instrument,
): Situation {
  const each = jobs.map(situationOf);
  const { fingerboard, faceMarkers, sideMarkers, trussRod } = instrument;
  return {
    workers: [...each.flatMap((s) => s.workers), ...(handSteps.length > 0 ? (['hand'] as const) : [])],
    classes: [fingerboard.materialClass, ...each.flatMap((s) => s.classes)],
    materials: [
      fingerboard.wood,
      faceMarkers.material,
      sideMarkers.material,
      ...each.flatMap((s) => s.materials),
    ],
    tools: each.flatMap((s) => s.tools),
    parts: ['fingerboard', ...jobs.map((j) => j.part.id), ...handSteps.map((s) => s.part)],
    clearedBefore: each.some((s) => s.clearedBefore),
    strings: true,
    trussRod: trussRod !== null,
  };
}

/** Cautions in full. */
export function cautionList(cautions: readonly Caution[]): string {
  return bullets(cautions.map((c) => `**${c.title}.** ${c.text}`));
}
