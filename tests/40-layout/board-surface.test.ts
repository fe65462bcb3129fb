/** Surfaces, ends, bindings and the cuts of slots, against numbers worked out here by other algebra. */
import { describe, expect, it } from 'vitest';
import { boardHeight, errorAlong } from '../../src/geometry/boardSurface.ts';
import { perimeter, segments } from '../../src/geometry/ring.ts';
import { layOut } from '../../src/layout/layOut.ts';
import type { Layout } from '../../src/layout/types.ts';
import type { Instrument } from '../../src/profile/types.ts';
import { benchSheet } from '../../src/sheet/benchSheet.ts';
import { bindingStrips } from '../../src/sheet/bindingStrips.ts';
import { boardNotes } from '../../src/sheet/boardNotes.ts';
import { boardWith, cone } from '../support/boards.ts';
import { parlour } from '../support/instrument.ts';

function laidOut(instrument: Instrument): Layout {
  const layout = layOut(instrument);
  if (!layout.ok) throw new Error(JSON.stringify(layout.findings));
  return layout.value;
}

/** 36 mm at the nut and 54 at the saddle, the board ending 10 mm past where a 22nd fret would be on a scale of 628. */
const wide: Instrument = {
  ...parlour,
  strings: parlour.strings.map((s) => ({ ...s, setBack: 0 })),
  nut: { ...parlour.nut, stringSpread: 36 },
  bridge: { ...parlour.bridge, stringSpread: 54 },
};
const fret22 = 628 * (1 - 2 ** (-22 / 12));
const long = boardWith({ overhang: fret22 + 10 - 628 * (1 - 2 ** (-19 / 12)) }, wide);

function worst(instrument: Instrument): number {
  const { offStrings } = benchSheet(laidOut(instrument), instrument).board;
  return Math.max(...offStrings.map(Math.abs));
}

describe('how far the board is off a straight line under the strings', () => {
  it('is 0.018 mm for a cylinder of 304.8, 0.004 for 254 to 406.4, under 0.001 for a matched cone', () => {
    expect(worst(boardWith({ radius: 304.8 }, long))).toBeCloseTo(0.018, 3);
    expect(worst(boardWith(cone(254, 406.4), long))).toBeCloseTo(0.004, 3);
    const matched = boardWith({ radius: 254, radiusAlong: { kind: 'matched' } }, long);
    const { offStrings } = benchSheet(laidOut(matched), matched).board;
    // The cone is matched to the outer strings; equal gaps put the inner ones a trifle off its rulings.
    for (const outer of [offStrings[0], offStrings.at(-1)]) expect(Math.abs(outer ?? 1)).toBeLessThan(1e-9);
    expect(worst(matched)).toBeLessThan(0.0001);
    expect(worst(boardWith({ radius: Number.POSITIVE_INFINITY }, long))).toBe(0);
  });

  it('stays under 0.001 mm on a matched board whose strings have set-backs of their own', () => {
    const own = boardWith({ radius: 254, radiusAlong: { kind: 'matched' } });
    expect(worst(own)).toBeLessThan(0.001);
    expect(boardNotes(benchSheet(laidOut(own), own)).join(' ')).toContain('within 0.001 mm');
  });

  it('agrees with a plain search along each string, sign included', () => {
    const instrument = boardWith(cone(184, 500));
    const layout = laidOut(instrument);
    const { offStrings } = benchSheet(layout, instrument).board;
    layout.strings.forEach(({ nut, saddle }, i) => {
      const end = layout.board.end;
      const height = (x: number): number => {
        const R = 184 + ((500 - 184) * x) / end;
        const y = nut[1] + ((saddle[1] - nut[1]) * x) / saddle[0];
        return Math.sqrt(R * R - y * y) - R;
      };
      let found = 0;
      for (let k = 0; k <= 20_000; k += 1) {
        const x = (end * k) / 20_000;
        const off = height(x) - height(0) - ((height(end) - height(0)) * x) / end;
        if (Math.abs(off) > Math.abs(found)) found = off;
      }
      expect(offStrings[i]).toBeCloseTo(found, 7);
    });
  });

  it('is 0 along any ruling of a cone', () => {
    const surface = { kind: 'cone', x: [0, 450], R: [200, 400] } as const;
    expect(Math.abs(errorAlong(surface, [0, 15], [450, 30]))).toBeLessThan(1e-12);
    expect(boardHeight(surface, 225, 0)).toBeCloseTo(0, 12);
  });

  it('is told on the sheet with both radii', () => {
    const instrument = boardWith(cone(254, 406.4), long);
    const text = boardNotes(benchSheet(laidOut(instrument), instrument)).join(' ');
    expect(text).toContain('radius 254 mm (10 in) at the nut face, 406.4 mm (16 in) at the body end');
    expect(text).toContain('0.004 mm');
  });
});

describe('the second radius', () => {
  it('holds at the fret where it is given', () => {
    const instrument = boardWith({ radius: 254, radiusAlong: { kind: 'cone', fret: 12, radius: 350 } });
    const { surface, end } = laidOut(instrument).board;
    if (surface.kind !== 'cone') throw new Error('not a cone');
    // The 12th fret lies at 314: what the radius gains to there it goes on gaining.
    expect(surface.R[1]).toBeCloseTo(254 + (96 * end) / 314, 9);
  });

  it('of a matched board grows as the outer strings spread', () => {
    const instrument = boardWith({ radius: 254, radiusAlong: { kind: 'matched' } }, wide);
    const { surface, end } = laidOut(instrument).board;
    if (surface.kind !== 'cone') throw new Error('not a cone');
    expect(surface.R[1] / surface.R[0]).toBeCloseTo((36 + (18 * end) / 628) / 36, 9);
  });
});

describe('body ends', () => {
  const half = (layout: Layout, x: number): number =>
    layout.board.halfWidth.at0 + layout.board.halfWidth.slope * x;

  it('lean by the angle, through the end of the middle line', () => {
    const layout = laidOut(boardWith({ endAngle: 0.15, endRounding: 0, overhang: 14 }));
    const [, bass, treble] = layout.board.outline;
    if (bass === undefined || treble === undefined) throw new Error('no corners');
    expect((treble.x - bass.x) / (treble.y - bass.y)).toBeCloseTo(Math.tan(0.15), 12);
    for (const corner of [bass, treble]) expect(Math.abs(corner.y)).toBeCloseTo(half(layout, corner.x), 9);
    const share = -bass.y / (treble.y - bass.y);
    expect(bass.x + (treble.x - bass.x) * share).toBeCloseTo(layout.board.end, 9);
  });

  it('keep their rounded corners touching both sides when they lean', () => {
    const sides = segments(
      laidOut(boardWith({ endAngle: 0.15, endRounding: 4, overhang: 16 })).board.outline,
    );
    const arcs = sides.filter((s) => s.kind === 'arc');
    expect(arcs.map((a) => (a.kind === 'arc' ? a.radius : 0))).toEqual([
      expect.closeTo(4, 9),
      expect.closeTo(4, 9),
    ]);
    sides.forEach((side, i) => {
      const next = sides[(i + 1) % sides.length];
      if (side.kind !== 'arc' || next?.kind !== 'line') return;
      const out = [next.to[0] - next.from[0], next.to[1] - next.from[1]] as const;
      const arm = [side.to[0] - side.centre[0], side.to[1] - side.centre[1]] as const;
      expect(Math.abs(out[0] * arm[0] + out[1] * arm[1]) / Math.hypot(...out)).toBeLessThan(1e-9);
    });
  });

  it.each([45, -60])('of one arc of radius %d go through the middle and both edges', (radius) => {
    const layout = laidOut(boardWith({ endArc: radius, endRounding: 0, overhang: 24 }));
    const arc = segments(layout.board.outline).find((s) => s.kind === 'arc');
    if (arc?.kind !== 'arc') throw new Error('no arc');
    expect(arc.radius).toBeCloseTo(Math.abs(radius), 9);
    expect(arc.centre).toEqual([expect.closeTo(layout.board.end - radius, 9), expect.closeTo(0, 9)]);
    for (const [x, y] of [arc.from, arc.to]) expect(Math.abs(y)).toBeCloseTo(half(layout, x), 9);
    expect(Math.sign(arc.sweep)).toBe(Math.sign(radius));
  });

  it('that cut a slot are refused with the fret', () => {
    const layout = layOut(boardWith({ endAngle: 0.5, endRounding: 0, overhang: 5 }));
    expect(layout.ok).toBe(false);
    if (layout.ok) return;
    expect(layout.findings.map((f) => f.code)).toContain('end-cuts-slot');
    expect(layout.findings.find((f) => f.code === 'end-cuts-slot')?.text).toContain('fret 19');
  });
});

describe('a second width at the body end', () => {
  it('is met there', () => {
    const { board } = laidOut(boardWith({ widthAt: { fret: null, width: 60 } }));
    expect(2 * (board.halfWidth.at0 + board.halfWidth.slope * board.end)).toBeCloseTo(60, 9);
  });
});

describe('a board with binding', () => {
  const bound = boardWith({
    binding: { material: 'maple', width: 1.5, around: 'sides and end', trim: 20, channelDepth: null },
  });
  const layout = laidOut(bound);

  it('has wood that lies the strip’s width inside the finished outline everywhere but at the nut', () => {
    const outline = segments(layout.board.outline);
    const wood = segments(layout.board.wood);
    expect(wood).toHaveLength(outline.length);
    const sideOf = (sides: typeof wood) => sides[0];
    const [a, b] = [sideOf(outline), sideOf(wood)];
    if (a === undefined || b === undefined) throw new Error('no sides');
    const along = [a.to[0] - a.from[0], a.to[1] - a.from[1]] as const;
    for (const p of [b.from, b.to]) {
      const off = (along[0] * (p[1] - a.from[1]) - along[1] * (p[0] - a.from[0])) / Math.hypot(...along);
      expect(off).toBeCloseTo(1.5, 9);
    }
    expect(Math.max(...layout.board.wood.map((v) => v.x))).toBeCloseTo(layout.board.end - 1.5, 9);
    const radii = (sides: typeof wood) => sides.flatMap((s) => (s.kind === 'arc' ? [s.radius] : []));
    expect(radii(wood)).toEqual(radii(outline).map((r) => expect.closeTo(r - 1.5, 9)));
  });

  it('has slots that run out at the wood’s edge, and strips to buy as long as its edges', () => {
    layout.slotCuts.forEach(({ line, ends }, i) => {
      const slot = layout.slots[i];
      const taken = 1.5 * Math.hypot(1, layout.board.halfWidth.slope);
      expect(ends).toEqual(['edge', 'edge']);
      expect(line[1][1]).toBeCloseTo((slot?.line[1][1] ?? 0) - taken, 9);
    });
    const rows = bindingStrips(layout, bound);
    expect(rows.map((r) => r.amount)).toEqual(['2', '1']);
    const side = layout.board.end * Math.hypot(1, layout.board.halfWidth.slope);
    expect(rows[0]?.note).toContain(`${Math.ceil(side + 20)} mm`);
    expect(perimeter(layout.board.outline)).toBeGreaterThan(2 * side);
  });
});

describe('slots that stop short', () => {
  it('end the margin before the finished edge, measured along the slot, for both hands alike', () => {
    for (const hand of ['right', 'left'] as const) {
      const layout = laidOut({ ...boardWith({ slotsStopShort: 2 }), hand });
      layout.slotCuts.forEach(({ line, ends }, i) => {
        const slot = layout.slots[i];
        if (slot === undefined) throw new Error('no slot');
        expect(ends).toEqual(['stopped', 'stopped']);
        [0, 1].forEach((k) => {
          const [a, b] = [line[k], slot.line[k]];
          expect(Math.hypot((a?.[0] ?? 0) - (b?.[0] ?? 9), (a?.[1] ?? 0) - (b?.[1] ?? 9))).toBeCloseTo(2, 9);
          expect(Math.abs(a?.[1] ?? 9)).toBeLessThan(Math.abs(b?.[1] ?? 0));
        });
      });
    }
  });
});
