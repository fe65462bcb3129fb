import { describe, expect, it } from 'vitest';
import { checkLayout } from '../../src/checks/checkLayout.ts';
import type { Vec } from '../../src/geometry/types.ts';
import { layOut } from '../../src/layout/layOut.ts';
import type { Layout } from '../../src/layout/types.ts';
import { checkInstrument } from '../../src/profile/checkInstrument.ts';
import type { Instrument } from '../../src/profile/types.ts';
import type { Finding } from '../../src/report/finding.ts';
import { parlour } from '../support/instrument.ts';
import { twoScales } from '../support/scales.ts';

function laidOut(instrument: Instrument): Layout {
  const layout = layOut(instrument);
  if (!layout.ok) throw new Error(JSON.stringify(layout.findings));
  return layout.value;
}

const found = (instrument: Instrument, layout = laidOut(instrument)): Finding[] =>
  checkLayout(layout, instrument);
const codes = (instrument: Instrument, layout?: Layout): string[] =>
  found(instrument, layout).map((finding) => finding.code);

const face = (change: Partial<Instrument['faceMarkers']>): Instrument => ({
  ...parlour,
  faceMarkers: { ...parlour.faceMarkers, ...change },
});
const board = (change: Partial<Instrument['fingerboard']>, other: Partial<Instrument> = {}): Instrument => ({
  ...parlour,
  ...other,
  fingerboard: { ...parlour.fingerboard, ...change },
});

/** All slots turned about their middles: dx / dy. */
function slanted(layout: Layout, lean: number): Layout {
  const turn = <T extends { readonly line: readonly [Vec, Vec] }>(slot: T): T => {
    const [a, b] = slot.line;
    return { ...slot, line: [[a[0] + lean * a[1], a[1]] as Vec, [b[0] + lean * b[1], b[1]] as Vec] };
  };
  return { ...layout, slots: layout.slots.map(turn), slotCuts: layout.slotCuts.map(turn) };
}

/** One marker of the layout moved. */
function moved(layout: Layout, id: string, by: Vec): Layout {
  const faceMarkers = layout.faceMarkers.map((m) =>
    m.id === id ? { ...m, at: [m.at[0] + by[0], m.at[1] + by[1]] as Vec } : m,
  );
  return { ...layout, faceMarkers };
}

const pinMoved = (layout: Layout, at: Vec, under = 'clear'): Layout => ({
  ...layout,
  indexPins: layout.indexPins.map((pin, i) => (i === 0 ? { ...pin, at, under } : pin)),
});

describe('a sound board', () => {
  it('has nothing to remark on, for either hand', () => {
    expect(found(parlour)).toEqual([]);
    expect(found({ ...parlour, hand: 'left' })).toEqual([]);
  });
});

describe('walls of pockets', () => {
  it('are measured between the shapes: slanted slots come near where square ones do not', () => {
    const wide = face({ at: [{ fret: 12, count: 1, shape: 'block', length: 9, width: 36 }] });
    expect(codes(wide)).toEqual([]);
    // By hand: in a space of 18.6 mm less the slot, 4.5 mm of block on each side; 18 mm out a lean of 0.26 eats 4.68 mm of what
    // is left: about 4.6 mm.
    const leaning = slanted(laidOut(wide), 0.26);
    const [first] = found(wide, leaning);
    expect(first?.code).toBe('wall-too-thin');
    expect(first?.where?.path).toBe('faceMarkers.at[0]');
    expect(first?.text).toMatch(/mm from the nut face/);
    expect(codes(wide, slanted(laidOut(wide), 0.2))).not.toContain('wall-too-thin');
  });

  it('see blocks that lie along two scales, as they are laid out', () => {
    const fanned = {
      ...face({ at: [{ fret: 12, count: 1, shape: 'round', diameter: 7 }] }),
      scale: twoScales(650, 628, { squareCents: 700, nut: 19, saddle: 28 }),
      indexPins: { ...parlour.indexPins, place: 'clear' as const },
    };
    expect(codes(fanned)).toEqual([]);
  });

  it('hold against all neighbours: other pockets and slots farther off', () => {
    const layout = laidOut(parlour);
    const close = moved(layout, 'face-marker-12-bass', [0, 20.5]);
    expect(codes(parlour, close)).toEqual(['wall-too-thin']);
    const far = moved(layout, 'face-marker-12-bass', [0, 20]);
    expect(codes(parlour, far)).toEqual([]);
    const onSlot = moved(layout, 'face-marker-15', [10.4, 0]);
    expect(found(parlour, onSlot).map((f) => f.text)).toEqual([
      expect.stringContaining('runs into the slot of fret'),
    ]);
  });

  // The pocket of a 6 mm dot is 6.05 mm across; half a millimetre of wood is the least, so 0.5 + 3.025 from a slot's wall.
  it.each([
    [0.49, ['wall-too-thin']],
    [0.51, []],
  ])('of %d mm to a slot', (wall, expected) => {
    const layout = laidOut(parlour);
    const slot = layout.slots.find((s) => s.fret === 3);
    const marker = layout.faceMarkers.find((m) => m.id === 'face-marker-03');
    if (slot === undefined || marker === undefined) throw new Error('nothing at fret 3');
    const x = slot.x - 0.3 - wall - 3.025;
    expect(codes(parlour, moved(layout, marker.id, [x - marker.at[0], 0]))).toEqual(expected);
  });

  it('count from the island of a ring for what stands on it', () => {
    const ringed = face({
      at: [
        { fret: 3, count: 1, shape: 'ring', diameter: 12, inner: 9 },
        { fret: 5, count: 1, shape: 'round', diameter: 7 },
      ],
    });
    const layout = laidOut(ringed);
    const middle = layout.faceMarkers[0]?.at ?? [0, 0];
    const dot = layout.faceMarkers[1]?.at ?? [0, 0];
    const onIsland = (off: number): Layout => moved(layout, 'face-marker-05', [middle[0] - dot[0] + off, 0]);
    // The island's edge lies 4.475 from its middle, the dot's pocket 3.525: 0.95 all round.
    expect(codes(ringed, onIsland(0))).toEqual([]);
    expect(codes(ringed, onIsland(0.44))).toEqual([]);
    expect(codes(ringed, onIsland(0.46))).toEqual(['wall-too-thin']);
    expect(codes(ringed, onIsland(1.5))).toEqual(['wall-too-thin']);
  });

  it('to the edge of the wood', () => {
    const layout = laidOut(parlour);
    const half = layout.board.halfWidth.at0 + layout.board.halfWidth.slope * 80;
    expect(codes(parlour, moved(layout, 'face-marker-03', [0, half - 3.7]))).not.toContain(
      'pocket-near-edge',
    );
    const near = found(parlour, moved(layout, 'face-marker-03', [0, half - 3.3]));
    expect(near.map((f) => f.code)).toEqual(['pocket-near-edge']);
    const over = found(parlour, moved(layout, 'face-marker-03', [0, half + 9]));
    expect(over.map((f) => f.text)).toEqual([expect.stringContaining('reaches over')]);
  });
});

describe('index pins', () => {
  const layout = laidOut(parlour);
  const slotX = (fret: number): number => layout.slots.find((s) => s.fret === fret)?.x ?? Number.NaN;

  it('lie only in what is meant to hide them', () => {
    const at: Vec = [slotX(4), -14];
    expect(codes(parlour, pinMoved(layout, at, 'fret-slot-04'))).toEqual([]);
    expect(codes(parlour, pinMoved(layout, at))).toEqual(['pin-too-near']);
    // 0.8 mm of pin, 0.3 of slot and 1.5 of wood between.
    expect(codes(parlour, pinMoved(layout, [slotX(4) + 2.61, -14]))).toEqual([]);
    expect(codes(parlour, pinMoved(layout, [slotX(4) + 2.59, -14]))).toEqual(['pin-too-near']);
  });

  it('keep clear of markers, the rod and the edge', () => {
    const marker = layout.faceMarkers.find((m) => m.id === 'face-marker-12-bass')?.at ?? [0, 0];
    expect(codes(parlour, pinMoved(layout, [marker[0], marker[1] + 2]))).toContain('pin-too-near');
    expect(codes(parlour, pinMoved(layout, marker, 'face-marker-12-bass'))).toEqual([]);
    const overRod = found(parlour, pinMoved(layout, [(slotX(1) + slotX(2)) / 2, -5.2]));
    expect(overRod.map((f) => f.text)).toEqual([expect.stringContaining("the truss rod's channel")]);
    expect(codes(parlour, pinMoved(layout, [(slotX(1) + slotX(2)) / 2, -5.4]))).toEqual([]);
    const edge = found(parlour, pinMoved(layout, [(slotX(1) + slotX(2)) / 2, -22]));
    expect(edge.map((f) => f.text)).toEqual([expect.stringContaining('the edge of the board')]);
  });
});

describe('holes of side markers', () => {
  const spread = (by: number, slotDepth = 2): Instrument => ({
    ...parlour,
    frets: { ...parlour.frets, slotDepth },
    sideMarkers: { ...parlour.sideMarkers, spread: by },
  });

  it('stay out of slots that are as deep', () => {
    // The space of fret 12 is 18.7 mm: two holes 16 mm apart leave 0.05 mm to the slots' walls.
    expect(codes(spread(16))).toEqual(['side-hole-too-near', 'side-hole-too-near']);
    expect(codes(spread(15))).toEqual([]);
    // A slot 1 mm deep ends above the holes, whose upper side lies 1.5 mm below the edge.
    expect(codes(spread(16, 1))).toEqual([]);
  });

  it('see a slot that leans into them', () => {
    const layout = laidOut(spread(12));
    expect(codes(spread(12), layout)).toEqual([]);
    expect(codes(spread(12), slanted(layout, 0.1))).toContain('side-hole-too-near');
  });
});

describe('wood under the slots', () => {
  // 406.4 mm falls 1.103 at 29.92 mm: the worked sagitta of the board's half width at the last fret.
  it('is measured at the thinnest end of any slot, of a cone too', () => {
    expect(codes(board({ thickness: 4.7 }))).toEqual([]);
    const thin = found(board({ thickness: 4.4 }));
    expect(thin.map((f) => f.code)).toEqual(['slot-too-deep']);
    expect(thin[0]?.text).toContain('fret 19');
    // A radius that shrinks toward the nut: there the edge is thinner though the board is narrower.
    const cone = board({
      thickness: 4.7,
      radius: 90,
      radiusAlong: { kind: 'cone', fret: null, radius: 600 },
    });
    const atNut = found(cone);
    expect(atNut.map((f) => f.code)).toEqual(['slot-too-deep']);
    expect(atNut[0]?.text).toContain('fret 1 ');
    expect(codes(board({ thickness: 3.4, radius: Number.POSITIVE_INFINITY }))).toEqual(['slot-too-deep']);
    expect(codes(board({ thickness: 3.6, radius: Number.POSITIVE_INFINITY }))).toEqual([]);
  });
});

describe('ends of slots', () => {
  const binding = { material: 'maple', width: 1.5, around: 'sides', trim: 10, channelDepth: null } as const;

  it('do not break out of the edge they stop before', () => {
    expect(codes(board({ slotsStopShort: 2 }))).toEqual([]);
    const thin = found(board({ slotsStopShort: 0.6 }));
    expect(thin.map((f) => [f.code, f.where?.path])).toEqual([
      ['slot-breaks-edge', 'fingerboard.slotsStopShort'],
    ]);
    expect(codes(board({ binding, slotsStopShort: 2 }))).toEqual(['slot-breaks-edge']);
    expect(codes(board({ binding, slotsStopShort: 3 }))).toEqual([]);
    expect(codes(board({ binding, slotsStopShort: 0 }))).toEqual([]);
  });

  it('are measured along the slot, before and after it is laid out alike', () => {
    // Slots that lean by a tenth at the nut: along them a strip of 1.5 mm is wider than square to the edge.
    const slant = { difference: 30, squareShare: 0.9, squareWords: 'the end', half: { nut: 20, saddle: 28 } };
    const leaning = (slotsStopShort: number): Instrument =>
      board({ binding, slotsStopShort, overhang: 20 }, { scale: { ...parlour.scale, slant } });
    const refused = (margin: number): readonly [boolean, boolean] => [
      checkInstrument(leaning(margin)).some((f) => f.code === 'slot-stops-too-near'),
      codes(leaning(margin)).includes('slot-breaks-edge'),
    ];
    const margins = Array.from({ length: 60 }, (_, k) => 2.4 + k * 0.01);
    const limits = margins.map(refused);
    for (const [before, after] of limits) expect(before).toBe(after);
    const least = margins[limits.findIndex(([before]) => !before)] ?? Number.NaN;
    // The first slot leans most and meets the edges, which lean by 0.0175 the other way: by plain trigonometry.
    const share = 1 - 2 ** (-1 / 12);
    const lean = (30 * (0.9 - share)) / (2 * (20 + 8 * share));
    const edge = Math.atan(5.5 / 314);
    const worst = 1.5 / Math.cos(Math.atan(lean) + edge) + 1;
    expect(worst).toBeGreaterThan(2.55);
    expect(least).toBeGreaterThanOrEqual(worst - 1e-9);
    expect(least).toBeLessThan(worst + 0.0101);
  });

  it('that run out under a binding though a margin was asked for are remarked on', () => {
    const shown = found(board({ binding, slotsStopShort: 1 }));
    expect(shown.map((f) => [f.code, f.severity])).toEqual([['slot-runs-out-under-binding', 'warning']]);
  });
});

describe('fret wire', () => {
  const wire = (change: Partial<Instrument['fretWire']>): Instrument => ({
    ...parlour,
    fretWire: { ...parlour.fretWire, ...change },
  });

  it('comes out of the sticks it is bought in', () => {
    expect(codes(wire({ stick: 610 }))).toEqual([]);
    // The longest piece, at fret 19: 60.71 mm over the curve and 6 to trim.
    expect(codes(wire({ stick: 67 }))).not.toContain('fret-wire-too-short');
    const short = found(wire({ stick: 66 }));
    expect(short.map((f) => [f.code, f.where?.path])).toEqual([['fret-wire-too-short', 'fretWire.stick']]);
    expect(short[0]?.text).toContain('fret 19');
    expect(codes(wire({ stick: 66, trim: 4 }))).not.toContain('fret-wire-too-short');
  });

  const profileCodes = (
    change: Partial<Instrument['fretWire']>,
    slotWidth = 0.6,
    wood = parlour.fingerboard,
  ) =>
    checkInstrument({ ...wire(change), frets: { ...parlour.frets, slotWidth }, fingerboard: wood }).map(
      (finding) => finding.code,
    );

  it('suits the wood it goes into', () => {
    const spruce = { ...parlour.fingerboard, materialClass: 'softwood' as const };
    expect(profileCodes({})).toEqual([]);
    expect(profileCodes({ barbWidth: 0.64 })).toEqual(['barbs-bite-little']);
    expect(profileCodes({ barbWidth: 0.66 })).toEqual([]);
    expect(profileCodes({ barbWidth: 0.86 })).toEqual(['barbs-bite-much']);
    expect(profileCodes({ barbWidth: 0.84 })).toEqual([]);
    expect(profileCodes({ barbWidth: 0.86 }, 0.6, spruce)).toEqual([]);
    expect(profileCodes({ barbWidth: 0.68 }, 0.6, spruce)).toEqual(['barbs-bite-little']);
    expect(profileCodes({ tangWidth: 0.39 })).toEqual(['tang-loose']);
    expect(profileCodes({ tangWidth: 0.41 })).toEqual([]);
  });

  it('has a tang no deeper than its slot', () => {
    expect(profileCodes({ tangDepth: 2.1 })).toEqual(['slot-too-shallow']);
    expect(profileCodes({ tangDepth: 1.7 })).toEqual([]);
  });
});
