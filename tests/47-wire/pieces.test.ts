import { describe, expect, it } from 'vitest';
import type { BoardSurface } from '../../src/geometry/boardSurface.ts';
import type { Vec } from '../../src/geometry/types.ts';
import { layOut } from '../../src/layout/layOut.ts';
import type { Layout, SlotCut } from '../../src/layout/types.ts';
import { planWire } from '../../src/wire/planWire.ts';
import { writeFretWireCsv } from '../../src/writers/csv/fretWire.ts';
import { parlour } from '../support/instrument.ts';

const laidOut = layOut(parlour);
if (!laidOut.ok) throw new Error('no layout');
const layout = laidOut.value;

/** The layout with one slot of its own, on a surface of its own. */
function withSlot(
  line: readonly [Vec, Vec],
  surface: BoardSurface,
  cut = line,
  ends: SlotCut['ends'] = ['edge', 'edge'],
): Layout {
  const [slot] = layout.slots;
  if (slot === undefined) throw new Error('no slot');
  return {
    ...layout,
    board: { ...layout.board, surface },
    slots: [{ ...slot, line, carrier: line }],
    slotCuts: [{ id: slot.id, line: cut, ends, walls: [null, null] }],
  };
}

const cylinder = (R: number): BoardSurface => ({ kind: 'cone', x: [0, 500], R: [R, R] });
const only = (place: Layout): ReturnType<typeof planWire>['pieces'][number] => {
  const [piece] = planWire(place, parlour).pieces;
  if (piece === undefined) throw new Error('no piece');
  return piece;
};

describe('a piece of fret wire', () => {
  // Closed form: the arc over a chord c of a circle of radius R is 2 R asin(c / 2R).
  it.each([
    [406.4, 46],
    [254, 57],
    [127, 70],
    [50, 60],
  ])('on a radius of %d follows the arc over %d', (R, width) => {
    const piece = only(
      withSlot(
        [
          [100, -width / 2],
          [100, width / 2],
        ],
        cylinder(R),
      ),
    );
    expect(piece.straight).toBeCloseTo(width, 12);
    expect(piece.crown).toBeCloseTo(2 * R * Math.asin(width / (2 * R)), 5);
    expect(piece.cut).toBeCloseTo(piece.crown + 6, 12);
    expect(piece.tang).toBeCloseTo(piece.crown, 12);
  });

  // Worked by hand: 46 over R 406.4: 46 + 46^3 / (24 R^2) = 46.02456; over R 254: 46.06286 (series, next term under 1e-4).
  it.each([
    [406.4, 46.0246],
    [254, 46.0629],
  ])('46 mm over %d is %d', (R, arc) => {
    expect(
      only(
        withSlot(
          [
            [80, -23],
            [80, 23],
          ],
          cylinder(R),
        ),
      ).crown,
    ).toBeCloseTo(arc, 3);
  });

  it('on a flat board is as long as the slot, which is longer when slanted', () => {
    const piece = only(
      withSlot(
        [
          [96, -24],
          [110, 24],
        ],
        { kind: 'flat' },
      ),
    );
    expect(piece.crown).toBeCloseTo(50, 10);
    expect(piece.straight).toBeCloseTo(50, 10);
  });

  // Unrolled, a cylinder is flat: a slot on it is the hypotenuse only where it stays a straight line, which one that is straight
  // from above is not; so its length is summed here along y by another rule (midpoints of ds/dy).
  it('slanted on a curved board agrees with the integral of its slope', () => {
    const [R, m] = [254, 14 / 48];
    const count = 200_000;
    let length = 0;
    for (let k = 0; k < count; k += 1) {
      const y = -24 + ((k + 0.5) * 48) / count;
      length += (Math.sqrt(1 + m * m + (y * y) / (R * R - y * y)) * 48) / count;
    }
    expect(
      only(
        withSlot(
          [
            [96, -24],
            [110, 24],
          ],
          cylinder(R),
        ),
      ).crown,
    ).toBeCloseTo(length, 6);
  });

  it('on a cone square to its axis follows the circle at its place', () => {
    const cone: BoardSurface = { kind: 'cone', x: [0, 400], R: [254, 406.4] };
    const R = 254 + (406.4 - 254) / 4;
    expect(
      only(
        withSlot(
          [
            [100, -25],
            [100, 25],
          ],
          cone,
        ),
      ).crown,
    ).toBeCloseTo(2 * R * Math.asin(25 / R), 5);
  });

  it('has a shorter tang where the slot stops, clear of its ends', () => {
    const full: [Vec, Vec] = [
      [100, -25],
      [100, 25],
    ];
    const bound: [Vec, Vec] = [
      [100, -23],
      [100, 23],
    ];
    const open = only(withSlot(full, { kind: 'flat' }, bound));
    expect([open.crown, open.tang]).toEqual([50, 46]);
    const blind = only(withSlot(full, { kind: 'flat' }, bound, ['stopped', 'stopped']));
    expect(blind.tang).toBe(45);
  });
});

describe('the plan', () => {
  it('counts sticks of a stated length, every piece once', () => {
    const plan = planWire(layout, { fretWire: { ...parlour.fretWire, stick: 610 } });
    const held = plan.sticks?.sticks.flatMap((stick) => stick.pieces.map((p) => p.slot)) ?? [];
    expect(held.toSorted()).toEqual(layout.slots.map((slot) => slot.id));
    // 1160.4 mm in all: two sticks of 610 hold them, one cannot.
    expect(plan.sticks?.sticks.length).toBe(2);
    expect(plan.sticks?.isLeast).toBe(true);
    expect(planWire(layout, parlour).sticks).toBeNull();
  });

  it('is a table of labels in both units, in the order of the frets', () => {
    const plan = planWire(layout, { fretWire: { ...parlour.fretWire, stick: 610 } });
    const rows = writeFretWireCsv(plan)
      .trim()
      .split('\r\n')
      .map((line) => line.split(','));
    expect(rows).toHaveLength(20);
    expect(rows[0]?.slice(0, 3)).toEqual(['"order"', '"fret"', '"to nip off (mm)"']);
    rows.slice(1).forEach((row, i) => {
      const piece = plan.pieces[i];
      expect(row[1]).toBe(`"${i + 1}"`);
      expect(Number(row[2])).toBeCloseTo(piece?.cut ?? Number.NaN, 2);
      expect(Number(row[6]) * 25.4).toBeCloseTo(piece?.cut ?? Number.NaN, 1);
      expect(['1', '2']).toContain(row[10]);
    });
    const coil = writeFretWireCsv(planWire(layout, parlour));
    expect(coil.split('\r\n')[1]?.endsWith(',')).toBe(true);
  });
});
