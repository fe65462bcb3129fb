/** Feeds where a path is steep: the upright share of every feed stays within what the machine and the wood allow. */
import { describe, expect, it } from 'vitest';
import { makeProgram } from '../../src/app/programs.ts';
import type { RouterJob } from '../../src/machining/types.ts';
import { planMoves } from '../../src/motion/planMoves.ts';
import type { Move } from '../../src/motion/types.ts';
import type { Instrument, Router, Shop } from '../../src/profile/types.ts';
import { prove } from '../../src/verify/prove.ts';
import { parlour, router, workshop } from '../support/instrument.ts';
import { planOf, routerJob } from '../support/job.ts';

const radiused: Instrument = {
  ...parlour,
  fingerboard: { ...parlour.fingerboard, surfaceWhenSlotted: 'radiused' },
};

function shopWith(z: number, arcPlanes = router.controller.arcPlanes): Shop {
  const slow: Router = {
    ...router,
    maxFeed: { xy: 2500, z },
    controller: { ...router.controller, arcPlanes },
  };
  return { ...workshop, machines: [slow, ...workshop.machines.slice(1)] };
}

function job(
  program: string,
  z: number,
  instrument: Instrument = parlour,
  planes = router.controller.arcPlanes,
): RouterJob {
  return routerJob(program, planOf(instrument, shopWith(z, planes)).jobs);
}

interface Slope {
  readonly rise: number;
  readonly upright: number;
}

/** Speed up (positive) or down of every straight feed that also goes sideways, mm/min. */
function slopesOf(moves: readonly Move[]): Slope[] {
  let here = { x: 0, y: 0, z: 0 };
  return moves.flatMap((move) => {
    const from = here;
    if (move.kind === 'arc') here = { ...here, ...move.to };
    if (move.kind === 'rapid' || move.kind === 'feed')
      here = { x: move.x ?? from.x, y: move.y ?? from.y, z: move.z ?? from.z };
    if (move.kind !== 'feed') return [];
    const way = Math.hypot(here.x - from.x, here.y - from.y, here.z - from.z);
    const rise = here.z - from.z;
    return way === Math.abs(rise) || rise === 0
      ? []
      : [{ rise, upright: (move.feed * Math.abs(rise)) / way }];
  });
}

describe('the slopes of tabs', () => {
  it('are climbed no faster than the machine goes up and down, and left no faster than the cutter plunges', () => {
    const outline = job('fingerboard-outline.nc', 60);
    const slopes = slopesOf(planMoves(outline));
    const climbs = slopes.filter((s) => s.rise > 0);
    expect(climbs.length).toBeGreaterThan(8);
    // Slowed as far as needed and no farther.
    expect(Math.max(...climbs.map((s) => s.upright))).toBeGreaterThan(59);
    for (const { rise, upright } of slopes)
      expect(upright).toBeLessThanOrEqual(rise > 0 ? 60 : outline.feeds.plunge);
  });

  it('are climbed at full feed where the machine can', () => {
    const outline = job('fingerboard-outline.nc', 2000);
    const climbs = slopesOf(planMoves(outline)).filter((s) => s.rise > 0);
    const fastest = Math.max(outline.feeds.feed, outline.feeds.wall?.feed ?? 0);
    const most = fastest * Math.sin((15 * Math.PI) / 180);
    expect(Math.max(...climbs.map((s) => s.upright))).toBeCloseTo(most, 0);
  });

  it.each([
    ['arcs', router.controller.arcPlanes],
    ['chords', [] as const],
  ])(
    'prove on a machine that is very slow up and down, as do slots over a curved board, in %s',
    (_, planes) => {
      for (const program of ['fingerboard-outline.nc', 'fingerboard-slots.nc']) {
        const { proof } = makeProgram([job(program, 20, radiused, planes)], 'x');
        expect(proof.checks.filter((c) => !c.passed)).toEqual([]);
        expect(proof.passed).toBe(true);
      }
    },
  );

  it('are refused when a climb is fed faster than that, though the feed itself is allowed', () => {
    const outline = job('fingerboard-outline.nc', 60);
    const { text, intent } = makeProgram([outline], 'x');
    const slow = /F(\d+(?:\.\d+)?)/g;
    const feeds = [...text.matchAll(slow)].map((m) => Number(m[1]));
    const climb = feeds.find((f) => f > outline.feeds.plunge && f < outline.feeds.feed);
    expect(climb).toBeDefined();
    const spoilt = text.replaceAll(`F${climb}`, `F${outline.feeds.feed}`);
    const proof = prove(new TextEncoder().encode(spoilt), intent);
    expect(proof.checks.filter((c) => !c.passed).map((c) => c.name)).toContain('machine feed');
  });
});
