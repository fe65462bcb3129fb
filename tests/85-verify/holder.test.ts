/** The collet nut: taken into the intent, kept clear of wood and of what stands beside it, in planning and in the proof. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Design, design } from '../../src/app/design.ts';
import { jobsByProgram, makeProgram } from '../../src/app/programs.ts';
import type { ProvenProgram } from '../../src/app/types.ts';
import { unproven } from '../../src/app/unproven.ts';
import { planJobs } from '../../src/machining/planJobs.ts';
import type { ColletNut, KeepOut, Shop } from '../../src/profile/types.ts';
import { prove } from '../../src/verify/prove.ts';
import { parlour, router, workshop } from '../support/instrument.ts';
import { partsOf, planOf } from '../support/job.ts';
import { bytesOf, pocket, rectangle } from '../support/proofSamples.ts';

const NUT: ColletNut = { diameter: 20, length: 12 };

function shopWith(keepOuts: readonly KeepOut[], nut: ColletNut | null = NUT, stickOut = 25): Shop {
  return {
    ...workshop,
    machines: [{ ...router, nut }, ...workshop.machines.slice(1)],
    tools: workshop.tools.map((tool) => ({ ...tool, stickOut })),
    keepOuts,
  };
}

function programsOf(shop: Shop, name: RegExp): ProvenProgram[] {
  return jobsByProgram(planOf(parlour, shop).jobs)
    .filter(([job]) => name.test(job?.program ?? ''))
    .map((jobs) => makeProgram(jobs, 'x'));
}

const beside = (over: Partial<KeepOut> = {}): KeepOut => ({
  name: 'toe clamp',
  part: 'fingerboard',
  machine: null,
  x: [200, 240],
  y: [46, 60],
  z: [-6, 30],
  ...over,
});

describe('the collet nut', () => {
  it('stands in the intent of every tool, as wide as stated from where the tool leaves the collet', () => {
    const holders = (shop: Shop): unknown[] =>
      programsOf(shop, /fingerboard/).flatMap((p) => p.intents.map((i) => i.tool.holder));
    expect(holders(shopWith([]))).toHaveLength(5);
    expect(holders(shopWith([])).every((h) => JSON.stringify(h) === '[{"diameter":20,"from":25}]')).toBe(
      true,
    );
    expect(holders(shopWith([], null)).every((h) => JSON.stringify(h) === '[]')).toBe(true);
  });

  it('is refused in the wood of the stock, by name and line, where the tool is short', () => {
    const [good] = programsOf(shopWith([], { diameter: 20, length: 12 }, 25), /outline/);
    expect(good?.proof.passed).toBe(true);
    const [short] = programsOf(shopWith([], NUT, 6), /outline/);
    expect(short?.proof.checks.filter((c) => !c.passed).map((c) => c.name)).toEqual([
      'shank and holder clear',
    ]);
    // The blank is 6.5 mm thick and the cut goes 1 mm into the board below: 7.5 - 6 of it are nut.
    const deepest = short?.proof.refusals.map((r) => r.found).join(' ');
    expect(deepest).toMatch(/the collet nut, 20 mm wide, \d\.\d\d mm below the top and in wood/);
    expect(short === undefined ? [] : unproven(short)).toMatchObject([
      { code: 'holder-meets-wood', where: { source: 'shop', path: 'tools' } },
    ]);
  });

  it('meets a clamp that the cutter and its shank pass, and says which and where', () => {
    const y: [number, number] = [36, 60];
    const [bare] = programsOf(shopWith([beside({ y })], null), /outline/);
    expect(bare?.proof.passed).toBe(true);
    const [program] = programsOf(shopWith([beside({ y })]), /outline/);
    expect(program?.proof.checks.filter((c) => !c.passed).map((c) => c.name)).toEqual(['keep-outs']);
    const [finding] = program === undefined ? [] : unproven(program);
    expect(finding).toMatchObject({
      code: 'tool-meets-keep-out',
      where: { source: 'shop', path: 'keepOuts' },
    });
    expect(finding?.text).toMatch(
      /line \d+: keep-outs, found the collet nut \d\.\d\d mm inside "toe clamp" \(X 200\.0 to 240\.0, Y 36\.0 to 60\.0, up to Z 30\.0\)/,
    );
  });

  it('passes over the same clamp where it is low enough', () => {
    // At its deepest, 7.5 mm below the top, the nut of a tool that reaches 25 mm out is 17.5 mm above it.
    const y: [number, number] = [36, 60];
    expect(programsOf(shopWith([beside({ y, z: [-6, 17.4] })]), /outline/)[0]?.proof.passed).toBe(true);
    expect(programsOf(shopWith([beside({ y, z: [-6, 17.6] })]), /outline/)[0]?.proof.passed).toBe(false);
  });

  it('is carried over a clamp in travel, high enough for itself', () => {
    const inTheWay = beside({ x: [150, 156], y: [-20, 20], z: [-6, 40] });
    const shop = { ...shopWith([inTheWay]), tools: shopWith([]).tools.filter((t) => t.id !== 1) };
    const plan = planJobs(partsOf(parlour, shop), { ...shop, work: { ...shop.work, fretSlots: 'hand' } });
    if (!plan.ok) throw new Error(JSON.stringify(plan.findings));
    const pins = plan.value.jobs.find((j) => j.program === 'fingerboard-pins.nc');
    const { proof, text } = makeProgram(pins === undefined ? [] : [pins], 'x');
    expect(proof.checks.filter((c) => !c.passed)).toEqual([]);
    // Cutter and shank clear 40 mm by 1 mm.
    expect(text).toContain('G0 Z41');
  });

  it('warns of a clamp that reaches past the nut to the spindle’s body, once for each clamp', () => {
    const shop = shopWith([beside({ y: [60, 70], z: [-6, 29.6] })]);
    const plan = planJobs(partsOf(parlour, shop), shop);
    // 25 + 12 above a tip that is 7.5 mm below the top.
    expect(plan.findings.map((f) => [f.code, f.severity, f.allowed])).toEqual([
      ['keep-out-beside-spindle', 'warning', 'nothing above 29.5 mm'],
    ]);
    const lower = shopWith([beside({ y: [60, 70], z: [-6, 29.4] })]);
    expect(planJobs(partsOf(parlour, lower), lower).findings).toEqual([]);
  });
});

describe('a nut beside a pocket', () => {
  const { text, intent } = pocket();
  const withNut = (from: number): string[] => {
    const holder = [{ diameter: 16, from }];
    const tool = { ...intent.tool, shank: null, holder };
    const proof = prove(bytesOf(text), { ...intent, tool });
    return proof.checks.filter((c) => !c.passed).map((c) => c.name);
  };

  it('may come down to the wood and no farther', () => {
    // The pocket is 2 mm deep.
    expect(withNut(2)).toEqual([]);
    expect(withNut(1.9)).toEqual(['shank and holder clear']);
  });

  it('is looked at beside the blank as well, where the cutter itself meets no wood', () => {
    // The blank is cut down to a strip that the cutter passes at 1.8 mm, and the nut overhangs by 8.
    const away = { stock: { ...intent.stock, region: [rectangle(0, 15, 80, 60)] } };
    const refusedFor = (from: number): string[] => {
      const tool = { ...intent.tool, shank: null, holder: [{ diameter: 16, from }] };
      return prove(bytesOf(text), { ...intent, ...away, tool }).refusals.map((r) => r.rule);
    };
    expect(refusedFor(1.9)).toContain('shank-and-holder-clear');
    expect(refusedFor(2)).not.toContain('shank-and-holder-clear');
  });
});

describe('the bundled shops', () => {
  const PROFILES = join(import.meta.dirname, '../../profiles');
  const read = (name: string): string => readFileSync(join(PROFILES, name), 'utf8');

  function designed(change: (text: string) => string): Design {
    const result = design({
      profile: { path: 'tarn-parlour.yaml', text: read('tarn-parlour.yaml') },
      shop: { path: 'home-shop.yaml', text: read('home-shop.yaml') },
      readInclude: (name) => (name === 'benchtop-router.yaml' ? change(read(name)) : read(name)),
    });
    if (!result.ok) throw new Error(JSON.stringify(result.findings));
    return result.value;
  }

  it('state the nut of every router', () => {
    for (const name of ['benchtop-router', 'plain-router', 'tool-change-router'])
      expect(read(`${name}.yaml`)).toMatch(/^ {4}nut: \{ diameter: /m);
  });

  it('hold an example of a clamp that every program of the board proves with', () => {
    const uncommented = (text: string): string => {
      const changed = text.replace('# keepOuts:\n#   - {', 'keepOuts:\n  - {');
      expect(changed).not.toBe(text);
      return changed;
    };
    const { plan } = designed(uncommented);
    const programs = jobsByProgram(plan.jobs).filter(
      ([job]) => job?.kind === 'router' && job.part.id === 'fingerboard',
    );
    expect(programs.length).toBeGreaterThan(3);
    for (const jobs of programs) {
      const { proof, intent } = makeProgram(jobs, 'x');
      expect(intent.keepOuts.map((k) => k.name)).toEqual(['clamp at the body end']);
      expect(proof.checks.filter((c) => !c.passed)).toEqual([]);
    }
    // It stands on the router: the laser's programs do not know it.
    for (const job of plan.jobs) if (job.kind === 'laser') expect(job.setup.keepOuts).toEqual([]);
  });
});
