import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildIntent } from '../../src/intent/build.ts';
import type { RouterJob } from '../../src/machining/types.ts';
import { planMoves } from '../../src/motion/planMoves.ts';
import type { Move } from '../../src/motion/types.ts';
import type { KeepOut } from '../../src/profile/types.ts';
import { type Proof, prove } from '../../src/verify/prove.ts';
import { writeProgram } from '../../src/writers/gcode/write.ts';
import { routerJob } from '../support/job.ts';
import { bytesOf } from '../support/proofSamples.ts';

const clear = 5;
const travel = 1.5;

interface Hop {
  readonly z: number;
  /** Null: from nobody knows where. */
  readonly from: [number, number] | null;
  readonly to: [number, number];
}

/** All ways across at rapid. */
function hops(moves: readonly Move[]): Hop[] {
  let z = Number.NaN;
  let here: [number, number] | null = null;
  const list: Hop[] = [];
  for (const move of moves) {
    const to = placeOf(move, here);
    const isRapid = move.kind === 'rapid' && (move.x ?? move.y) !== undefined;
    if (to !== null && (isRapid || move.kind === 'drill')) list.push({ z, from: here, to });
    here = to;
    z = heightOf(move, z);
  }
  return list;
}

function placeOf(move: Move, here: [number, number] | null): [number, number] | null {
  if (move.kind === 'arc') return [move.to.x, move.to.y];
  if (move.kind !== 'rapid' && move.kind !== 'feed' && move.kind !== 'drill') return here;
  const [x, y] = [move.x ?? here?.[0], move.y ?? here?.[1]];
  return x === undefined || y === undefined ? null : [x, y];
}

function heightOf(move: Move, z: number): number {
  if (move.kind === 'arc') return move.to.z ?? z;
  if (move.kind === 'drill') return move.retract;
  return move.kind === 'rapid' || move.kind === 'feed' ? (move.z ?? z) : z;
}

function withKeepOuts(job: RouterJob, keepOuts: readonly KeepOut[], straight = true): RouterJob {
  const controller = { ...job.machine.controller, straightRapids: straight };
  return { ...job, machine: { ...job.machine, controller }, setup: { ...job.setup, keepOuts } };
}

function keepOut(x: readonly [number, number], y: readonly [number, number], top: number): KeepOut {
  return { name: 'clamp', part: 'fingerboard', machine: null, x, y, z: [-6, top] };
}

function proofOf(job: RouterJob, moves: readonly Move[] = planMoves(job)): Proof {
  const text = writeProgram(moves, { remarks: [], controller: job.machine.controller });
  return prove(bytesOf(text), buildIntent(job, '0'.repeat(64)));
}

const markers = routerJob('fingerboard-markers.nc');
const slots = routerJob('fingerboard-slots.nc');
const pins = routerJob('fingerboard-pins.nc');

describe('travel between features', () => {
  it.each([
    ['slots', slots],
    ['pockets', markers],
    ['holes', pins],
  ])('of %s is low, but clear at start and end', (_, job) => {
    const list = hops(planMoves(job));
    expect(list.length).toBeGreaterThan(2);
    expect(list.at(0)?.z).toBe(clear);
    expect(list.at(-1)).toMatchObject({ z: clear, to: [0, 0] });
    // The rings of a pocket are passed between at the height at which rapids end.
    for (const hop of list.slice(1, -1)) expect([travel, 0.5]).toContain(hop.z);
    expect(list.slice(1, -1).some((hop) => hop.z === travel)).toBe(true);
    expect(proofOf(job).passed).toBe(true);
  });

  it('is the clear height where that is stated for travel too', () => {
    const job = { ...slots, machine: { ...slots.machine, travelHeight: clear } };
    for (const hop of hops(planMoves(job))) expect(hop.z).toBe(clear);
  });

  it('goes over a keep-out that lies under the way, and only there', () => {
    const [a, b] = markers.operations.map((o) => (o.kind === 'bore' ? o.at : [0, 0]));
    const [ax = 0, bx = 0] = [a?.[0], b?.[0]];
    const middle = (ax + bx) / 2;
    const job = withKeepOuts(markers, [keepOut([middle - 4, middle + 4], [-10, 10], 12)]);
    const list = hops(planMoves(job)).slice(1, -1);
    const over = list.filter((hop) => hop.from !== null && (hop.from[0] - middle) * (hop.to[0] - middle) < 0);
    expect(over.map((hop) => hop.z)).toEqual([13]);
    expect(list.filter((hop) => hop.z > travel)).toHaveLength(1);
    expect(proofOf(job).passed).toBe(true);
  });

  it('goes to the clear height over a keep-out that is lower than that', () => {
    const job = withKeepOuts(markers, [keepOut([100, 240], [-3, 3], 2)]);
    expect(new Set(hops(planMoves(job)).map((hop) => hop.z))).toContain(clear);
    const low = withKeepOuts(markers, [keepOut([100, 240], [-3, 3], 0.3)]);
    expect(
      Math.max(
        ...hops(planMoves(low))
          .slice(1, -1)
          .map((hop) => hop.z),
      ),
    ).toBe(travel);
  });

  it('goes over what lies anywhere in the box where axes do not arrive together', () => {
    // Off the straight way between two places of a slanted tour, yet inside the box they span.
    const bores = markers.operations.filter((o) => o.kind === 'bore').slice(0, 2);
    const at: readonly [number, number][] = [
      [100, -20],
      [200, 20],
    ];
    const operations = bores.map((bore, i) => ({ ...bore, at: at[i] ?? bore.at }));
    const stop = [keepOut([180, 188], [-18, -10], 9)];
    const straight = withKeepOuts({ ...markers, operations }, stop, true);
    const anyOrder = withKeepOuts({ ...markers, operations }, stop, false);
    const heights = (job: RouterJob): number[] =>
      hops(planMoves(job))
        .slice(1, -1)
        .filter((hop) => hop.from !== null && Math.abs(hop.from[0] - hop.to[0]) > 50)
        .map((hop) => hop.z);
    expect(heights(straight)).toEqual([travel]);
    expect(heights(anyOrder)).toEqual([10]);
    expect(proofOf(straight).passed).toBe(true);
    expect(proofOf(anyOrder).passed).toBe(true);
    // The same low way under the other machine's rapids is refused.
    const refused = proofOf(anyOrder, planMoves(straight));
    expect(refused.checks.filter((c) => !c.passed).map((c) => c.name)).toEqual(['keep-outs']);
  });

  it('starts above every keep-out and comes home above those in the way, to the clear height', () => {
    const job = withKeepOuts(markers, [keepOut([40, 60], [-40, 40], 20)]);
    const moves = planMoves(job);
    const list = hops(moves);
    expect(list.at(0)?.z).toBe(21);
    expect(list.at(-1)?.z).toBe(21);
    expect(moves.at(-1)).toEqual({ kind: 'rapid', z: clear });
    expect(proofOf(job).passed).toBe(true);
  });

  it('proves whatever keep-outs stand beside the cuts', () => {
    const number = (min: number, max: number) => fc.integer({ min, max });
    const box = fc.tuple(number(20, 300), number(4, 20), number(-60, 40), number(4, 20), number(1, 30));
    fc.assert(
      fc.property(fc.array(box, { minLength: 1, maxLength: 3 }), fc.boolean(), (boxes, straight) => {
        const bores = markers.operations.flatMap((o) => (o.kind === 'bore' ? [o] : []));
        const keepOuts = boxes
          .map(([x, w, y, h, top]) => keepOut([x, x + w], [y, y + h], top))
          .filter((k) =>
            bores.every(
              ({ at, diameter }) =>
                Math.hypot(
                  Math.max(k.x[0] - at[0], at[0] - k.x[1], 0),
                  Math.max(k.y[0] - at[1], at[1] - k.y[1], 0),
                ) >
                diameter / 2 + 3,
            ),
          );
        const proof = proofOf(withKeepOuts(markers, keepOuts, straight));
        expect(proof.checks.filter((c) => !c.passed)).toEqual([]);
      }),
      { seed: 17, numRuns: 40 },
    );
  });
});

describe('the prover on low travel', () => {
  it('refuses a rapid across lower than the intent allows', () => {
    const moves = planMoves(slots).map((m) => (m.kind === 'rapid' && m.z === travel ? { ...m, z: 0.4 } : m));
    const names = proofOf(slots, moves)
      .checks.filter((c) => !c.passed)
      .map((c) => c.name);
    expect(names).toEqual(['rapids']);
  });

  it("does not take an intent's word for a rapid floor inside the stock", () => {
    const intent = buildIntent(slots, '0'.repeat(64));
    const text = writeProgram(planMoves(slots), { remarks: [], controller: slots.machine.controller });
    const thicker = { ...intent, stock: { ...intent.stock, top: { kind: 'plane' as const, z: 2 } } };
    const failed = prove(bytesOf(text), thicker).checks.filter((c) => !c.passed);
    expect(failed.map((c) => c.name)).toContain('rapids');
  });
});

describe('slots', () => {
  it('start at the end that saves travel: the way across is never longer than to the other end', () => {
    const list = hops(planMoves(slots)).slice(1, -1);
    expect(list).toHaveLength(18);
    for (const { from, to } of list) {
      if (from === null) throw new Error('a hop from nowhere');
      expect(Math.abs(from[1] - to[1])).toBeLessThan(3);
    }
  });

  it('wider than the cutter are left and entered at the same end from lane to lane', () => {
    const operations = slots.operations.map((o) => (o.kind === 'slot' ? { ...o, width: 1 } : o));
    const list = hops(planMoves({ ...slots, operations })).slice(1, -1);
    expect(list.length).toBeGreaterThan(30);
    for (const { from, to } of list) expect(Math.abs((from?.[1] ?? Number.NaN) - to[1])).toBeLessThan(3);
  });
});
