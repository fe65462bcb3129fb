/** Bridges whose strings are tied, go straight through, or go on to a tailpiece. */
import { describe, expect, it } from 'vitest';
import { planBridge } from '../../src/bridge/plan.ts';
import { drawLayout } from '../../src/drawing/drawLayout.ts';
import { layOut } from '../../src/layout/layOut.ts';
import type { Layout } from '../../src/layout/types.ts';
import { checkInstrument } from '../../src/profile/checkInstrument.ts';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import type { Anchor, Instrument } from '../../src/profile/types.ts';
import { anchorLines } from '../../src/sheet/anchorLines.ts';
import { benchSheet } from '../../src/sheet/benchSheet.ts';
import { renderBridgeText } from '../../src/sheet/renderBridgeText.ts';
import { renderSheetText } from '../../src/sheet/renderSheetText.ts';
import { thingsToBuy } from '../../src/sheet/thingsToBuy.ts';
import { endHeightsOf, planStrings, pullFindingsOf } from '../../src/stringing/plan.ts';
import { parlourWith } from '../30-profile/bundled.ts';
import { bodied, held, tailpiece, through, tied } from '../support/anchors.ts';
import { parlour } from '../support/instrument.ts';

const ALL: readonly Anchor[] = [parlour.bridge.anchor, tied, through, tailpiece];

function laidOut(instrument: Instrument): Layout {
  const layout = layOut(instrument);
  if (!layout.ok) throw new Error(JSON.stringify(layout.findings));
  return layout.value;
}

function planned(instrument: Instrument) {
  const layout = laidOut(instrument);
  const heights = endHeightsOf(instrument, layout);
  if (!heights.ok) throw new Error('no heights');
  const work = planBridge(instrument, layout, heights.value);
  if (!work.ok) throw new Error('no bridge');
  return work.value;
}

const codes = (instrument: Instrument): string[] => checkInstrument(instrument).map((f) => f.code);

describe('where strings end', () => {
  it.each(ALL)('$kind: behind the saddle by what is said, evenly spread', (anchor) => {
    const { strings, saddleLine } = laidOut(held(anchor));
    const [bass, treble] = saddleLine;
    const saddle = (y: number): number =>
      bass[0] + ((treble[0] - bass[0]) * (y - bass[1])) / (treble[1] - bass[1]);
    const first = strings[0]?.pin ?? [Number.NaN, Number.NaN];
    const last = strings.at(-1)?.pin ?? [Number.NaN, Number.NaN];
    expect(last[1] - first[1]).toBeCloseTo(anchor.spread, 9);
    for (const { pin } of strings) {
      const from = anchor.row === 'saddle' ? saddle(pin[1]) : saddle(0);
      expect(pin[0] - from).toBeCloseTo(anchor.behindSaddle, 9);
    }
  });

  it('is drawn on a layer that says what it is', () => {
    const layersOf = (anchor: Anchor): string[] => {
      const instrument = held(anchor);
      return drawLayout(laidOut(instrument), instrument)
        .layers.filter(({ name, shapes }) => shapes.length > 0 && /PINS|HOLES|ENDS/.test(name))
        .map(({ name, shapes }) => `${name} ${shapes[0]?.kind} ${shapes.length}`)
        .filter((name) => !name.startsWith('INDEX'));
    };
    expect(layersOf(parlour.bridge.anchor)).toEqual(['BRIDGE_PINS circle 6']);
    expect(layersOf(through)).toEqual(['STRING_HOLES circle 6']);
    expect(layersOf(tied)).toEqual(['STRING_ENDS point 6']);
    expect(layersOf(tailpiece)).toEqual(['STRING_ENDS point 6']);
  });
});

describe('down-bearing', () => {
  /** From how far a string falls behind the saddle and how long its way there is. */
  const backOf = (instrument: Instrument, i: number, fall: number, mouth: number): number => {
    const line = laidOut(instrument).strings[i];
    if (line === undefined) throw new Error(`no string ${i}`);
    const way = Math.hypot(line.pin[0] - line.saddle[0], line.pin[1] - line.saddle[1]) - mouth;
    return Math.atan(fall / way);
  };

  it.each([
    { anchor: parlour.bridge.anchor, fall: 3.5 + 2, mouth: 2.8 },
    { anchor: tied, fall: 3.5 + 3, mouth: 0 },
    { anchor: through, fall: 3.5 + 2, mouth: 1 },
    { anchor: tailpiece, fall: 3.5 + 6, mouth: 0 },
  ])('$anchor.kind: tension times the sines of both slopes', ({ anchor, fall, mouth }) => {
    const instrument = held(anchor);
    const plan = planStrings(instrument, laidOut(instrument));
    if (!plan.ok) throw new Error(JSON.stringify(plan.findings));
    plan.value.strings.forEach(({ pull }, i) => {
      const back = backOf(instrument, i, fall, mouth);
      expect(pull.breakAngles.back).toBeCloseTo(back, 9);
      expect(pull.downBearing).toBeCloseTo(
        pull.tension * (Math.sin(pull.breakAngles.front) + Math.sin(back)),
        9,
      );
    });
  });

  it('is refused where the strings would lift off, whatever holds them', () => {
    const lifted = (anchor: Anchor): string[] =>
      pullFindingsOf(held(anchor), laidOut(held(anchor))).map((f) => f.code);
    expect(lifted({ ...tied, below: -10, rise: 14 })).toEqual(Array(6).fill('no-down-bearing'));
    expect(lifted({ ...tailpiece, below: -20 })).toEqual(Array(6).fill('no-down-bearing'));
    expect(new Set(lifted({ ...tailpiece, behindSaddle: 200 }))).toEqual(new Set(['little-down-bearing']));
  });
});

describe('the numbers for the bench', () => {
  it('have reaming for pins alone, and holes from above where there are some', () => {
    const sheets = ALL.map((anchor) => benchSheet(laidOut(held(anchor)), held(anchor)));
    expect(sheets.map(({ reaming }) => reaming === null)).toEqual([false, true, true, true]);
    const own = sheets.map(({ holes }) => holes.filter(({ id }) => !id.startsWith('index')));
    expect(own.map((holes) => holes.length)).toEqual([6, 0, 6, 0]);
    expect(own[2]?.[0]).toMatchObject({ id: 'string-hole-1', diameter: 2, depth: 14.3 });
    expect(ALL.map((anchor) => planned(held(anchor)).pins.length)).toEqual([6, 0, 0, 0]);
  });

  it('measure skew and centring to the saddle of a bridge that the strings do not end on', () => {
    const layout = laidOut(held(tailpiece));
    const { place } = planned(held(tailpiece));
    const [bass] = layout.strings;
    const corner = layout.nutLine[0];
    const saddle = bass?.saddle ?? [Number.NaN, Number.NaN];
    expect(place.skew.bass).toBeCloseTo(Math.hypot(saddle[0] - corner[0], saddle[1] - corner[1]), 9);
    expect(place.strings[0]?.pin).toBeCloseTo((bass?.pin[0] ?? Number.NaN) - layout.nutFace, 9);
    expect(renderBridgeText(planned(held(tailpiece)))).toContain('bass-most string’s point on the saddle');
  });

  it.each([tied, through, tailpiece])(
    '$kind: say how the strings are held, and speak of no pin',
    (anchor) => {
      const instrument = held(anchor);
      const text = renderBridgeText(planned(instrument));
      const flat = text.replace(/\s+/g, ' ');
      for (const line of anchorLines(anchor)) expect(flat).toContain(line.split('. ')[1] ?? line);
      expect(text).not.toMatch(/\bpins?\b|[Rr]eam/);
      const sheet = renderSheetText(benchSheet(laidOut(instrument), instrument));
      expect(sheet).not.toMatch(/bridge pin|[Rr]eam|NaN|undefined/);
    },
  );

  it('buy pins for pins and a tailpiece for strings that go on to one', () => {
    const bought = (anchor: Anchor): string[] =>
      thingsToBuy(laidOut(held(anchor)), held(anchor))
        .map(({ what }) => what)
        .filter((what) => /bridge pins|tailpiece/.test(what));
    expect(ALL.map(bought)).toEqual([['bridge pins'], [], [], ['tailpiece']]);
  });
});

describe('a bridge without pins that cannot be', () => {
  it.each([
    ['string-hole-too-small', held({ ...tied, hole: 1.2 })],
    ['string-hole-too-small', held({ ...through, drill: 1.2 })],
    ['string-holes-too-close', held({ ...tied, hole: 4, spread: 29 })],
    ['row-in-saddle', held({ ...through, behindSaddle: 5 })],
    ['row-in-saddle', held({ ...tied, behindSaddle: 3 })],
    ['tie-hole-too-high', held({ ...tied, below: 1 })],
    ['tie-hole-too-low', bodied({ ...tied, below: 6.6 })],
    ['holes-through-less', bodied({ ...through, through: 11 })],
    ['index-pin-in-loose-bridge', bodied(tailpiece)],
    ['jig-without-holes', { ...held(tied), jigs: parlour.jigs }],
    [
      'jig-without-pins',
      {
        ...bodied(through),
        jigs: {
          ...bodied(through).jigs,
          pinGauges: { materialClass: 'plywood', thickness: 3, collar: 20, holes: 4 },
        },
      },
    ],
  ] as const)('%s', (code, instrument) => {
    expect(codes(instrument)).toContain(code);
    const finding = checkInstrument(instrument).find((f) => f.code === code);
    expect(finding?.severity).toBe('error');
    expect(`${finding?.allowed}`.length).toBeGreaterThan(5);
  });

  it('is sound as it stands in these tests', () => {
    const own = /hole|row-in|tie-|index-pin-in|jig-without|plate/;
    for (const instrument of [
      ...ALL.slice(1).map((anchor) => held(anchor)),
      bodied(tied),
      bodied(through),
      bodied(tailpiece, { indexPin: null }),
    ]) {
      expect(codes(instrument).filter((code) => own.test(code))).toEqual([]);
    }
  });

  it('is refused when nothing holds the strings, or two things do, with the line', () => {
    const pins = /^ {2}pins:\n(?: {4}.*\n)+/m;
    const load = (text: string) => loadInstrument(text, 'own.yaml').findings;
    const [none] = load(parlourWith().replace(pins, ''));
    expect(none).toMatchObject({ code: 'missing-key', allowed: 'one of pins, tied, through, tailpiece' });
    const twice = load(parlourWith(['  pins:\n', '  tied:\n    behindSaddle: 11\n  pins:\n']));
    expect(twice.map((f) => [f.code, f.where?.path])).toEqual([['keys-do-not-agree', 'bridge.tied']]);
    expect(twice[0]?.where?.line).toBeGreaterThan(100);
  });
});
