import { areaSize, lengthRound } from '../../src/geometry/area.ts';
import { centresOf } from '../../src/geometry/kernel/centres.ts';
import { buildIntent } from '../../src/intent/build.ts';
import type { RouterJob } from '../../src/machining/types.ts';
import { planMoves } from '../../src/motion/planMoves.ts';
import { measureAir, type Written } from '../../src/verify/air.ts';
import { prove } from '../../src/verify/prove.ts';
import { ranBefore } from '../../src/verify/proveStages.ts';
import { writeProgram } from '../../src/writers/gcode/write.ts';

const SHA = '0'.repeat(64);

/** A job's program as written, with its intent; `before` ran earlier on the same blank. */
export function writtenOf(job: RouterJob, before: readonly Written[] = []): Written {
  const text = writeProgram(planMoves(job), { remarks: ['pocket'], controller: job.machine.controller });
  return {
    bytes: new TextEncoder().encode(text),
    intent: buildIntent(job, SHA, new Map(before.map((b) => [b.intent.program, SHA]))),
  };
}

export interface PocketFigures {
  readonly proven: boolean;
  /** Way at feed, entries and finishing included, over that of all levels: area over step-over and once round. */
  readonly way: number;
  /** Share of the way at feed that meets no wood. */
  readonly air: number;
  /** At the feeds that are written, rapids included. */
  readonly minutes: number;
}

/** What a pocket program measures, read back; `before` ran earlier on the same blank. */
export function figuresOf(job: RouterJob, before: readonly Written[] = []): PocketFigures {
  const written = writtenOf(job, before);
  const { feed, air } = measureAir(written, before);
  const ran = before.flatMap(({ bytes, intent }) => ranBefore(bytes, intent, SHA));
  const proof = prove(written.bytes, written.intent, { rapid: job.machine.rapid, ran });
  return { proven: proof.passed, way: feed / boundOf(job), air: air / feed, minutes: proof.minutes };
}

/**
 * Of the places where the cutter's centre may be (which is stricter than the pocket's own area and perimeter): area over
 * step-over, and once round, for each level. Millimetres.
 */
function boundOf(job: RouterJob): number {
  return job.operations.reduce((sum, pocket) => {
    if (pocket.kind !== 'pocket') return sum;
    const radius = job.tool.diameter / 2;
    const part = pocket.around === null ? null : pocket.region;
    const centres = centresOf(pocket.whole, part, radius, radius);
    const around = centres.reduce((length, way) => length + lengthRound(way), 0);
    const levels = Math.ceil(-pocket.z / job.feeds.stepDown - 1e-9);
    return sum + levels * (areaSize(centres) / pocket.stepOver + around);
  }, 0);
}
