/** Choices that leave something out, and figures of the shop's own that are risky. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeJob } from '../../src/app/make.ts';
import type { JobSources } from '../../src/app/types.ts';
import { planJobs } from '../../src/machining/planJobs.ts';
import { mm } from '../../src/profile/check.ts';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import { loadShop } from '../../src/profile/loadShop.ts';
import type { Instrument, Shop, Tool } from '../../src/profile/types.ts';
import { parlour, router, workshop } from '../support/instrument.ts';
import { partsOf, planOf } from '../support/job.ts';

const PROFILES = join(import.meta.dirname, '../../profiles');
const read = (name: string): string => readFileSync(join(PROFILES, name), 'utf8');

/** The bundled instrument with its index pins said otherwise. */
function profileWith(pins: string): string {
  const text = read('tarn-parlour.yaml');
  // The bridge has index pins of its own.
  const bare = pins === 'none' ? text.replace(/^ {4}indexPin: .*\n/m, '') : text;
  const changed = bare.replace(/^indexPins:.*\n(?: +.*\n)*/m, `indexPins: ${pins}\n`);
  expect(changed).not.toBe(text);
  return changed;
}

function instrumentWith(pins: string): Instrument {
  const loaded = loadInstrument(profileWith(pins), 'x.yaml');
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.findings));
  return loaded.value.value;
}

describe('index pins', () => {
  it('can be left out, by one word or by their place', () => {
    expect(instrumentWith('none').indexPins.place).toBe('none');
    expect(instrumentWith('{ place: none }').indexPins.place).toBe('none');
    expect(instrumentWith('{ place: slot }').indexPins.place).toBe('slot');
  });

  it('are told from a slip of the pen, with what is allowed', () => {
    const loaded = loadInstrument(profileWith('nome'), 'x.yaml');
    expect(loaded.ok).toBe(false);
    expect(loaded.findings.map((f) => [f.severity, f.where?.path])).toEqual([['error', 'indexPins']]);
  });

  it('leave no hole, no program and no tool behind when there are none, and all else proves', () => {
    const sources: JobSources = {
      profile: { path: 'tarn-parlour.yaml', text: profileWith('none') },
      shop: { path: 'home-shop.yaml', text: read('home-shop.yaml') },
      readInclude: (name) => (name.includes('benchtop') ? withoutDrill(read(name)) : read(name)),
    };
    const made = makeJob(sources);
    expect(made.findings.filter((f) => f.severity === 'error')).toEqual([]);
    if (!made.ok) throw new Error('not made');
    const paths = made.value.files.map((f) => f.path);
    expect(paths).toContain('programs/fingerboard-slots.nc');
    expect(paths).not.toContain('programs/fingerboard-pins.nc');
    const texts = made.value.files
      .filter((f) => /\.(md|csv|txt)$/.test(f.path))
      .map((f) => new TextDecoder().decode(f.bytes));
    expect(texts.join('\n')).not.toMatch(/index-pin/);
  });
});

function withoutDrill(text: string): string {
  const changed = text.replace(/ {2}- id: 5\n(?: {4}.*\n)+/, '');
  expect(changed).not.toBe(text);
  return changed;
}

describe('a drill', () => {
  const tipOf = (tipAngle: string, kind = 'drill'): number | null | undefined => {
    const text = `machines:
  - { kind: router, id: r, travel: { x: 600, y: 400, z: 80 }, spindle: [8000, 24000], maxFeed: { xy: 2000, z: 500 } }
tools:
  - { id: 1, kind: ${kind}, diameter: 6, cuttingLength: 20, shankDiameter: 6${tipAngle} }
`;
    const shop = loadShop(text, 'shop.yaml', () => null);
    if (!shop.ok) throw new Error(JSON.stringify(shop.findings));
    return shop.value.value.tools[0]?.tipAngle;
  };

  it('may have a flat end, said in a word or as half a turn; left out, it has the usual point', () => {
    expect(tipOf(', tipAngle: flat')).toBeNull();
    expect(tipOf(', tipAngle: 180 deg')).toBeNull();
    expect(tipOf(', tipAngle: 135 deg')).toBeCloseTo((135 * Math.PI) / 180, 9);
    expect(tipOf('')).toBeCloseTo((118 * Math.PI) / 180, 9);
    expect(tipOf('', 'flat')).toBeNull();
  });

  it('with a flat end makes round pockets of its size, down to their floor and no deeper', () => {
    const size = 5.05;
    const flat: Tool = {
      ...(workshop.tools[3] as Tool),
      id: 8,
      name: 'flat drill',
      diameter: size,
      shankDiameter: size,
      tipAngle: null,
    };
    const at = parlour.faceMarkers.at.filter((m) => m.shape === 'round' && m.diameter === 5);
    const instrument: Instrument = { ...parlour, faceMarkers: { ...parlour.faceMarkers, at } };
    const shop: Shop = { ...workshop, tools: [...workshop.tools, flat] };
    const job = planOf(instrument, shop).jobs.find((j) => j.program === 'fingerboard-markers.nc');
    expect(job?.operations.map((o) => o.kind)).toEqual(
      at.flatMap((m) => (m.count === 2 ? ['drill', 'drill'] : ['drill'])),
    );
    expect(job?.kind === 'router' && job.tool.id).toBe(8);
  });
});

describe('figures that are risky', () => {
  const codes = (shop: Shop): (string | undefined)[][] => {
    const plan = planJobs(partsOf(parlour, shop), shop);
    if (!plan.ok) throw new Error(JSON.stringify(plan.findings));
    return plan.findings.map((f) => [f.severity, f.code]);
  };

  it('of passes deeper than the cutter is stiff are warned of, with how far it bends', () => {
    const tools = workshop.tools.map((t) => (t.id === 1 ? { ...t, stepDownShare: 1 } : t));
    expect(codes({ ...workshop, tools })).toEqual([['warning', 'step-down-bends-tool']]);
    expect(codes(workshop)).toEqual([]);
    const gentle = workshop.tools.map((t) => (t.id === 1 ? { ...t, stepDownShare: 0.05 } : t));
    expect(codes({ ...workshop, tools: gentle })).toEqual([]);
  });

  it('of a spindle that turns too fast for the machine’s feed are warned of, with the chips it makes', () => {
    const slow = { ...router, spindle: [24000, 24000] as const, maxFeed: { xy: 200, z: 100 } };
    const found = codes({ ...workshop, machines: [slow, ...workshop.machines.slice(1)] });
    expect(found.length).toBeGreaterThan(0);
    expect(new Set(found.map(([, code]) => code))).toEqual(new Set(['chips-too-thin']));
  });
});

describe('a length in a sentence', () => {
  it('is told from another that a rule tells from it', () => {
    expect([0.6, 0.6004, 0.604, 12, 25.4 / 7].map(mm)).toEqual([
      '0.6 mm',
      '0.6004 mm',
      '0.604 mm',
      '12 mm',
      '3.629 mm',
    ]);
  });

  it('shows why a tang does not go into a slot that is a hair narrower', () => {
    const text = profileWith('none')
      .replace(/slotWidth: .*/, 'slotWidth: 0.5996')
      .replace(/tangWidth: .*/, 'tangWidth: 0.6');
    const loaded = loadInstrument(text, 'x.yaml');
    const finding = loaded.findings.find((f) => f.code === 'slot-too-narrow');
    expect(finding?.text).toContain('A tang of 0.6 mm does not go into a slot of 0.5996 mm.');
  });
});
