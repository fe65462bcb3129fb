/** What the nut stands in: cut by the router on every kind of board, proven; damaged programs refused. */
import { describe, expect, it } from 'vitest';
import type { Instrument } from '../../src/profile/types.ts';
import { prove } from '../../src/verify/prove.ts';
import { boardWith, cone } from '../support/boards.ts';
import { numbers } from '../support/damage.ts';
import { workshop } from '../support/instrument.ts';
import { bytesOf } from '../support/proofSamples.ts';
import { nutLedge, nutSlot, seated, twoScales } from '../support/seats.ts';
import { boardPrograms, named, surfacingShop, type Written } from '../support/surfaced.ts';

const handShop = {
  ...workshop,
  tools: workshop.tools.map((tool) => (tool.id === 1 ? { ...tool, cuttingLength: 5.5, stickOut: 15 } : tool)),
};

const failed = ({ text, intent }: Written): string[] => {
  const proof = prove(bytesOf(text), intent);
  return [
    ...proof.checks.filter((c) => !c.passed).map((c) => c.name),
    ...proof.refusals.map((r) => JSON.stringify(r)),
  ];
};

const BOARDS: readonly (readonly [string, Instrument])[] = [
  ['a slot', seated(nutSlot)],
  ['a ledge', seated(nutLedge)],
  ['a slot behind a zero fret', seated(nutSlot, { zeroFret: true, setForward: -4 })],
  ['a ledge under a nut that stands forward', seated(nutLedge, { setForward: 0.4 })],
  ['a slot of a left-handed board', { ...seated(nutSlot), hand: 'left' }],
  ['a ledge of a left-handed board', { ...seated(nutLedge), hand: 'left' }],
  ['a slot of two scales', seated(nutSlot, {}, twoScales)],
  ['a ledge of two scales, left-handed', { ...seated(nutLedge, {}, twoScales), hand: 'left' }],
  [
    'a slot in a cone slotted radiused',
    seated(nutSlot, {}, boardWith({ ...cone(254, 406), surfaceWhenSlotted: 'radiused' })),
  ],
  [
    'a ledge of a bound flat board',
    seated(
      nutLedge,
      {},
      boardWith({
        radius: Number.POSITIVE_INFINITY,
        binding: { material: 'maple', width: 1.5, around: 'sides', trim: 20, channelDepth: null },
      }),
    ),
  ],
];

describe.each(BOARDS)('the nut in %s', (_name, instrument) => {
  it('has its programs and the outline proven', () => {
    const programs = boardPrograms(instrument, handShop).filter((p) => /seat|outline/.test(p.name));
    expect(programs.map((p) => p.name)).toEqual(['fingerboard-nut-seat.nc', 'fingerboard-outline.nc']);
    for (const program of programs) expect(failed(program), program.name).toEqual([]);
  });
});

describe('a board that the router surfaces', () => {
  it('has its seat cut from the flat blank, and its top worked over the board behind the nut too', () => {
    const programs = boardPrograms(seated(nutSlot), surfacingShop);
    const names = programs.map((p) => p.name);
    expect(names.indexOf('fingerboard-nut-seat.nc')).toBeLessThan(
      names.indexOf('fingerboard-surface-rough.nc'),
    );
    const finish = named(programs, 'fingerboard-surface-finish.nc');
    const bare = named(boardPrograms(boardWith({}), surfacingShop), 'fingerboard-surface-finish.nc');
    const length = ({ intent }: Written): number => {
      const xs = intent.cuts[0]?.region?.[0]?.map(([x]) => x) ?? [];
      return Math.max(...xs) - Math.min(...xs);
    };
    expect(length(finish) - length(bare)).toBeCloseTo(6.05 + 8, 9);
    expect(failed(finish)).toEqual([]);
  });
});

describe('a damaged program of a nut slot', () => {
  const good = named(boardPrograms(seated(nutSlot), handShop), 'fingerboard-nut-seat.nc');
  const refused = (text: string): string[] => failed({ ...good, text });
  it('is refused too deep, too shallow, to one side, and a lane short', () => {
    expect(refused(good.text)).toEqual([]);
    expect(refused(numbers('Z', (z) => (z < -1 ? z - 0.05 : z))(good.text))).not.toEqual([]);
    expect(refused(numbers('Z', (z) => (z < -1 ? z + 0.05 : z))(good.text))).not.toEqual([]);
    expect(refused(numbers('X', (x) => x + 0.05)(good.text))).not.toEqual([]);
    expect(refused(numbers('Y', (y) => y * 0.7)(good.text))).not.toEqual([]);
  });
});
