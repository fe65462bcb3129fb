/** Index pins that are found: held against a fine grid of every place, and against both parts. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sectionsOn } from '../../src/carving/along.ts';
import { sectionChain } from '../../src/carving/section.ts';
import { checkLayout } from '../../src/checks/checkLayout.ts';
import { pocketOf } from '../../src/geometry/form.ts';
import { flatten } from '../../src/geometry/ring.ts';
import type { Vec } from '../../src/geometry/types.ts';
import { layOut } from '../../src/layout/layOut.ts';
import type { Layout } from '../../src/layout/types.ts';
import { makeParts } from '../../src/parts/makeParts.ts';
import { settingsOf } from '../../src/parts/settings.ts';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import type { IndexPins, Instrument } from '../../src/profile/types.ts';
import { necked, neckShop } from '../support/neck.ts';

const auto = (change: Partial<IndexPins> = {}, base: Instrument = necked): Instrument => ({
  ...base,
  indexPins: { ...base.indexPins, place: 'auto', hide: 'any', ...change },
});

function layoutOf(instrument: Instrument): Layout {
  const layout = layOut(instrument);
  if (!layout.ok) throw new Error(JSON.stringify(layout.findings));
  return layout.value;
}

/** Distance from a point to a polygon's boundary, by each of its sides. */
function toBoundary(points: readonly Vec[], [x, y]: Vec): number {
  return Math.min(
    ...points.map(([ax, ay], i) => {
      const [bx, by] = points[(i + 1) % points.length] ?? [ax, ay];
      const [ux, uy] = [bx - ax, by - ay];
      const length = ux * ux + uy * uy;
      const t = length === 0 ? 0 : Math.max(0, Math.min(1, ((x - ax) * ux + (y - ay) * uy) / length));
      return Math.hypot(x - ax - t * ux, y - ay - t * uy);
    }),
  );
}

function isInside(points: readonly Vec[], [x, y]: Vec): boolean {
  return points.reduce((inside, [ax, ay], i) => {
    const [bx, by] = points[(i + 1) % points.length] ?? [ax, ay];
    return ay > y !== by > y && x < ax + ((y - ay) * (bx - ax)) / (by - ay) ? !inside : inside;
  }, false);
}

type Clearance = (at: Vec, under: string) => number;

/** Wood that a hole leaves to all that it is to stay clear of; what hides it is left out. Written anew: shares no code with the search. */
function clearanceIn(instrument: Instrument, layout: Layout): Clearance {
  const fit = { gap: instrument.faceMarkers.clearance / 2, corner: 0 };
  const markers = layout.faceMarkers.map(({ id, form, at }) => ({
    id,
    outline: flatten(pocketOf(form, at, fit).outer, 0.001),
  }));
  const rods = layout.rodCuts.map(({ ring }) => flatten(ring, 0.001));
  const { diameter, depth } = instrument.sideMarkers;
  const holes = layout.sideMarkers.map(({ x, y }): Vec[] => {
    const inner = y - Math.sign(y) * depth;
    const [low, high] = [Math.min(y, inner), Math.max(y, inner)];
    const [x0, x1] = [x - diameter / 2, x + diameter / 2];
    return [
      [x0, low],
      [x1, low],
      [x1, high],
      [x0, high],
    ];
  });
  const wood = flatten(layout.board.wood, 0.001);
  return (at, under) => {
    const gap = (outline: readonly Vec[]): number => (isInside(outline, at) ? 0 : toBoundary(outline, at));
    const slots = layout.slots
      .filter(({ id }) => id !== under)
      .map(({ line }) => toBoundary(line, at) - instrument.frets.slotWidth / 2);
    const others = markers.filter(({ id }) => id !== under).map(({ outline }) => outline);
    const edge = isInside(wood, at) ? toBoundary(wood, at) : -1;
    const end = (layout.neck?.end ?? Number.POSITIVE_INFINITY) - at[0];
    const least = Math.min(...slots, ...[...others, ...rods, ...holes].map(gap), edge, end);
    return least - instrument.indexPins.diameter / 2;
  };
}

/** Every place on a grid of 0.25 mm across that could hide a pin, with the wood that it would leave. */
function everyPlace(instrument: Instrument, layout: Layout): { x: number; left: number }[] {
  const { hide } = instrument.indexPins;
  const slots = layout.slots.flatMap(({ id, line: [from, to] }) =>
    Array.from({ length: 261 }, (_, i) => -32.5 + i * 0.25)
      .filter((y) => y > Math.min(from[1], to[1]) && y < Math.max(from[1], to[1]))
      .map((y): { at: Vec; id: string } => ({
        at: [from[0] + ((to[0] - from[0]) * (y - from[1])) / (to[1] - from[1]), y],
        id,
      })),
  );
  const markers = layout.faceMarkers.map(({ at, id }) => ({ at, id }));
  const places = [...(hide === 'marker' ? [] : slots), ...(hide === 'slot' ? [] : markers)];
  const clearance = clearanceIn(instrument, layout);
  return places.map(({ at, id }) => ({ x: at[0], left: clearance(at, id) }));
}

describe('index pins that are found', () => {
  it('leave the wood that is asked for, and lie as far apart as a fine grid of all places allows', () => {
    fc.assert(
      fc.property(
        fc.record({
          diameter: fc.double({ min: 0.8, max: 2, noNaN: true }),
          leastWall: fc.double({ min: 0.5, max: 4, noNaN: true }),
          offset: fc.double({ min: 0, max: 20, noNaN: true }),
          hide: fc.constantFrom('any' as const, 'slot' as const, 'marker' as const),
        }),
        (change) => {
          const instrument = auto(change);
          const layout = layoutOf({
            ...instrument,
            trussRod: change.hide === 'marker' ? null : necked.trussRod,
          });
          const [first, second] = layout.indexPins;
          if (first === undefined || second === undefined) throw new Error('no pins');
          for (const { at, under } of [first, second])
            expect(clearanceIn(instrument, layout)(at, under)).toBeGreaterThan(change.leastWall - 1e-6);
          const sound = everyPlace(instrument, layout).filter(({ left }) => left >= change.leastWall + 0.01);
          // A slot that is square to the centreline has one x: no sound place lies farther out.
          expect(first.at[0]).toBeLessThanOrEqual(Math.min(...sound.map(({ x }) => x)) + 1e-6);
          expect(second.at[0]).toBeGreaterThanOrEqual(Math.max(...sound.map(({ x }) => x)) - 1e-6);
        },
      ),
      { numRuns: 12, seed: 3 },
    );
  });

  it('stand clear of everything where nothing is to hide them', () => {
    const instrument = auto({ hide: 'no' });
    const layout = layoutOf(instrument);
    expect(layout.indexPins.map(({ under }) => under)).toEqual(['clear', 'clear']);
    for (const { at } of layout.indexPins)
      expect(clearanceIn(instrument, layout)(at, 'clear')).toBeGreaterThan(1.5 - 1e-6);
    const [first, second] = layout.indexPins;
    expect((second?.at[0] ?? 0) - (first?.at[0] ?? 0)).toBeGreaterThan(200);
  });

  it('do not come out of the carved back', () => {
    const shaped: Instrument = {
      ...auto({ offset: 22, leastWall: 1, intoNeck: 8 }),
      neckShape: {
        stations: [
          { fret: 1, depth: 19, shares: { shoulder: 0.55, back: 0.55 }, points: [] },
          { fret: 9, depth: 21, shares: { shoulder: 0.6, back: 0.75 }, points: [] },
        ],
        from: 10,
        to: null,
        leastUnderRod: 0.5,
        gauges: null,
        volute: null,
      },
      trussRod: null,
    };
    const layout = layoutOf(shaped);
    const { shaft } = layout;
    if (shaft === null) throw new Error('no shaft');
    const inShaft = layout.indexPins.filter(({ at }) => at[0] >= shaft.x[0] && at[0] <= shaft.x[1]);
    expect(inShaft.length).toBeGreaterThan(0);
    for (const { at, diameter } of inShaft) {
      // The hole's lower corner on its outer side, against the section's own chain.
      const chain = sectionChain(sectionsOn(shaft)(at[0]), 0.001);
      const corner: Vec = [Math.abs(at[1]) + diameter / 2, -8];
      expect(isInside(chain, corner)).toBe(true);
      expect(Math.abs(at[1])).toBeLessThan(22);
    }
  });

  it('are the same holes in board and neck, also on a left-handed instrument', () => {
    for (const hand of ['right', 'left'] as const) {
      const instrument = { ...auto(), hand };
      const layout = layoutOf(instrument);
      const parts = makeParts(instrument, layout, settingsOf(neckShop));
      const holes = (id: string): Vec[] =>
        (parts.find((p) => p.id === id)?.features ?? []).flatMap((f) => (f.kind === 'hole' ? [f.at] : []));
      const [board, neck] = [holes('fingerboard'), holes('neck-blank')];
      expect(board).toHaveLength(2);
      expect(neck).toHaveLength(2);
      board.forEach(([x, y], i) => {
        expect(Math.abs(x - (neck[i]?.[0] ?? 99))).toBeLessThan(1e-9);
        expect(Math.abs(y - (neck[i]?.[1] ?? 99))).toBeLessThan(1e-9);
      });
      expect(checkLayout(layout, instrument).filter(({ severity }) => severity === 'error')).toEqual([]);
    }
  });

  it('are refused, with what is in the way, where there is no room', () => {
    const refused = (instrument: Instrument): string => {
      const layout = layOut(instrument);
      expect(layout.ok).toBe(false);
      expect(layout.findings[0]?.where?.path).toBe('indexPins');
      return layout.findings.map(({ code, text }) => `${code}: ${text}`).join('\n');
    };
    const wide = refused(auto({ leastWall: 30 }));
    expect(wide).toMatch(/^index-pins-have-no-places: .*the edge of the board \(\d+\)/);
    expect(refused(auto({ hide: 'slot', diameter: 2.5 }))).toContain('nothing that could hide pins');
    const rod = necked.trussRod;
    if (rod === null) throw new Error('no rod');
    const overRod = auto({ hide: 'marker' }, { ...necked, trussRod: { ...rod, width: 30 } });
    expect(refused(overRod)).toContain('the truss rod');
    expect(refused(auto({ hide: 'no', leastWall: 17 }, { ...necked, trussRod: null }))).toMatch(
      /a fret slot \(\d+\)/,
    );
  });

  it('are found for every bundled instrument', () => {
    for (const name of readdirSync('profiles').filter((file) => file.endsWith('.yaml'))) {
      const text = readFileSync(join('profiles', name), 'utf8');
      if (!/^scale:/m.test(text)) continue;
      const without = text.replace(/^indexPins:.*\n(?:[ \t]+.*\n|\n(?=[ \t]))*/m, '');
      const loaded = loadInstrument(`${without}\nindexPins: auto\n`, name);
      if (!loaded.ok) throw new Error(JSON.stringify(loaded.findings));
      const layout = layOut(loaded.value.value);
      expect([name, layout.ok, layout.ok ? layout.value.indexPins.length : layout.findings]).toEqual([
        name,
        true,
        2,
      ]);
    }
  });
});
