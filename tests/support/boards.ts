/** Boards for tests: a parlour with another surface, and slots made by hand on any surface. */
import type { RouterJob, SlotOperation } from '../../src/machining/types.ts';
import type { Cone, Floor, Top } from '../../src/parts/types.ts';
import type { Fingerboard, Instrument, RadiusAlong } from '../../src/profile/types.ts';
import { parlour } from './instrument.ts';
import { routerJob } from './job.ts';

/** The parlour with other fields of its fingerboard. */
export function boardWith(fields: Partial<Fingerboard>, instrument: Instrument = parlour): Instrument {
  return { ...instrument, fingerboard: { ...instrument.fingerboard, ...fields } };
}

/** A wide cone: its second radius at the body end. */
export function cone(radius: number, atEnd: number): { radius: number; radiusAlong: RadiusAlong } {
  return { radius, radiusAlong: { kind: 'cone', fret: null, radius: atEnd } };
}

/** A slot drawn by hand, in the program frame. */
export interface HandSlot {
  readonly line: SlotOperation['line'];
  readonly runOut: SlotOperation['runOut'];
  readonly width?: number;
  readonly floor: Floor;
}

/** The fret-slot job of the parlour with slots of one's own on a blank whose top is given. */
export function slotJob(slots: readonly HandSlot[], top: Top = { kind: 'plane', z: 0 }): RouterJob {
  const job = routerJob('fingerboard-slots.nc');
  return {
    ...job,
    tool: { ...job.tool, cuttingLength: 6, stickOut: 15 },
    setup: { ...job.setup, stock: { ...job.setup.stock, top } },
    operations: slots.map((slot, i) => ({
      id: `slot-${String(i + 1).padStart(2, '0')}`,
      feature: `slot-${String(i + 1).padStart(2, '0')}`,
      kind: 'slot',
      width: 0.6,
      ...slot,
    })),
  };
}

/** A floor below a cone whose stations are the ends of the parlour's board, in the program frame. */
export function coneFloor(R: readonly [number, number], below: number): Cone {
  return { kind: 'cone', x: [10, 450], R, crest: 0, below };
}
