import { layOut } from '../../src/layout/layOut.ts';
import { type Plan, planJobs } from '../../src/machining/planJobs.ts';
import type { Job, RouterJob } from '../../src/machining/types.ts';
import { makeParts } from '../../src/parts/makeParts.ts';
import { settingsOf } from '../../src/parts/settings.ts';
import type { Part } from '../../src/parts/types.ts';
import type { Instrument, Shop } from '../../src/profile/types.ts';
import { parlour, workshop } from './instrument.ts';

/** Parts of an instrument in a shop; fails the test when they cannot be laid out. */
export function partsOf(instrument: Instrument = parlour, shop: Shop = workshop): Part[] {
  const layout = layOut(instrument);
  if (!layout.ok) throw new Error(JSON.stringify(layout.findings));
  return makeParts(instrument, layout.value, settingsOf(shop));
}

/** Jobs and hand steps; fails the test when the shop cannot make them. */
export function planOf(instrument: Instrument = parlour, shop: Shop = workshop): Plan {
  const plan = planJobs(partsOf(instrument, shop), shop);
  if (!plan.ok) throw new Error(JSON.stringify(plan.findings));
  return plan.value;
}

/** A router job by the name of its program. */
export function routerJob(program: string, jobs: readonly Job[] = planOf().jobs): RouterJob {
  const job = jobs.find((j) => j.program === program);
  if (job?.kind !== 'router') throw new Error(`no router program ${program}`);
  return job;
}
