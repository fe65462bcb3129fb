/** The last pass along an outline, the way walls are cut, and what a faster feed is good for. */
import { describe, expect, it } from 'vitest';
import { makeProgram } from '../../src/app/programs.ts';
import type { OutlineOperation, RouterJob } from '../../src/machining/types.ts';
import { planMoves } from '../../src/motion/planMoves.ts';
import type { Move } from '../../src/motion/types.ts';
import type { MillingDirection, Shop } from '../../src/profile/types.ts';
import { prove } from '../../src/verify/prove.ts';
import { parlour, workshop } from '../support/instrument.ts';
import { planOf, routerJob } from '../support/job.ts';

const OUTLINES = ['fingerboard-outline.nc', 'radius-block-plates.nc'] as const;

function shopWith(direction: MillingDirection, allowance: number | null = null): Shop {
  return {
    ...workshop,
    work: { ...workshop.work, radiusBlock: 'small-router' },
    bores: { direction },
    outlines: { direction, allowance },
  };
}

function jobs(shop: Shop): RouterJob[] {
  const all = planOf(parlour, shop).jobs;
  return all.flatMap((job) => (job.kind === 'router' && job.operations.length > 0 ? [job] : []));
}

const job = (program: string, shop: Shop = shopWith('climb')): RouterJob => routerJob(program, jobs(shop));

function outlineOf({ operations }: RouterJob): OutlineOperation {
  const outline = operations.find((o) => o.kind === 'outline');
  if (outline === undefined) throw new Error('no outline');
  return outline;
}

/** Twice the area that the tool's way encloses below the wood's top, counter-clockwise positive. */
function turnOf(moves: readonly Move[]): number {
  let here = { x: 0, y: 0, z: 5 };
  let sum = 0;
  for (const move of moves) {
    const from = here;
    if (move.kind === 'arc') here = { ...here, ...move.to };
    if (move.kind === 'rapid' || move.kind === 'feed')
      here = { x: move.x ?? from.x, y: move.y ?? from.y, z: move.z ?? from.z };
    if (here.z >= 0) continue;
    sum += from.x * here.y - from.y * here.x;
    if (move.kind === 'arc' && here.x === from.x) sum += move.clockwise ? -1 : 1;
  }
  return sum;
}

describe('outlines', () => {
  it.each(OUTLINES)(
    'of %s prove climbing and the conventional way, which turns the other way round',
    (name) => {
      for (const direction of ['climb', 'conventional'] as const) {
        const made = job(name, shopWith(direction));
        expect(makeProgram([made], 'Test').proof.passed, direction).toBe(true);
        const only = { ...made, operations: [outlineOf(made)] };
        expect(Math.sign(turnOf(planMoves(only)))).toBe(direction === 'climb' ? -1 : 1);
      }
    },
  );

  it('are gone round once more at full depth, no deeper at once than one and a half cutters', () => {
    const made = job('fingerboard-outline.nc');
    const { finish } = outlineOf(made);
    expect(finish?.allowance).toBeCloseTo(0.04 * made.tool.diameter, 9);
    expect(finish?.stepDown).toBeCloseTo(1.5 * made.tool.diameter, 9);
    const leads = planMoves(made).filter(
      (m) => m.kind === 'arc' && Math.abs(radiusOf(m) - made.tool.diameter / 2) < 1e-6 && !m.clockwise,
    );
    const depth = -outlineOf(made).z + made.below;
    expect(leads).toHaveLength(2 * Math.ceil(depth / (finish?.stepDown ?? 0)));
  });

  it('have no such pass where the shop wants none, and still prove', () => {
    const made = job('fingerboard-outline.nc', shopWith('climb', 0));
    expect(outlineOf(made).finish).toBeNull();
    expect(made.feeds.wall).toBeNull();
    expect(makeProgram([made], 'Test').proof.passed).toBe(true);
  });

  it('are come to straight from the groove where no side has room for arcs', () => {
    const made = job('fingerboard-outline.nc');
    const bare = made.operations.map((o) =>
      o.kind === 'outline' && o.finish !== null ? { ...o, finish: { ...o.finish, lead: null } } : o,
    );
    expect(makeProgram([{ ...made, operations: bare }], 'Test').proof.passed).toBe(true);
  });
});

function radiusOf(move: Move & { kind: 'arc' }): number {
  return Math.hypot(move.to.x - move.centre.x, move.to.y - move.centre.y);
}

describe('bores', () => {
  it('go counter-clockwise climbing, clockwise the conventional way, and prove both ways', () => {
    for (const direction of ['climb', 'conventional'] as const) {
      const made = jobs(shopWith(direction)).find((j) => j.operations.every((o) => o.kind === 'bore'));
      if (made === undefined) throw new Error('nothing is bored');
      const arcs = planMoves(made).filter((m) => m.kind === 'arc');
      expect(arcs.length).toBeGreaterThan(3);
      expect(arcs.every((arc) => arc.clockwise === (direction === 'conventional'))).toBe(true);
      expect(makeProgram([made], 'Test').proof.passed).toBe(true);
    }
  });
});

describe('the feed of a last pass', () => {
  it('is refused by the proof in any wider cut', () => {
    const made = job('fingerboard-outline.nc');
    const { text, intent } = makeProgram([made], 'Test');
    const fast = made.feeds.wall?.feed ?? 0;
    expect(fast).toBeGreaterThan(made.feeds.feed);
    expect(intent.limits.shaving).toEqual({ above: made.feeds.feed, width: made.feeds.wall?.width });
    const spoilt = text.replaceAll(`F${made.feeds.feed}`, `F${fast}`);
    expect(spoilt).not.toBe(text);
    const proof = prove(new TextEncoder().encode(spoilt), intent);
    expect(proof.passed).toBe(false);
    expect(proof.checks.filter((c) => !c.passed).map((c) => c.name)).toContain('shavings only');
  });
});
