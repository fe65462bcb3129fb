import { describe, expect, it } from 'vitest';
import type { RouterJob, SlotOperation } from '../../src/machining/types.ts';
import { slotMoves } from '../../src/motion/slot.ts';
import type { Move } from '../../src/motion/types.ts';
import { parlour, router, workshop } from '../support/instrument.ts';
import { planOf, routerJob } from '../support/job.ts';

type Sample = readonly [y: number, z: number];

/** The height along every pass, sampled from the moves alone: lines straight, arcs about their centres. */
function samplesOf(moves: readonly Move[]): Sample[] {
  const out: Sample[] = [];
  let [y, z] = [0, 0];
  for (const move of moves) {
    const [fromY, fromZ] = [y, z];
    if (move.kind === 'arc') {
      const centre = [move.centre.y, move.centre.z ?? Number.NaN] as const;
      const radius = Math.hypot(fromY - centre[0], fromZ - centre[1]);
      for (let i = 1; i <= 200; i += 1) {
        const at = fromY + ((move.to.y - fromY) * i) / 200;
        out.push([at, centre[1] + Math.sqrt(radius ** 2 - (at - centre[0]) ** 2)]);
      }
      [y, z] = [move.to.y, move.to.z ?? Number.NaN];
    } else if (move.kind === 'feed') {
      [y, z] = [move.y ?? y, move.z ?? z];
      for (let i = 1; i <= 50; i += 1)
        out.push([fromY + ((y - fromY) * i) / 50, fromZ + ((z - fromZ) * i) / 50]);
    } else if (move.kind === 'rapid') {
      [y, z] = [move.y ?? y, move.z ?? z];
    }
  }
  return out;
}

/** Least height of the floor left at y: the lowest cutter whose flat end covers it. */
function floorLeft(samples: readonly Sample[], y: number, radius: number): number {
  return Math.min(...samples.filter(([at]) => Math.abs(at - y) <= radius).map(([, z]) => z));
}

function slotOf(job: RouterJob, index: number): SlotOperation {
  const slot = job.operations[index];
  if (slot?.kind !== 'slot') throw new Error('not a slot');
  return slot;
}

const R = parlour.fingerboard.radius;
const meant = (y: number): number => Math.sqrt(R * R - y * y) - R - parlour.frets.slotDepth;

describe.each([
  ['arcs in the YZ plane', routerJob('fingerboard-slots.nc')],
  [
    'short chords',
    routerJob(
      'fingerboard-slots.nc',
      planOf(parlour, {
        ...workshop,
        machines: workshop.machines.map((m) =>
          m.kind === 'router' ? { ...router, controller: { ...router.controller, arcPlanes: [] } } : m,
        ),
      }).jobs,
    ),
  ],
])('a fret slot in %s', (_name, job) => {
  const slot = slotOf(job, 11);
  const half = Math.abs(slot.line[0][1]);
  const samples = samplesOf(slotMoves(slot, job));

  it('leaves the floor at the meant depth from edge to edge: 0 to 0.03 deeper, never shallower', () => {
    for (let y = -half; y <= half; y += 0.25) {
      const deeper = meant(y) - floorLeft(samples, y, 0.3);
      expect(deeper).toBeGreaterThanOrEqual(0);
      expect(deeper).toBeLessThanOrEqual(0.03);
    }
  });

  it('takes no more than the step-down at any place in any pass', () => {
    const passes: Sample[][] = [];
    let direction = 0;
    samples.forEach((sample, i) => {
      const turn = Math.sign(sample[0] - (samples[i - 1]?.[0] ?? sample[0]));
      if (turn !== 0 && turn !== direction) passes.push([]);
      if (turn !== 0) direction = turn;
      passes.at(-1)?.push(sample);
    });
    expect(passes.length).toBeGreaterThan(9);
    for (let y = -half; y <= half; y += 1) {
      let stock = 0;
      for (const pass of passes) {
        const here = pass.filter(([at]) => Math.abs(at - y) < 0.3).map(([, z]) => z);
        const z = Math.min(stock, ...here);
        expect(stock - z).toBeLessThanOrEqual(job.feeds.stepDown + 0.001);
        stock = z;
      }
    }
  });

  it('runs past both edges by no more than the waste allows', () => {
    const ys = samples.map(([y]) => y);
    expect(Math.max(...ys)).toBeCloseTo(half + 1.5 - 0.3, 9);
    expect(Math.min(...ys)).toBeCloseTo(-(half + 1.5 - 0.3), 9);
  });
});

describe('a slot wider than the cutter', () => {
  it('is cut in lanes side by side that reach both walls', () => {
    const job = routerJob('fingerboard-slots.nc');
    const wide = { ...slotOf(job, 4), width: 1 };
    const xs = slotMoves(wide, job).flatMap((m) => (m.kind === 'rapid' && m.x !== undefined ? [m.x] : []));
    const x = wide.line[0][0];
    expect(Math.min(...xs) - 0.3).toBeCloseTo(x - 0.5, 9);
    expect(Math.max(...xs) + 0.3).toBeCloseTo(x + 0.5, 9);
  });
});

describe('a blank that already carries its radius', () => {
  it('is cut to the same floor with fewer passes', () => {
    const job = routerJob(
      'fingerboard-slots.nc',
      planOf({ ...parlour, fingerboard: { ...parlour.fingerboard, surfaceWhenSlotted: 'radiused' } }).jobs,
    );
    const flat = routerJob('fingerboard-slots.nc');
    const moves = slotMoves(slotOf(job, 11), job);
    const samples = samplesOf(moves);
    for (let y = -28; y <= 28; y += 0.5) {
      const deeper = meant(y) - floorLeft(samples, y, 0.3);
      expect(deeper).toBeGreaterThanOrEqual(0);
      expect(deeper).toBeLessThanOrEqual(0.03);
    }
    expect(moves.length).toBeLessThan(slotMoves(slotOf(flat, 11), flat).length);
  });
});
