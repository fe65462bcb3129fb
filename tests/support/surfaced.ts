import { buildIntent } from '../../src/intent/build.ts';
import { parseIntent } from '../../src/intent/schema.ts';
import type { Intent } from '../../src/intent/types.ts';
import type { RouterJob } from '../../src/machining/types.ts';
import { planMoves } from '../../src/motion/planMoves.ts';
import type { Instrument, Shop, Tool } from '../../src/profile/types.ts';
import { writeProgram } from '../../src/writers/gcode/write.ts';
import { parlour, workshop } from './instrument.ts';
import { planOf } from './job.ts';

const [cutter] = workshop.tools;
if (cutter === undefined) throw new Error('the workshop has no tools');

export const ball: Tool = {
  ...cutter,
  id: 7,
  name: '6 mm ball cutter',
  kind: 'ball',
  diameter: 6,
  cuttingLength: 15,
  shankDiameter: 6,
};

export const vee: Tool = {
  ...ball,
  id: 8,
  name: '60 degree vee cutter',
  kind: 'vee',
  cuttingLength: 5,
  tipAngle: Math.PI / 3,
};

/** The workshop with a ball cutter, its router asked to work boards to their radius; its slot cutter cuts deep enough for any. */
export const surfacingShop: Shop = {
  ...workshop,
  tools: [
    ...workshop.tools.map((tool) => (tool.id === 1 ? { ...tool, cuttingLength: 5.5, stickOut: 15 } : tool)),
    ball,
  ],
  work: { ...workshop.work, boardSurface: 'small-router' },
};

export type When = Instrument['fingerboard']['surfaceWhenSlotted'];

export function boardOf(radius: number, surfaceWhenSlotted: When): Instrument {
  return { ...parlour, fingerboard: { ...parlour.fingerboard, radius, surfaceWhenSlotted } };
}

export interface Written {
  readonly name: string;
  readonly job: RouterJob;
  readonly text: string;
  readonly intent: Intent;
}

/** A job's program and its intent, both as they are written. */
export function written(job: RouterJob): Written {
  const text = writeProgram(planMoves(job), { remarks: [], controller: job.machine.controller });
  const parsed = parseIntent(JSON.stringify(buildIntent(job, '0'.repeat(64))));
  if (!parsed.ok) throw new Error(parsed.problems.join('\n'));
  return { name: job.program, job, text, intent: parsed.intent };
}

/** The board's programs that cut, in order. */
export function boardPrograms(instrument: Instrument, shop: Shop = surfacingShop): Written[] {
  return planOf(instrument, shop).jobs.flatMap((job) =>
    job.kind === 'router' && job.part.id === 'fingerboard' && job.operations.length > 0 ? [written(job)] : [],
  );
}

export function named(programs: readonly Written[], name: string): Written {
  const found = programs.find((p) => p.name === name);
  if (found === undefined) throw new Error(`no program ${name}: ${programs.map((p) => p.name).join(', ')}`);
  return found;
}
