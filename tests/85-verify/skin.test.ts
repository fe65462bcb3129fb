/** Parts held by a skin: what is planned, that it proves, that carving leaves it whole, and that every way of spoiling it is refused. */
import { describe, expect, it } from 'vitest';
import { jobsByProgram, makeProgram } from '../../src/app/programs.ts';
import type { ProvenProgram } from '../../src/app/types.ts';
import { planJobs } from '../../src/machining/planJobs.ts';
import type { Shop } from '../../src/profile/types.ts';
import { prove } from '../../src/verify/prove.ts';
import { carve } from '../support/carve.ts';
import { parlour, router, workshop } from '../support/instrument.ts';
import { partsOf, planOf } from '../support/job.ts';

const SKIN = 0.4;
const shop: Shop = {
  ...workshop,
  holding: { ...workshop.holding, by: 'skin', skin: SKIN },
  work: { ...workshop.work, radiusBlock: router.id, slotTemplate: router.id },
};
const encoder = new TextEncoder();

function make(program: string, from: Shop = shop): ProvenProgram {
  const jobs = jobsByProgram(planOf(parlour, from).jobs).find(([job]) => job?.program === program);
  if (jobs === undefined) throw new Error(`no program ${program}`);
  return makeProgram(jobs, parlour.name);
}

const made = make('slot-template.nc');
const thickness = 3;

function failed(text: string, { intent }: ProvenProgram = made): string[] {
  const proof = prove(encoder.encode(text), intent);
  return proof.checks.filter((c) => !c.passed).map((c) => c.name);
}

describe('a skin', () => {
  it.each(['fingerboard-outline.nc', 'slot-template.nc', 'radius-block-plates.nc'])(
    'is left under every outline of %s and proves, even all round',
    (program) => {
      const { proof, intents, job } = make(program);
      expect(proof.checks.filter((c) => !c.passed)).toEqual([]);
      expect(proof.passed).toBe(true);
      const held = intents.flatMap((i) => i.cuts).filter((c) => c.kind === 'separate');
      expect(held.length).toBeGreaterThan(0);
      for (const cut of held) {
        expect(cut).toMatchObject({ through: false, tabs: [], floor: { kind: 'plane' } });
        const checks = proof.checks.filter((c) => c.cut === cut.id && c.name.startsWith('skin too'));
        expect(checks.map((c) => c.name)).toEqual(['skin too thin', 'skin too thick']);
        expect(checks.every((c) => c.seen > 100 && Math.abs(c.value) < 0.001)).toBe(true);
        expect(cut.floor.kind === 'plane' && cut.floor.z - job.setup.stock.bottom).toBeCloseTo(SKIN, 9);
      }
    },
  );

  it('goes nowhere into the board below, in a job without openings', () => {
    const heights = [...made.text.matchAll(/Z(-[\d.]+)/g)].map((m) => Number(m[1]));
    expect(Math.min(...heights)).toBeCloseTo(SKIN - thickness, 4);
    expect(made.intent.limits.zMin).toBeGreaterThan(-thickness);
  });

  it('is as thick as it is meant to be everywhere in the groove, carved cell by cell', () => {
    const { x, y } = boxOf(made);
    const step = 0.1;
    const plot = { x: [x[0] - 4, x[0] + 12], y: [y[0] - 4, y[0] + 12], step, top: () => 0 } as const;
    const wood = carve(made.text, made.intent.tool.diameter, plot);
    let [least, cells] = [Number.POSITIVE_INFINITY, 0];
    for (let j = 0; j < wood.ny; j += 1)
      for (let i = 0; i < wood.nx; i += 1) {
        const height = wood.heightAt(i, j) + thickness;
        least = Math.min(least, height);
        if (wood.isCut(i, j) && Math.abs(height - SKIN) < 1e-3) cells += 1;
      }
    expect(least).toBeCloseTo(SKIN, 3);
    // An L of two grooves, one cutter wide.
    expect(cells * step * step).toBeGreaterThan(2 * 11 * made.intent.tool.diameter * 0.95);
  });

  it('is judged with nothing set loose: cuts inside the part may follow', () => {
    expect(make('radius-block-plates.nc').proof.checks.map((c) => c.name)).not.toContain(
      'inner before outer',
    );
  });
});

function boxOf({ intent }: ProvenProgram): { x: [number, number]; y: [number, number] } {
  const ring = intent.cuts.find((c) => c.kind === 'separate')?.keep?.[0] ?? [];
  const [xs, ys] = [ring.map((v) => v[0]), ring.map((v) => v[1])];
  return { x: [Math.min(...xs), Math.max(...xs)], y: [Math.min(...ys), Math.max(...ys)] };
}

describe('a skin that is spoilt is refused', () => {
  const floor = `Z${-(thickness - SKIN)}`;
  const deepest = made.text.split('\n').findIndex((line) => line.includes(floor));

  it('when the last turn goes deeper or less deep by more than its tolerance', () => {
    expect(made.text).toContain(floor);
    const deeper = made.text.replaceAll(floor, `Z${-(thickness - SKIN) - 0.03}`);
    expect(failed(deeper)).toEqual(expect.arrayContaining(['floor deep', 'skin too thin']));
    const higher = made.text.replaceAll(floor, `Z${-(thickness - SKIN) + 0.03}`);
    expect(failed(higher)).toEqual(expect.arrayContaining(['wall undercut', 'skin too thick']));
  });

  it('when it is pierced at one place, shorter than the looks along it lie apart', () => {
    const lines = made.text.split('\n');
    const pierced = [
      ...lines.slice(0, deepest + 1),
      'G1 Z-3.1 F30',
      `G1 ${floor} F30`,
      ...lines.slice(deepest + 1),
    ].join('\n');
    expect(failed(pierced)).toEqual(expect.arrayContaining(['floor deep', 'lowest point']));
  });

  it('when the side that closes it is lost', () => {
    const lines = made.text.split('\n');
    const last = lines.findLastIndex((line) => line.includes(floor) || /^(G1 )?[XY]/.test(line));
    const lost = lines.filter((_, i) => i < deepest || i > last).join('\n');
    expect(failed(lost)).toContain('wall undercut');
  });

  it('when the intent itself leaves no more than its own tolerance, or asks for tabs besides', () => {
    const over = (z: number, tabs = 0): string => {
      const cuts = made.intent.cuts.map((c) => ({
        ...c,
        floor: { kind: 'plane' as const, z },
        tabs: Array.from({ length: tabs }, () => ({ at: [20, 4] as const, length: 6, height: 1 })),
      }));
      const proof = prove(encoder.encode(made.text), { ...made.intent, cuts });
      expect(proof.passed).toBe(false);
      return proof.refusals.map((r) => r.found).join('; ');
    };
    expect(over(-thickness + 0.02)).toContain('a skin of 0.020 mm');
    expect(over(-thickness - 0.2)).toContain('a skin of -0.200 mm');
    expect(over(-thickness + SKIN, 1)).toContain('tabs on a skin');
  });
});

describe('what holds a part', () => {
  const holding = (over: Partial<Shop['holding']>): Shop => ({
    ...workshop,
    work: { ...workshop.work, radiusBlock: router.id },
    holding: { ...workshop.holding, ...over },
  });

  it('is a skin, for the whole job, where one of its parts has no room for tabs', () => {
    const plan = planOf(parlour, holding({ tabLength: 45 }));
    const outlines = plan.jobs.flatMap((job) =>
      job.kind === 'router' ? job.operations.filter((o) => o.kind === 'outline') : [],
    );
    const board = outlines.filter((o) => o.feature === 'fingerboard-outline');
    const plates = outlines.filter((o) => o.feature !== 'fingerboard-outline');
    expect(board.map((o) => [o.skin, o.tabs.length > 1])).toEqual([[null, true]]);
    expect(plates.length).toBeGreaterThan(1);
    expect(plates.every((o) => o.skin === 0.4 && o.tabs.length === 0)).toBe(true);
    expect(plan.handSteps.filter((s) => s.step.startsWith('free-')).map((s) => s.part)).toEqual([
      'radius-block-plates',
    ]);
  });

  it('must be lower than the blank: tabs as high as it, a skin of half of it', () => {
    const codes = (over: Partial<Shop['holding']>): (string | undefined)[][] => {
      const from = holding(over);
      const plan = planJobs(partsOf(parlour, from), from);
      expect(plan.ok).toBe(false);
      return plan.findings.map((f) => [f.code, f.where?.path, f.allowed]);
    };
    expect(codes({ tabHeight: 3 })).toEqual([['tabs-too-high', 'holding.tabHeight', 'less than 3 mm']]);
    expect(codes({ by: 'skin', skin: 1.6 })).toEqual([['skin-too-thick', 'holding.skin', 'at most 1.5 mm']]);
    expect(codes({ by: 'skin', skin: 4 }).map(([code]) => code)).toEqual([
      'skin-too-thick',
      'skin-too-thick',
    ]);
  });
});
