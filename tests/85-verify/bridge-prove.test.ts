/** Every program of the bridge proves, whichever way the instrument is made, and a spoilt one does not. */
import { describe, expect, it } from 'vitest';
import { jobsByProgram, makeProgram } from '../../src/app/programs.ts';
import type { ProvenProgram } from '../../src/app/types.ts';
import { drawPart } from '../../src/drawing/drawPart.ts';
import { listShapes } from '../../src/drawing/listShapes.ts';
import type { Instrument, Shop } from '../../src/profile/types.ts';
import { proveDrawing } from '../../src/verify/dxf/prove.ts';
import { prove } from '../../src/verify/prove.ts';
import { writeDxf } from '../../src/writers/dxf/write.ts';
import { bridged } from '../support/bridges.ts';
import { router, workshop } from '../support/instrument.ts';
import { partsOf, planOf } from '../support/job.ts';
import { twoScales } from '../support/scales.ts';

const OWN = /^(bridge|stop|pin-coupon)/;

function programsOf(instrument: Instrument, shop: Shop = workshop): ProvenProgram[] {
  const own = planOf(instrument, shop).jobs.filter((job) => OWN.test(job.part.id));
  return jobsByProgram(own).map((jobs) => makeProgram(jobs, instrument.name));
}

const failed = (made: readonly ProvenProgram[]): string[] =>
  made.flatMap(({ job, proof }) =>
    proof.checks.filter((c) => !c.passed).map((c) => `${job.program}: ${c.name} ${c.value} > ${c.limit}`),
  );

describe('the programs of a bridge', () => {
  const made = programsOf(bridged());

  it('are holes, slot and outline, plate, template, caul and collars', () => {
    expect(made.map((p) => p.job.program)).toEqual([
      'bridge-walk-round.nc',
      'bridge-holes.nc',
      'bridge-holes-2.nc',
      'bridge-slot.nc',
      'bridge-outline.nc',
      'bridge-plate-walk-round.nc',
      'bridge-plate.nc',
      'bridge-plate-2.nc',
      'bridge-caul-plates.nc',
      'stop-collars.nc',
      'bridge-template.nc',
    ]);
  });

  it('all prove', () => {
    expect(failed(made)).toEqual([]);
    expect(made.every((p) => p.proof.passed)).toBe(true);
  });

  it('prove for the other hand, along the saddle, with two scales, and with the jigs cut by the router', () => {
    expect(failed(programsOf({ ...bridged(), hand: 'left' }))).toEqual([]);
    expect(failed(programsOf(bridged({ stands: 'saddle', wingLength: 0 })))).toEqual([]);
    const scale = twoScales(640, 622, { squareCents: 700, nut: 18, saddle: 28 });
    const slanted = bridged({ stands: 'saddle', width: 44, front: 12 }, { scale });
    expect(failed(programsOf(slanted))).toEqual([]);
    const byRouter = { ...workshop, work: { ...workshop.work, bridgeJigs: router.id } };
    const jigs = programsOf(bridged(), byRouter);
    expect(failed(jigs)).toEqual([]);
    expect(jigs.every((p) => p.job.kind === 'router')).toBe(true);
  });

  it('leave the slot out where it is cut after trial stringing, and a hand step makes it', () => {
    const plan = planOf(bridged({ slotCut: 'after stringing' }));
    expect(plan.jobs.map((j) => j.program)).not.toContain('bridge-slot.nc');
    const step = plan.handSteps.find((s) => s.step === 'cut-saddle-slot-in-place');
    expect(step).toMatchObject({ part: 'bridge', features: ['saddle-slot'] });
    expect(step?.why).toContain('string the instrument on trial');
  });

  it.each([
    [
      'a slot cut a millimetre deeper',
      'bridge-slot.nc',
      (t: string) => t.replaceAll(/Z-4\.\d+|Z-5\.\d*|Z-5\b/g, 'Z-6'),
    ],
    ['a slot moved by 0.05 mm', 'bridge-slot.nc', (t: string) => moved(t, 'X', 0.05)],
    [
      'a pin hole left out',
      'bridge-holes-2.nc',
      (t: string) => t.replace(/\(bridge-pin-3\)[\s\S]*?(?=\(bridge-pin-4\))/, ''),
    ],
    ['an outline moved by 0.05 mm', 'bridge-outline.nc', (t: string) => moved(t, 'Y', 0.05)],
  ])('refuse %s', (_, program, spoil) => {
    const one = made.find((p) => p.job.program === program);
    if (one === undefined) throw new Error(`no ${program}`);
    const text = spoil(one.text);
    expect(text).not.toBe(one.text);
    expect(prove(new TextEncoder().encode(text), one.intent).passed).toBe(false);
  });
});

function moved(text: string, axis: 'X' | 'Y', by: number): string {
  return text.replace(
    new RegExp(`${axis}(-?[\\d.]+)`, 'g'),
    (_, n: string) => `${axis}${(Number(n) + by).toFixed(4)}`,
  );
}

describe('the drawings of a bridge', () => {
  it('are read back as what was drawn, the saddle’s slot on a layer of its own', () => {
    const parts = partsOf(bridged()).filter((part) => OWN.test(part.id));
    expect(parts).toHaveLength(6);
    for (const part of parts) {
      const drawing = drawPart(part);
      const proof = proveDrawing(writeDxf(drawing), listShapes(drawing));
      expect([part.id, proof.checks.filter((c) => !c.passed)]).toEqual([part.id, []]);
    }
    const bridge = parts.find((part) => part.id === 'bridge');
    const layers = bridge === undefined ? [] : drawPart(bridge).layers;
    const shapes = layers.find((l) => l.name === 'SADDLE_SLOT')?.shapes ?? [];
    expect(shapes).toHaveLength(1);
    expect(layers.find((l) => l.name === 'FRET_SLOTS')?.shapes ?? []).toEqual([]);
  });
});
