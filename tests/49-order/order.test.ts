import { describe, expect, it } from 'vitest';
import { design } from '../../src/app/design.ts';
import { orderPageOf, tasksOf } from '../../src/app/workPages.ts';
import { declare } from '../../src/order/facts.ts';
import { planOrder } from '../../src/order/planOrder.ts';
import { sortSteps } from '../../src/order/sortSteps.ts';
import type { BuildStep, DeclaredStep } from '../../src/order/types.ts';
import { benchSheet } from '../../src/sheet/benchSheet.ts';
import { profileNames, readProject, soundValue, textOf } from '../30-profile/bundled.ts';

const step = (id: string, after: readonly string[], wanted = true): DeclaredStep =>
  declare({ id, title: id, after, does: [], wanted });

describe('sorting steps', () => {
  it('keeps the declared order where nothing forces another', () => {
    const sorted = sortSteps([step('c', ['a']), step('a', []), step('b', [])]);
    expect(sorted.map(({ id }) => id)).toEqual(['a', 'c', 'b']);
  });

  it('hands on what a step that is left out would have waited for', () => {
    const sorted = sortSteps([step('c', ['b']), step('b', ['a'], false), step('a', [])]);
    expect(sorted.map(({ id, after }) => [id, after])).toEqual([
      ['a', []],
      ['c', ['a']],
    ]);
  });

  it('names only the last of what must come before', () => {
    const sorted = sortSteps([step('a', []), step('b', ['a']), step('c', ['a', 'b'])]);
    expect(sorted[2]?.after).toEqual(['b']);
  });

  it.each([
    ['a circle', [step('a', ['b']), step('b', ['a'])], /circle/],
    ['a circle through one left out', [step('a', ['b']), step('b', ['a'], false)], /circle/],
    ['a name that is no step', [step('a', ['z'])], /which is no step/],
    ['a name used twice', [step('a', []), step('a', [])], /one name/],
  ])('throws for %s', (_, steps, says) => {
    expect(() => sortSteps(steps)).toThrow(says);
  });
});

const INSTRUMENTS = profileNames().filter((name) =>
  /^name:[\s\S]*^strings:/m.test(textOf(`profiles/${name}`)),
);
const SHOPS = ['home-shop.yaml', 'plain-router.yaml', 'tool-change-router.yaml'];
const CASES = INSTRUMENTS.flatMap((instrument) => SHOPS.map((shop) => ({ instrument, shop })));

function designOf(instrument: string, shop: string, change = (text: string): string => text) {
  return design({
    profile: { path: `profiles/${instrument}`, text: change(textOf(`profiles/${instrument}`)) },
    shop: { path: `profiles/${shop}`, text: textOf(`profiles/${shop}`) },
    readInclude: readProject,
    readBeside: (name) => readProject(`profiles/${name}`),
  });
}

function stepsOf(instrument: string, shop: string, change?: (text: string) => string): BuildStep[] {
  const made = soundValue(designOf(instrument, shop, change));
  return planOrder({
    instrument: made.instrument.value,
    sheet: benchSheet(made.layout, made.instrument.value),
    bridge: null,
    neck: null,
    tasks: tasksOf(made, []),
  });
}

/** What a careful builder never does the other way round (common practice, no source). */
const BEFORE: readonly (readonly [string, string])[] = [
  ['measure', 'cut-slots'],
  ['try-in-scrap', 'cut-slots'],
  ['bore-index-pins', 'cut-slots'],
  ['cut-slots', 'taper-board'],
  ['radius-board', 'deepen-slots'],
  ['cut-marker-pockets', 'set-markers'],
  ['set-markers', 'press-frets'],
  ['taper-board', 'side-markers'],
  ['bore-index-pins', 'glue-board'],
  ['fit-rod', 'glue-board'],
  ['dry-fit-board', 'glue-board'],
  ['glue-board', 'press-frets'],
  ['deepen-slots', 'press-frets'],
  ['press-frets', 'level-frets'],
  ['level-frets', 'place-bridge'],
  ['place-bridge', 'glue-bridge'],
  ['glue-bridge', 'string-up'],
  ['fit-saddle', 'string-up'],
  ['string-up', 'set-relief'],
  ['set-relief', 'set-action'],
  ['set-action', 'file-nut'],
];

describe('the order of the whole build', () => {
  it('has several instruments to look at', () => {
    expect(INSTRUMENTS.length).toBeGreaterThanOrEqual(4);
  });

  it.each(CASES)('$instrument in $shop: nothing comes before what it needs', ({ instrument, shop }) => {
    const outcome = designOf(instrument, shop);
    if (!outcome.ok) return expect(outcome.findings.some((f) => f.severity === 'error')).toBe(true);
    const steps = stepsOf(instrument, shop);
    const ids = steps.map(({ id }) => id);
    const kept = BEFORE.filter(([a, b]) => ids.includes(a) && ids.includes(b));
    expect(kept.length).toBeGreaterThan(12);
    for (const [a, b] of kept) expect(ids.indexOf(a), `${a} before ${b}`).toBeLessThan(ids.indexOf(b));
    for (const [i, { id, after }] of steps.entries()) {
      for (const before of after) expect(ids.indexOf(before), `${id} after ${before}`).toBeLessThan(i);
    }
    return expect(ids[ids.length - 1]).toBe('write-down');
  });

  it.each(CASES)(
    '$instrument in $shop: every program and hand step stands in it once',
    ({ instrument, shop }) => {
      const outcome = designOf(instrument, shop);
      if (!outcome.ok) return expect(outcome.findings.some((f) => f.severity === 'error')).toBe(true);
      const { plan } = outcome.value;
      const doers = stepsOf(instrument, shop).flatMap((s) => s.doers);
      const files = doers.flatMap((d) => (d.kind === 'program' && !d.done ? [d.file] : []));
      const hands = doers.flatMap((d) => (d.kind === 'hand' ? [d.step] : []));
      expect(files.sort()).toEqual([...new Set(plan.jobs.map((job) => job.program))].sort());
      return expect(hands.sort()).toEqual(plan.handSteps.map((s) => s.step).sort());
    },
  );

  it('puts the neck before the bridge, and drilled holes after the glue', () => {
    const page = orderPageOf(soundValue(designOf('tarn-parlour.yaml', 'home-shop.yaml')), [], 'abc');
    const titles = page.blocks.flatMap((b) => (b.kind === 'heading' ? [b.text.replace(/^\d+\. /, '')] : []));
    const place = (title: string): number => titles.findIndex((t) => t.startsWith(title));
    const order = [
      'Level, crown',
      'Set the neck',
      'Join the neck',
      'Find the bridge',
      'Scrape the finish',
      'Drill the string',
      'Ream',
      'Make the saddle',
      'String up',
      'File the nut',
    ];
    expect(order.map(place)).not.toContain(-1);
    expect(order.map(place)).toEqual([...order.map(place)].sort((a, b) => a - b));
  });

  it('works a board to its radius before the slots where the profile says so, and after them otherwise', () => {
    const radiused = (text: string): string =>
      text.replace('surfaceWhenSlotted: flat', 'surfaceWhenSlotted: radiused');
    const flat = stepsOf('tarn-parlour.yaml', 'home-shop.yaml').map(({ id }) => id);
    const early = stepsOf('tarn-parlour.yaml', 'home-shop.yaml', radiused).map(({ id }) => id);
    expect(flat.indexOf('radius-board')).toBeGreaterThan(flat.indexOf('taper-board'));
    expect(early.indexOf('radius-board')).toBeLessThan(early.indexOf('cut-slots'));
  });

  it('cuts the underside before all else, and says how the blank is turned over where a router does it', () => {
    const over = (text: string): string =>
      text.replace(/^trussRod:\n/m, 'trussRod:\n  clearance: { from: 4, length: 30, depth: 1 }\n');
    const byHand = stepsOf('tarn-parlour.yaml', 'home-shop.yaml', over);
    const ids = byHand.map(({ id }) => id);
    expect(ids.indexOf('cut-underside')).toBeGreaterThan(ids.indexOf('walk-round-board'));
    expect(ids.indexOf('bore-index-pins')).toBe(ids.indexOf('cut-underside') + 1);
    const step = byHand.find(({ id }) => id === 'cut-underside');
    expect(step?.doers.map((d) => d.kind)).toEqual(['hand']);
    expect(step?.numbers.map(({ is }) => is)).toContain(1);
    expect(stepsOf('tarn-parlour.yaml', 'home-shop.yaml').map(({ id }) => id)).not.toContain('cut-underside');
  });

  it('drills a bare binding strip before it is on, and the edge of a bound board after', () => {
    const bound = (drilled: string) => (text: string) =>
      text
        .replace(/^fingerboard:\n/m, 'fingerboard:\n  binding: { material: maple, width: 1.5 }\n')
        .replace(/^sideMarkers:\n/m, `sideMarkers:\n  drilled: ${drilled} binding\n`);
    const placesIn = (drilled: string) => {
      const ids = stepsOf('tarn-parlour.yaml', 'home-shop.yaml', bound(drilled)).map(({ id }) => id);
      return ids.indexOf('side-markers') - ids.indexOf('bind-board');
    };
    expect(placesIn('before')).toBeLessThan(0);
    expect(placesIn('after')).toBeGreaterThan(0);
  });

  it('makes the template for the side markers before it is laid on the edge', () => {
    const templated = (text: string): string =>
      text.replace(/^jigs:\n/m, 'jigs:\n  sideMarkerTemplate: {}\n');
    const steps = stepsOf('tarn-parlour.yaml', 'home-shop.yaml', templated);
    const ids = steps.map(({ id }) => id);
    expect(ids).toContain('make-side-marker-template');
    expect(ids.indexOf('make-side-marker-template')).toBeLessThan(ids.indexOf('side-markers'));
    expect(steps.find(({ id }) => id === 'side-markers')?.jigs).toEqual(['side-marker template']);
  });

  it('drills tie holes before the bridge is glued, and reams nothing', () => {
    const ids = stepsOf('sedge-ukulele.yaml', 'home-shop.yaml').map(({ id }) => id);
    expect(ids.indexOf('drill-tie-holes')).toBeGreaterThanOrEqual(0);
    expect(ids.indexOf('drill-tie-holes')).toBeLessThan(ids.indexOf('glue-bridge'));
    for (const gone of ['drill-pin-holes', 'ream-pins', 'find-bridge-place']) expect(ids).not.toContain(gone);
  });

  it('glues no bridge that goes before a tailpiece: its place is found with the strings on', () => {
    const ids = stepsOf('plover-mandolin.yaml', 'home-shop.yaml').map(({ id }) => id);
    for (const gone of ['glue-bridge', 'drill-pin-holes', 'ream-pins', 'drill-tie-holes'])
      expect(ids).not.toContain(gone);
    const at = ['place-bridge', 'string-up', 'find-bridge-place', 'set-relief', 'file-nut'].map((id) =>
      ids.indexOf(id),
    );
    expect(at.every((place) => place >= 0)).toBe(true);
    expect(at).toEqual(at.toSorted((a, b) => a - b));
  });

  it('drills straight holes through a glued bridge and reams none', () => {
    const straight = (text: string): string =>
      text
        .replace(
          /^ {2}pins:\n(?: {4}.*\n)+/m,
          '  through:\n    behindSaddle: 14\n    drill: 2\n    through: 14.3\n',
        )
        .replace(/^ {2}pinGauges:\n(?: {4}.*\n)+/m, '');
    const ids = stepsOf('tarn-parlour.yaml', 'home-shop.yaml', straight).map(({ id }) => id);
    expect(ids.indexOf('drill-pin-holes')).toBeGreaterThan(ids.indexOf('glue-bridge'));
    expect(ids).not.toContain('ream-pins');
  });

  it('leaves out what the instrument has not', () => {
    const bare = (text: string): string =>
      text
        .replace(/^indexPins:[\s\S]*?(?=^nut:)/m, 'indexPins:\n  place: none\n')
        .replace(/^# MEASURE the rod[\s\S]*?(?=^# For setting)/m, '')
        .replace(/^# For setting[\s\S]*?(?=^bridge:)/m, '')
        .replace(/^ {2}bridgeCaul:\n/m, '  bridgeCaul:\n    radius: 8000\n');
    const ids = stepsOf('tarn-parlour.yaml', 'home-shop.yaml', bare).map(({ id }) => id);
    for (const gone of ['bore-index-pins', 'fit-rod', 'set-neck', 'join-neck'])
      expect(ids).not.toContain(gone);
    expect(ids).toContain('cut-slots');
  });
});
