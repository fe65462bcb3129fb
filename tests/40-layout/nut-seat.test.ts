/** What the nut stands in: its fields, where it lies, what is cut, and what the sheet and the drawings say of it. */
import { describe, expect, it } from 'vitest';
import { drawLayout } from '../../src/drawing/drawLayout.ts';
import { drawPart } from '../../src/drawing/drawPart.ts';
import type { Shape } from '../../src/drawing/types.ts';
import { layOut } from '../../src/layout/layOut.ts';
import type { Layout } from '../../src/layout/types.ts';
import { makeFingerboard } from '../../src/parts/fingerboard.ts';
import type { SlotFeature } from '../../src/parts/types.ts';
import { checkInstrument } from '../../src/profile/checkInstrument.ts';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import type { Instrument, NutSeat } from '../../src/profile/types.ts';
import { benchSheet } from '../../src/sheet/benchSheet.ts';
import { boardNotes } from '../../src/sheet/boardNotes.ts';
import { textOf } from '../30-profile/bundled.ts';
import { boardWith } from '../support/boards.ts';
import { parlour, workshop } from '../support/instrument.ts';
import { nutLedge, nutSlot, seated, twoScales } from '../support/seats.ts';

function laidOut(instrument: Instrument): Layout {
  const outcome = layOut(instrument);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.findings));
  return outcome.value;
}

function seatFeature(instrument: Instrument): SlotFeature {
  const part = makeFingerboard(instrument, laidOut(instrument), { allowances: workshop.allowances });
  const found = part.features.find((f) => f.id === 'nut-seat');
  if (found?.kind !== 'slot') throw new Error('no seat');
  return found;
}

const text = textOf('profiles/tarn-parlour.yaml');
const withSeat = (seat: string): ReturnType<typeof loadInstrument> =>
  loadInstrument(text.replace(/^nut:$/m, `nut:\n  seat: ${seat}`), 'seat.yaml');

describe('nut.seat', () => {
  it('is read, with what is left out filled in and said', () => {
    const loaded = withSeat('{ kind: slot, depth: 3 }');
    if (!loaded.ok) throw new Error(JSON.stringify(loaded.findings));
    expect(loaded.value.value.nut.seat).toEqual({ kind: 'slot', depth: 3, clearance: 0.05, boardBehind: 6 });
    const said = new Map(loaded.value.defaults.map(({ path, why }) => [path, why]));
    expect(said.get('nut.seat.boardBehind')).toContain('break out');
    const ledge = withSeat('{ kind: ledge, depth: 1/8 in }');
    if (!ledge.ok) throw new Error(JSON.stringify(ledge.findings));
    expect(ledge.value.value.nut.seat).toEqual({ kind: 'ledge', depth: 3.175, clearance: 0, boardBehind: 0 });
  });

  it('is none where nothing is said: the board ends at the nut face', () => {
    const loaded = loadInstrument(text, 'plain.yaml');
    if (!loaded.ok) throw new Error('not read');
    expect(loaded.value.value.nut.seat).toBeNull();
    expect(loaded.value.defaults.find(({ path }) => path === 'nut.seat')?.value).toBe('none');
    const { board, nutLine, nutSeat } = laidOut(loaded.value.value);
    expect(nutSeat).toBeNull();
    expect(board.nutEnd).toEqual(nutLine);
  });

  it.each([
    ['{ kind: ledge, depth: 3, boardBehind: 6 }', 'not-for-a-ledge'],
    ['{ kind: ledge, depth: 3, clearance: 0.1 }', 'not-for-a-ledge'],
    ['{ kind: groove, depth: 3 }', 'bad-word'],
    ['{ kind: slot }', 'missing-key'],
    ['{ kind: slot, depth: 6 }', 'nut-seat-too-deep'],
    ['{ kind: slot, depth: 0.6 }', 'nut-seat-too-shallow'],
  ])('%s is refused: %s', (seat, code) => {
    const loaded = withSeat(seat);
    expect(loaded.findings.filter((f) => f.severity === 'error').map((f) => f.code)).toEqual([code]);
  });

  it('may be as deep as leaves a millimetre, and no deeper', () => {
    const codes = (depth: number): string[] =>
      checkInstrument(seated({ ...nutSlot, depth })).map((f) => f.code);
    expect(codes(5.5)).not.toContain('nut-seat-too-deep');
    expect(codes(5.501)).toContain('nut-seat-too-deep');
  });
});

describe('where the seat lies', () => {
  it('is behind the nut face by the nut, the clearance and the board behind, on its own edges', () => {
    const { nutSeat, board, nutLine } = laidOut(seated(nutSlot));
    expect(nutSeat?.front).toEqual(nutLine);
    expect(nutSeat?.back[0][0]).toBeCloseTo(-6.05, 12);
    expect(board.nutEnd[0][0]).toBeCloseTo(-14.05, 12);
    // The taper goes on: 46 mm at the nut face, 57 at the 12th fret, half of 628 mm away.
    const half = 23 - (14.05 * 5.5) / 314;
    expect(board.nutEnd[0][1]).toBeCloseTo(-half, 9);
    expect(board.nutEnd[1][1]).toBeCloseTo(half, 9);
    expect(Math.min(...board.outline.map((v) => v.x))).toBeCloseTo(-14.05, 12);
  });

  it('does not move a slot or a marker', () => {
    const bare = laidOut(parlour);
    for (const seat of [nutSlot, nutLedge]) {
      const { slots, faceMarkers, nutFace } = laidOut(seated(seat));
      expect({ slots, faceMarkers, nutFace }).toEqual({
        slots: bare.slots,
        faceMarkers: bare.faceMarkers,
        nutFace: bare.nutFace,
      });
    }
  });

  it('leans with the nut of two scales, its length square to the nut face', () => {
    const { nutSeat } = laidOut(seated(nutLedge, {}, twoScales));
    if (nutSeat === null) throw new Error('no seat');
    const [a, b] = nutSeat.front;
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    // Area of the triangle over the front line, twice, by its base.
    for (const p of nutSeat.back) {
      const twice = (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);
      expect(Math.abs(twice) / length).toBeCloseTo(6, 9);
    }
    expect(Math.abs(b[0] - a[0])).toBeGreaterThan(5);
  });

  it('is the exact mirror for the other hand', () => {
    const right = laidOut(seated(nutSlot, {}, twoScales));
    const left = laidOut({ ...seated(nutSlot, {}, twoScales), hand: 'left' });
    expect(left.nutSeat?.back).toEqual(right.nutSeat?.back.map(([x, y]) => [x, -y]));
    expect(left.board.nutEnd).toEqual(right.board.nutEnd.map(([x, y]) => [x, -y]));
  });
});

describe('what is cut', () => {
  const wallsOf = ({ line: [a, b], width }: SlotFeature): number[] => {
    expect(a[0]).toBeCloseTo(b[0], 12);
    return [a[0] - width / 2, a[0] + width / 2];
  };

  it.each([
    ['slot', nutSlot, [-6.05, 0], -3],
    ['ledge', nutLedge, [-7, 0], -3.5],
  ] as const)('of a %s is its whole length, a ledge 1 mm into the waste', (_kind, seat, walls, floor) => {
    const feature = seatFeature(seated(seat));
    wallsOf(feature).forEach((x, i) => {
      expect(x).toBeCloseTo(walls[i] ?? Number.NaN, 12);
    });
    expect(feature.floor).toEqual({ kind: 'plane', z: floor });
  });

  it('is counted from the finished crest in a thicker blank', () => {
    const thick = seated(nutSlot, {}, boardWith({ blankThickness: 7 }));
    expect(seatFeature(thick).floor).toEqual({ kind: 'plane', z: -3.5 });
  });

  it('stands behind a zero fret by its set-back', () => {
    const feature = seatFeature(seated(nutSlot, { zeroFret: true, setForward: -4 }));
    expect(wallsOf(feature)[1]).toBeCloseTo(-4, 12);
  });
});

function xsOf(shape: Shape): number[] {
  if (shape.kind === 'line') return [shape.from[0], shape.to[0]];
  if (shape.kind === 'ring') return shape.ring.map((v) => v.x);
  throw new Error(`a seat is no ${shape.kind}`);
}

describe('what is said and drawn', () => {
  const words = (seat: NutSeat): string => {
    const instrument = seated(seat);
    return boardNotes(benchSheet(laidOut(instrument), instrument))
      .join(' ')
      .replace(/\s+/g, ' ');
  };

  it('names the nut face, and what a rule over the end of the board reads', () => {
    expect(words(nutSlot)).toContain("The nut face is the slot's wall toward the frets");
    expect(words(nutSlot)).toContain('ends 14.05 mm (0.553 in) behind the nut face');
    expect(words(nutLedge)).toContain('ends 6.00 mm (0.236 in) behind the nut face');
    const bare = boardNotes(benchSheet(laidOut(parlour), parlour)).join(' ');
    expect(bare).not.toContain('Nut:');
  });

  it.each(['right', 'left'] as const)(
    'has a layer of its own: both walls, of a ledge the one that stays (%s)',
    (hand) => {
      for (const [seat, xs] of [
        [nutSlot, [-6.05, 0]],
        [nutLedge, [0]],
      ] as const) {
        const instrument = { ...seated(seat), hand };
        const part = makeFingerboard(instrument, laidOut(instrument), { allowances: workshop.allowances });
        const layer = drawPart(part).layers.find(({ name }) => name === 'NUT_SEAT');
        const found = (layer?.shapes ?? []).flatMap(xsOf).map((x) => Math.round(x * 1e6) / 1e6 || 0);
        expect([...new Set(found)].sort((a, b) => a - b)).toEqual(xs);
      }
      const both = drawLayout(laidOut(seated(nutSlot)), seated(nutSlot)).layers.find(
        (l) => l.name === 'NUT_SEAT',
      );
      expect(both?.shapes).toHaveLength(2);
    },
  );
});
