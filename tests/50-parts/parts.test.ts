import { describe, expect, it } from 'vitest';
import { area, bounds, segments } from '../../src/geometry/ring.ts';
import { sagitta, surfaceHeight } from '../../src/geometry/surface.ts';
import type { Vec } from '../../src/geometry/types.ts';
import { distance } from '../../src/geometry/vec.ts';
import { piecesOf } from '../../src/parts/makeParts.ts';
import type { Feature, Part } from '../../src/parts/types.ts';
import { thickestDowel } from '../../src/profile/checkJigs.ts';
import type { Instrument } from '../../src/profile/types.ts';
import { parlour } from '../support/instrument.ts';
import { partsOf } from '../support/job.ts';

function part(id: string, instrument: Instrument = parlour): Part {
  const found = partsOf(instrument).find((p) => p.id === id);
  if (found === undefined) throw new Error(`no part ${id}`);
  return found;
}

function feature<K extends Feature['kind']>(
  id: string,
  kind: K,
  instrument?: Instrument,
): Feature & { kind: K } {
  const found = part('fingerboard', instrument).features.find((f) => f.id === id);
  if (found?.kind !== kind) throw new Error(`no ${kind} ${id}`);
  return found as Feature & { kind: K };
}

describe('the curve of a board', () => {
  // Sagittas derived by exact arithmetic: s = R - sqrt(R^2 - c^2 / 4).
  it.each([
    [304.8, 56, 1.288814],
    [406.4, 56, 0.965714],
    [254, 43, 0.911577],
    [4572, 381, 3.970474],
    [7620, 406.4, 2.709815],
  ])('of radius %d has the sagitta of a chord of %d', (radius, chord, expected) => {
    expect(sagitta(radius, chord)).toBeCloseTo(expected, 6);
  });

  it('keeps its digits where the plain formula loses them', () => {
    expect(surfaceHeight(1e6, 0.01)).toBeCloseTo(-5e-11, 20);
  });

  it('has no height beyond its radius', () => {
    expect(() => surfaceHeight(10, 11)).toThrow('radius 10');
  });
});

describe('the fingerboard', () => {
  it('has its slot floors below the finished crest, also in a blank that is thicker than the board', () => {
    const thick = { ...parlour, fingerboard: { ...parlour.fingerboard, blankThickness: 7.5 } };
    const slot = feature('fret-slot-12', 'slot', thick);
    if (slot.floor.kind !== 'cone') throw new Error('not a cone');
    expect(slot.floor.crest).toBeCloseTo(-1, 12);
    expect(slot.floor.below).toBe(2);
    expect(slot.floor.R).toEqual([406.4, 406.4]);
  });

  it('sets a marker so that it stands proud wherever it is in a board radiused afterwards', () => {
    // Common practice, no source: in a board of R 304.8 the loss at y 3 is 0.015 and at y 13 is 0.277.
    const tighter = { ...parlour, fingerboard: { ...parlour.fingerboard, radius: 304.8 } };
    expect(surfaceHeight(304.8, 3)).toBeCloseTo(-0.0148, 4);
    expect(surfaceHeight(304.8, 13)).toBeCloseTo(-0.2774, 4);
    const single = feature('face-marker-05', 'pocket', tighter);
    expect(single.floor.z).toBeCloseTo(0.2 - 2, 9);
    const double = feature('face-marker-12-treble', 'pocket', tighter);
    const near = 13 - 2.5;
    expect(double.floor.z + 2 - surfaceHeight(304.8, near)).toBeCloseTo(0.2, 9);
    const { x } = bounds(double.region.outer);
    expect(x[1] - x[0]).toBeCloseTo(5.05, 9);
  });

  it('leaves waste all round for the cutter and the run-out of the slots', () => {
    const { box } = part('fingerboard').blank;
    const outline = feature('fingerboard-outline', 'outline');
    const finished = bounds(outline.ring);
    expect(finished.x[0] - box.x[0]).toBeCloseTo(10, 9);
    expect(box.x[1] - finished.x[1]).toBeCloseTo(10, 9);
    expect(box.y[1] - finished.y[1]).toBeGreaterThanOrEqual(8);
    expect(-box.y[0]).toBe(box.y[1]);
  });
});

describe('the radius block', () => {
  const plates = part('radius-block-plates');

  it('has hollow plates of the board’s radius and the padding, with two dowel holes each', () => {
    const outlines = plates.features.filter((f) => f.kind === 'outline' && f.keep === 'inside');
    expect(outlines).toHaveLength(6);
    expect(plates.features.filter((f) => f.kind === 'outline' && f.keep === 'outside')).toHaveLength(12);
    for (const f of outlines) {
      if (f.kind !== 'outline') continue;
      const [hollow] = segments(f.ring);
      if (hollow?.kind !== 'arc') throw new Error('no arc');
      expect(hollow.radius).toBeCloseTo(406.4 + 1.2, 9);
      expect(hollow.sweep).toBeLessThan(0);
      // A circular segment cut out of a rectangle: R^2 / 2 (t - sin t), t = 2 asin(w / 2R).
      const t = 2 * Math.asin(35 / 407.6);
      expect(area(f.ring)).toBeCloseTo(70 * 40 - (407.6 ** 2 / 2) * (t - Math.sin(t)), 6);
    }
  });

  it('keeps its plates apart and on their panel', () => {
    const boxes = plates.features.flatMap((f) =>
      f.kind === 'outline' && f.keep === 'inside' ? [bounds(f.ring)] : [],
    );
    const { box } = plates.blank;
    boxes.forEach((a, i) => {
      expect(a.x[0]).toBeGreaterThanOrEqual(box.x[0] + 4 - 1e-9);
      expect(a.x[1]).toBeLessThanOrEqual(box.x[1] - 4 + 1e-9);
      expect(a.y[1]).toBeLessThanOrEqual(box.y[1] - 4 + 1e-9);
      for (const b of boxes.slice(i + 1)) {
        const gap = Math.max(a.x[0] - b.x[1], b.x[0] - a.x[1], a.y[0] - b.y[1], b.y[0] - a.y[1]);
        expect(gap).toBeGreaterThanOrEqual(4 - 1e-9);
      }
    });
  });
});

describe('the dowel holes of a plate', () => {
  /** Least wood between a dowel hole and the plate's sides, its hollow and the other hole, from the rings themselves. */
  function leastWall(instrument: Instrument): number {
    const rings = part('radius-block-plates', instrument).features.flatMap((f) =>
      f.kind === 'outline' && f.id.startsWith('plate-1-') ? [f] : [],
    );
    const plate = rings.find((f) => f.keep === 'inside');
    if (plate === undefined) throw new Error('no plate');
    const holes = rings.filter((f) => f.keep === 'outside').map((f) => bounds(f.ring));
    const centres = holes.map(({ x, y }): Vec => [(x[0] + x[1]) / 2, (y[0] + y[1]) / 2]);
    const radius = ((holes[0]?.x[1] ?? 0) - (holes[0]?.x[0] ?? 0)) / 2;
    const toSides = segments(plate.ring).flatMap((side) =>
      centres.map((at) => {
        if (side.kind === 'arc') return distance(at, side.centre) - side.radius;
        const [dx, dy] = [side.to[0] - side.from[0], side.to[1] - side.from[1]];
        return (dx * (at[1] - side.from[1]) - dy * (at[0] - side.from[0])) / Math.hypot(dx, dy);
      }),
    );
    const apart = distance(centres[0] ?? [0, 0], centres[1] ?? [0, 0]) - radius;
    return Math.min(...toSides, apart) - radius;
  }

  // Bounded by the top, by the hollow, by the sides and by each other.
  it.each([
    [90, 30, 406.4],
    [100, 22, 110],
    [30, 40, 406.4],
    [22, 100, 406.4],
  ])(
    'leave exactly 3 mm with the thickest dowel that is allowed in %d x %d at radius %d',
    (width, height, radius) => {
      const block = { ...(parlour.jigs.radiusBlock ?? {}), width, height } as NonNullable<
        Instrument['jigs']['radiusBlock']
      >;
      const dowelDiameter = thickestDowel(block, radius + block.padding);
      const instrument: Instrument = {
        ...parlour,
        fingerboard: { ...parlour.fingerboard, radius },
        jigs: { ...parlour.jigs, radiusBlock: { ...block, dowelDiameter } },
      };
      expect(dowelDiameter).toBeGreaterThan(0);
      expect(leastWall(instrument)).toBeCloseTo(3, 9);
    },
  );
});

describe('the pin template', () => {
  const lines = (instrument?: Instrument): string[] =>
    part('pin-template', instrument).features.flatMap((f) => (f.kind === 'line' ? [f.id] : []));

  it('carries the centreline and the saddle line', () => {
    expect(lines()).toEqual(['pin-template-centreline', 'pin-template-saddle-line']);
  });

  it('has no saddle line where it would have no length: one string, or all in one point', () => {
    const one = { ...parlour, strings: parlour.strings.slice(0, 1) };
    expect(lines(one)).toEqual(['pin-template-centreline']);
    expect(part('pin-template', one).features.filter((f) => f.kind === 'outline')).toHaveLength(2);
    const course = parlour.strings.map((string) => ({ ...string, setBack: 2 }));
    const together = { ...parlour, strings: course, bridge: { ...parlour.bridge, stringSpread: 0 } };
    expect(lines(together)).toEqual(['pin-template-centreline']);
  });

  it('leaves every line of every part a length', () => {
    for (const made of partsOf({ ...parlour, strings: parlour.strings.slice(0, 1) }))
      for (const f of made.features)
        if (f.kind === 'line')
          expect(distance(f.points[0] ?? [0, 0], f.points.at(-1) ?? [0, 0])).toBeGreaterThan(1);
  });
});

describe('what has to be sawn', () => {
  it('is a blank for every part, and the dowels', () => {
    const pieces = piecesOf(parlour, partsOf());
    expect(pieces.map((p) => p.id)).toEqual([
      'fingerboard',
      'slot-template',
      'pin-template',
      'radius-block-plates',
      'radius-block-dowel',
    ]);
    expect(pieces.at(-1)).toMatchObject({ kind: 'stick', length: 200, width: 8, count: 2 });
  });

  it('leaves out the jigs nobody asked for', () => {
    const none = {
      ...parlour,
      jigs: {
        radiusBlock: null,
        pinTemplate: null,
        slotTemplate: null,
        bridgeTemplate: null,
        bridgeCaul: null,
        pinGauges: null,
        nutAndSaddle: null,
        sideMarkerTemplate: null,
        lettering: null,
      },
    };
    expect(partsOf(none).map((p) => p.id)).toEqual(['fingerboard']);
  });
});
