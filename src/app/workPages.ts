import { planBridge } from '../bridge/plan.ts';
import type { BridgeWork } from '../bridge/types.ts';
import type { Layout } from '../layout/types.ts';
import { planNeckSet, setsNeck } from '../neck/plan.ts';
import type { NeckSet } from '../neck/types.ts';
import type { Task } from '../order/facts.ts';
import { orderPage } from '../order/orderPage.ts';
import { planOrder } from '../order/planOrder.ts';
import type { Doer } from '../order/types.ts';
import type { Instrument } from '../profile/types.ts';
import { benchSheet } from '../sheet/benchSheet.ts';
import { benchPage } from '../sheet/pages/benchPage.ts';
import type { Page } from '../sheet/pages/types.ts';
import { endHeightsOf } from '../stringing/plan.ts';
import type { ProgramFigures } from '../writers/notes/types.ts';
import { type WorkItem, workOrder } from '../writers/notes/workOrder.ts';
import type { Design } from './design.ts';

/** What stands at the strings' ends, as far as the profile lets it be worked out. */
interface Ends {
  readonly bridge: BridgeWork | null;
  readonly neck: NeckSet | null;
}

/** The bench sheets of an instrument; no shop is needed for them. */
export function benchPageOf(instrument: Instrument, layout: Layout, profileHash: string): Page {
  return benchPage({ sheet: benchSheet(layout, instrument), ...endsOf(instrument, layout), profileHash });
}

/** The order of the whole build, with the shop's programs and hand steps in their places. */
export function orderPageOf(made: Design, figures: readonly ProgramFigures[], profileHash: string): Page {
  const { value: instrument } = made.instrument;
  const steps = planOrder({
    instrument,
    sheet: benchSheet(made.layout, instrument),
    ...endsOf(instrument, made.layout),
    tasks: tasksOf(made, figures),
  });
  const { name, units } = instrument;
  return orderPage(steps, { instrument: name, shop: made.shop.value.name, units, profileHash });
}

/** Where something cannot be worked out, its findings were shown already, and the pages leave it out. */
function endsOf(instrument: Instrument, layout: Layout): Ends {
  const heights = endHeightsOf(instrument, layout);
  if (!heights.ok) return { bridge: null, neck: null };
  const bridge = planBridge(instrument, layout, heights.value);
  if (!bridge.ok) return { bridge: null, neck: null };
  const saddle = bridge.value.saddle.points.map((p) => p.aboveBridge);
  const neck = setsNeck(instrument) ? planNeckSet(instrument, layout, saddle, null) : null;
  return { bridge: bridge.value, neck: neck?.ok ? neck.value : null };
}

/** Programs and hand steps in their order, with what each makes. */
export function tasksOf({ parts, plan }: Design, figures: readonly ProgramFigures[]): Task[] {
  return workOrder(parts, plan.jobs, plan.handSteps).flatMap(({ part, items }) =>
    items.map((item) => ({
      part: part.id,
      partTitle: part.title,
      works: item.works,
      doer: doerOf(item, figures),
    })),
  );
}

function doerOf(item: WorkItem, figures: readonly ProgramFigures[]): Doer {
  if (item.kind === 'hand') return { kind: 'hand', step: item.step.step, why: item.step.why };
  const [job] = item.jobs;
  const minutes = figures.find((f) => f.program === job.program)?.minutes ?? null;
  return { kind: 'program', file: job.program, machine: job.machine.name, worker: job.kind, minutes };
}
