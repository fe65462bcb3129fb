/** The channel for binding, let into the board's edges from its top: proven on every kind of board, damaged ones refused. */
import { describe, expect, it } from 'vitest';
import { layOut } from '../../src/layout/layOut.ts';
import { planJobs } from '../../src/machining/planJobs.ts';
import { makeFingerboard } from '../../src/parts/fingerboard.ts';
import type { ChannelFeature, Part } from '../../src/parts/types.ts';
import { checkInstrument } from '../../src/profile/checkInstrument.ts';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import type { Binding, Instrument, Shop } from '../../src/profile/types.ts';
import { benchSheet } from '../../src/sheet/benchSheet.ts';
import { boardNotes } from '../../src/sheet/boardNotes.ts';
import { thingsToBuy } from '../../src/sheet/thingsToBuy.ts';
import { prove } from '../../src/verify/prove.ts';
import { textOf } from '../30-profile/bundled.ts';
import { boardWith, cone } from '../support/boards.ts';
import { numbers } from '../support/damage.ts';
import { workshop } from '../support/instrument.ts';
import { bytesOf } from '../support/proofSamples.ts';
import { nutLedge, seated, twoScales } from '../support/seats.ts';
import { boardPrograms, named, surfacingShop, type Written } from '../support/surfaced.ts';

const handShop: Shop = {
  ...workshop,
  tools: workshop.tools.map((tool) => (tool.id === 1 ? { ...tool, cuttingLength: 5.5, stickOut: 15 } : tool)),
};

const channel: Binding = { material: 'maple', width: 1.5, around: 'sides', trim: 20, channelDepth: 3 };
const allRound: Binding = { ...channel, around: 'sides and end' };
const bound = (
  binding: Binding,
  fields: Parameters<typeof boardWith>[0] = {},
  base?: Instrument,
): Instrument => boardWith({ binding, ...fields }, base);

const failed = ({ text, intent }: Written): string[] => {
  const proof = prove(bytesOf(text), intent);
  return [
    ...proof.checks.filter((c) => !c.passed).map((c) => c.name),
    ...proof.refusals.map((r) => JSON.stringify(r)),
  ];
};

function partOf(instrument: Instrument): Part {
  const outcome = layOut(instrument);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.findings));
  return makeFingerboard(instrument, outcome.value, { allowances: workshop.allowances });
}

function featureOf(instrument: Instrument): ChannelFeature {
  const found = partOf(instrument).features.find((f) => f.kind === 'channel');
  if (found?.kind !== 'channel') throw new Error('no channel');
  return found;
}

const BOARDS: readonly (readonly [string, Instrument])[] = [
  ['both sides', bound(channel)],
  ['both sides and a rounded end', bound(allRound)],
  ['both sides and a sharp end', bound(allRound, { endRounding: 0 })],
  ['both sides and a leaning end', bound(allRound, { endAngle: 0.3, overhang: 22, endRounding: 2 })],
  ['both sides and a hollow end', bound(allRound, { endRounding: 0, endArc: -60 })],
  ['both sides and a round end', bound(allRound, { endRounding: 0, endArc: 80 })],
  ['slots that stop in the wood', bound(channel, { slotsStopShort: 3 })],
  ['a cone slotted radiused', bound(channel, { ...cone(254, 406), surfaceWhenSlotted: 'radiused' })],
  ['a left-handed board', { ...bound(allRound, { endAngle: 0.2, overhang: 20 }), hand: 'left' }],
  ['two scales and a ledge for the nut', seated(nutLedge, {}, bound(channel, { overhang: 20 }, twoScales))],
];

describe.each(BOARDS)('a binding channel: %s', (_name, instrument) => {
  it('has slots, channel and outline proven, in that order', () => {
    const programs = boardPrograms(instrument, handShop).filter((p) => /slots|channel|outline/.test(p.name));
    expect(programs.map((p) => p.name)).toEqual([
      'fingerboard-slots.nc',
      'fingerboard-binding-channel.nc',
      'fingerboard-outline.nc',
    ]);
    for (const program of programs) expect(failed(program), program.name).toEqual([]);
  });
});

describe('the channel', () => {
  it('has its floor so far below the finished edge where that is lowest', () => {
    // Lowest at the end: 12 mm past slot 19 of 628 mm, half as wide there as the taper of 46 to 57 mm at 314 mm says.
    const end = 628 * (1 - 2 ** (-19 / 12)) + 12;
    const half = (46 + (11 * end) / 314) / 2;
    const R = 406.4;
    // The rounded corners begin a little before the end, so that the lowest vertex lies a hair inward of the sharp corner.
    const lowest = Math.sqrt(R * R - half * half) - R;
    const z = featureOf(bound(channel)).floor.z;
    expect(z).toBeGreaterThan(lowest - 3 - 1e-9);
    expect(z).toBeLessThan(lowest - 3 + 0.02);
    expect(featureOf(bound(channel, { endRounding: 0 })).floor.z).toBeCloseTo(lowest - 3, 9);
  });

  it('takes nothing off the width that is cut free', () => {
    const outline = (part: Part): unknown => {
      const found = part.features.find((f) => f.id === 'fingerboard-outline');
      return found?.kind === 'outline' ? found.ring : null;
    };
    expect(outline(partOf(bound(channel)))).toEqual(outline(partOf(boardWith({}))));
    expect(outline(partOf(bound({ ...channel, channelDepth: null })))).not.toEqual(
      outline(partOf(boardWith({}))),
    );
  });

  it('of the sides alone is no wider for an end that is hollow between them', () => {
    const hollow = bound(channel, { endRounding: 0, endArc: -40, overhang: 30 });
    expect(featureOf(hollow).width).toBeCloseTo(1.5, 2);
  });

  it('is as wide as the binding, at a sharp corner by its diagonal', () => {
    expect(featureOf(bound(channel)).width).toBeCloseTo(1.5, 2);
    const sharp = featureOf(bound(allRound, { endRounding: 0, widthAt: { fret: null, width: 46 } })).width;
    expect(sharp).toBeCloseTo(1.5 * Math.SQRT2, 2);
  });

  it('is cut before the surface, and the surface before the outline, where the blank is slotted flat', () => {
    const names = boardPrograms(bound(channel), surfacingShop).map((p) => p.name);
    const order = ['binding-channel', 'surface-rough', 'surface-finish', 'outline'];
    const found = order.map((name) => names.indexOf(`fingerboard-${name}.nc`));
    expect(found).toEqual(found.toSorted((a, b) => a - b));
    expect(found[0]).toBeGreaterThan(0);
  });

  it('needs a cutter wider than it is, and says so', () => {
    const outcome = layOut(
      bound({ ...channel, width: 6.4 }, { widthAtNut: 60, widthAt: { fret: 12, width: 70 } }),
    );
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.findings));
    const part = makeFingerboard(bound({ ...channel, width: 6.4 }), outcome.value, {
      allowances: workshop.allowances,
    });
    const plan = planJobs([part], handShop);
    expect(plan.ok).toBe(false);
    expect(plan.findings.map((f) => f.text).join(' ')).toContain('the binding channel of fingerboard');
  });
});

describe('a damaged channel program', () => {
  const good = named(boardPrograms(bound(allRound), handShop), 'fingerboard-binding-channel.nc');
  const refused = (text: string): string[] => failed({ ...good, text });
  it('is refused too deep, too shallow, or to one side', () => {
    expect(refused(good.text)).toEqual([]);
    expect(refused(numbers('Z', (z) => (z < -1 ? z - 0.05 : z))(good.text))).toContain('floor deep');
    expect(refused(numbers('Z', (z) => (z < -1 ? z + 0.05 : z))(good.text))).toContain('skin too thick');
    expect(refused(numbers('Y', (y) => y + 0.05)(good.text))).not.toEqual([]);
  });
});

describe('binding.channelDepth', () => {
  const text = textOf('profiles/tarn-parlour.yaml');
  const withBinding = (fields: string): ReturnType<typeof loadInstrument> =>
    loadInstrument(text.replace(/^ {2}radius: .*$/m, `$&\n  binding: ${fields}`), 'bound.yaml');

  it('is none where nothing is said, else what is said', () => {
    const bare = withBinding('{ width: 1.5 }');
    const deep = withBinding('{ width: 1.5, channelDepth: 3 }');
    if (!bare.ok || !deep.ok) throw new Error('not read');
    expect(bare.value.value.fingerboard.binding?.channelDepth).toBeNull();
    expect(bare.value.defaults.map((d) => d.path)).toContain('fingerboard.binding.channelDepth');
    expect(deep.value.value.fingerboard.binding?.channelDepth).toBe(3);
  });

  it('leaves wood below it, and is no shallower than slots that run out into it', () => {
    const codes = (instrument: Instrument): string[] =>
      checkInstrument(instrument)
        .filter((f) => f.severity === 'error')
        .map((f) => f.code);
    expect(codes(bound(channel))).toEqual([]);
    expect(codes(bound({ ...channel, channelDepth: 4.8 }))).toContain('channel-too-deep');
    expect(codes(bound({ ...channel, channelDepth: 1.9 }))).toContain('channel-shallower-than-slots');
    expect(codes(bound({ ...channel, channelDepth: 1.9 }, { slotsStopShort: 3 }))).toEqual([]);
  });

  it('is the height of the strips to buy, and stands on the sheet', () => {
    const instrument = bound(channel);
    const outcome = layOut(instrument);
    if (!outcome.ok) throw new Error('no layout');
    const strips = thingsToBuy(outcome.value, instrument).filter(({ what }) => what.startsWith('binding'));
    expect(strips.map((s) => [s.amount, s.note.includes('3 mm (0.118 in) high')])).toEqual([['2', true]]);
    const notes = boardNotes(benchSheet(outcome.value, instrument)).join(' ').replace(/\s+/g, ' ');
    expect(notes).toContain('let into a channel along the edges, its floor level and 3 mm (0.118 in) below');
    expect(notes).toContain('the top is 43');
  });
});
