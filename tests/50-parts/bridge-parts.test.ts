/** The bridge's parts and jigs as finished shapes. */
import { describe, expect, it } from 'vitest';
import { blanksToBuy, makeAllParts } from '../../src/app/allParts.ts';
import { planBridge } from '../../src/bridge/plan.ts';
import { drawPart } from '../../src/drawing/drawPart.ts';
import { listShapes } from '../../src/drawing/listShapes.ts';
import { frontChain } from '../../src/geometry/frontChain.ts';
import { area, bounds, circle, flatten, segments } from '../../src/geometry/ring.ts';
import { distance } from '../../src/geometry/vec.ts';
import { layOut } from '../../src/layout/layOut.ts';
import type { Layout } from '../../src/layout/types.ts';
import { planJobs } from '../../src/machining/planJobs.ts';
import { piecesOf } from '../../src/parts/makeParts.ts';
import { stopCollars } from '../../src/parts/pinGauges.ts';
import type { Feature, Part } from '../../src/parts/types.ts';
import type { Instrument } from '../../src/profile/types.ts';
import { endHeightsOf } from '../../src/stringing/plan.ts';
import { proveDrawing } from '../../src/verify/dxf/prove.ts';
import { writeDxf } from '../../src/writers/dxf/write.ts';
import { bridged } from '../support/bridges.ts';
import { parlour, workshop } from '../support/instrument.ts';
import { partsOf } from '../support/job.ts';

function part(id: string, instrument: Instrument = bridged()): Part {
  const found = partsOf(instrument).find((p) => p.id === id);
  if (found === undefined) throw new Error(`no part ${id}`);
  return found;
}

function ofKind<K extends Feature['kind']>(kind: K, { features }: Part): (Feature & { kind: K })[] {
  return features.filter((f): f is Feature & { kind: K } => f.kind === kind);
}

function laidOut(instrument: Instrument): Layout {
  const layout = layOut(instrument);
  if (!layout.ok) throw new Error(JSON.stringify(layout.findings));
  return layout.value;
}

describe('the bridge', () => {
  it('has a straight hole through it for every pin and for both index pins', () => {
    const holes = ofKind('hole', part('bridge'));
    expect(holes.map((h) => h.id)).toEqual([
      'bridge-index-pin-bass',
      'bridge-index-pin-treble',
      ...[1, 2, 3, 4, 5, 6].map((n) => `bridge-pin-${n}`),
    ]);
    for (const hole of holes) expect(hole).toMatchObject({ depth: 9, through: true });
    expect(holes[2]?.diameter).toBeCloseTo(4.7625, 9);
    expect(holes.slice(2).map((h) => h.at)).toEqual(laidOut(bridged()).strings.map((s) => s.pin));
  });

  it('has the slot that the saddle’s numbers ask for: length, width and depth', () => {
    const instrument = bridged();
    const layout = laidOut(instrument);
    const heights = endHeightsOf(instrument, layout);
    if (!heights.ok) throw new Error('no heights');
    const work = planBridge(instrument, layout, heights.value);
    if (!work.ok) throw new Error('no bridge');
    const [slot] = ofKind('slot', part('bridge'));
    if (slot === undefined) throw new Error('no slot');
    expect(distance(...slot.line)).toBeCloseTo(work.value.saddle.length, 9);
    expect(slot).toMatchObject({ width: 3.2, floor: { kind: 'plane', z: -5 }, runOut: [0, 0] });
    const angle = Math.atan2(slot.line[0][0] - slot.line[1][0], slot.line[1][1] - slot.line[0][1]);
    expect(angle).toBeCloseTo(work.value.place.slot.angle, 9);
  });

  it('leaves the slot to be cut in place after trial stringing, with its place in words', () => {
    const bridge = part('bridge', bridged({ slotCut: 'after stringing' }));
    expect(ofKind('slot', bridge)[0]?.work).toBe('saddleInPlace');
    const { saddleLine } = laidOut(bridged());
    expect(bridge.byHand?.saddleInPlace).toContain(
      `${Number(saddleLine[0][0].toFixed(2))} mm from the nut face`,
    );
    expect(bridge.byHand?.saddleInPlace).toContain('3.2 mm wide, 5 mm deep');
  });

  it('says how far wings and underside go by hand', () => {
    const joint: Instrument['neckJoint'] = {
      fret: 12,
      boardAboveRim: 0,
      heelDepth: 80,
      heelWidthAtTop: 50,
      heelWidthAtCap: 20,
      domeRadius: 7620,
      domeApex: 200,
      fallAway: 0,
      tenon: null,
    };
    const words = part('bridge', bridged({}, { neckJoint: joint })).byHand?.bridgeShape ?? '';
    expect(words).toContain('from 9 mm at its line to 3 mm at the tip');
    // R - sqrt(R^2 - 75^2) with R = 7620.
    expect(words).toContain('0.37 mm at the middle');
    expect(part('bridge').byHand?.bridgeShape).toContain('true the underside');
  });

  it('is sawn from a board with the grain across the strings', () => {
    const pieces = piecesOf(bridged(), partsOf(bridged()));
    const { box } = part('bridge').blank;
    expect(pieces.find((p) => p.id === 'bridge')).toMatchObject({
      kind: 'board',
      material: 'ebony',
      length: box.y[1] - box.y[0],
      width: box.x[1] - box.x[0],
      thickness: 9,
      grain: true,
    });
    expect(box.y[1] - box.y[0]).toBeCloseTo(150 + 2 * 10, 9);
    expect(pieces.find((p) => p.id === 'bridge-caul-dowel')).toMatchObject({ count: 2, length: 40 });
    expect(pieces.some((p) => p.id === 'pin-coupon')).toBe(false);
  });

  it('is not made when it is bought, and nothing that goes with it either', () => {
    expect(partsOf(parlour).map((p) => p.id)).not.toContain('bridge');
    expect(partsOf(parlour).some((p) => p.id.startsWith('bridge') || p.id.startsWith('stop'))).toBe(false);
  });
});

describe('the bridge plate', () => {
  it('has its holes where the bridge has them', () => {
    const holes = ofKind('hole', part('bridge-plate'));
    const pins = ofKind('hole', part('bridge')).filter((h) => h.id.startsWith('bridge-pin'));
    expect(holes.map((h) => [h.at, h.diameter])).toEqual(pins.map((h) => [h.at, h.diameter]));
    const [outline] = ofKind('outline', part('bridge-plate'));
    expect(outline && area(outline.ring)).toBeCloseTo(120 * 42 - (4 - Math.PI) * 9, 9);
  });
});

describe('the location template', () => {
  const outlineOf = (instrument: Instrument) => {
    const [outline] = ofKind('outline', part('bridge-template', instrument));
    if (outline === undefined) throw new Error('no outline');
    return outline.ring;
  };

  it('leaves the play all round the part of the bridge that lies in its bay', () => {
    const ring = flatten(outlineOf(bridged()), 0.001);
    const bridge = flatten(laidOut(bridged()).bridge?.outline ?? [], 0.001);
    const middle = bounds(laidOut(bridged()).bridge?.outline ?? []).x;
    const front = bridge.filter(([x]) => x < middle[0] + 16);
    expect(front.length).toBeGreaterThan(50);
    // Distance from each place of the bridge's front to the plate, point by point against every side.
    const toPlate = (p: readonly [number, number]): number =>
      Math.min(
        ...ring.map((a, i) => {
          const b = ring[(i + 1) % ring.length] ?? a;
          const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
          const t = ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy);
          const s = Math.max(0, Math.min(1, t));
          return Math.hypot(p[0] - a[0] - s * dx, p[1] - a[1] - s * dy);
        }),
      );
    for (const p of front) expect(toPlate(p)).toBeCloseTo(0.1, 2);
    expect(area(outlineOf(bridged()))).toBeGreaterThan(0);
  });

  it('prints the distances that Pythagoras gives from the corners of the nut', () => {
    const template = part('bridge-template');
    const mark = template.features.find((f) => f.id === 'bridge-template-mark-low-along');
    if (mark?.kind !== 'line') throw new Error('no mark');
    const [from, to] = mark.points;
    const [x, y] = [((from?.[0] ?? 0) + (to?.[0] ?? 0)) / 2, from?.[1] ?? 0];
    const { nutLine, board } = laidOut(bridged());
    const half = Math.abs(nutLine[0][1]);
    const straight = Math.sqrt(x * x + (Math.abs(y) - half) ** 2);
    const crosswise = Math.sqrt(x * x + (Math.abs(y) + half) ** 2);
    const words = template.use?.join(' ') ?? '';
    expect(words).toContain(`cross of the bass side ${straight.toFixed(2)} mm`);
    expect(words).toContain(`to the bass cross ${crosswise.toFixed(2)} mm`);
    const edge = board.halfWidth.at0 + board.halfWidth.slope * x;
    expect(words).toContain(`${(Math.abs(y) - edge).toFixed(2)} mm (`);
    expect(words).toContain('index-pin holes');
  });

  it('measures from the joint when asked, and swaps the sides for the other hand', () => {
    const joint = { ...bridged(), hand: 'left' as const };
    expect(part('bridge-template', joint).use?.[1]).toMatch(/to the cross of the treble side/);
    const base = bridged({ indexPin: null });
    const template = base.jigs.bridgeTemplate;
    if (template === null) throw new Error('no template');
    const from: Instrument = {
      ...base,
      neckJoint: {
        fret: 12,
        boardAboveRim: 0,
        heelDepth: 80,
        heelWidthAtTop: 50,
        heelWidthAtCap: 20,
        domeRadius: null,
        domeApex: 0,
        fallAway: 0,
        tenon: null,
      },
      jigs: { ...base.jigs, bridgeTemplate: { ...template, from: 'joint' } },
    };
    const words = part('bridge-template', from).use ?? [];
    expect(words[1]).toMatch(/^From the board’s corners at fret 12, the joint/);
    expect(words.join(' ')).not.toContain('index-pin');
  });

  it('carries its numbers in strokes where letters are asked for', () => {
    const base = bridged();
    const lettered = { ...base, jigs: { ...base.jigs, lettering: { height: 3 } } };
    const ids = part('bridge-template', lettered).features.map((f) => f.id);
    for (const name of ['straight-low', 'crosswise-high', 'aside-low', 'name'])
      expect(ids.some((id) => id.startsWith(`bridge-template-${name}`))).toBe(true);
  });

  it('lends its index holes to the pin template', () => {
    const openings = ofKind('outline', part('pin-template')).filter((o) => o.id.includes('index'));
    const pins = laidOut(bridged()).bridge?.indexPins ?? [];
    expect(openings.map((o) => area(o.ring))).toEqual(pins.map(() => expect.closeTo(Math.PI * 0.64, 9)));
  });
});

describe('the side of a ring that faces the nut', () => {
  it('runs from its lowest to its highest place, arcs split where they are highest', () => {
    const chain = frontChain(circle([10, 5], 3));
    expect([chain[0]?.x, chain[0]?.y]).toEqual([expect.closeTo(10, 9), expect.closeTo(2, 9)]);
    expect([chain.at(-1)?.x, chain.at(-1)?.y]).toEqual([expect.closeTo(10, 9), expect.closeTo(8, 9)]);
    // Clockwise half a circle.
    const turned = chain.slice(0, -1).reduce((sum, v) => sum + 4 * Math.atan(v.bulge), 0);
    expect(turned).toBeCloseTo(-Math.PI, 9);
    expect(chain.every((v) => v.x <= 10 + 1e-9)).toBe(true);
  });
});

describe('the gluing caul', () => {
  it('has plates whose upper edge is the circle of the dome less the wood between', () => {
    const plates = ofKind('outline', part('bridge-caul-plates')).filter((o) => o.keep === 'inside');
    expect(plates).toHaveLength(6);
    for (const plate of plates) {
      const arcs = segments(plate.ring).filter((s) => s.kind === 'arc');
      expect(arcs).toHaveLength(1);
      const [arc] = arcs;
      if (arc?.kind !== 'arc') throw new Error('no arc');
      expect(arc.radius).toBeCloseTo(8534.4 - 5, 4);
      expect(arc.sweep).toBeGreaterThan(0);
      const box = bounds(plate.ring);
      expect(box.y[1] - box.y[0]).toBeCloseTo(24, 6);
    }
  });
});

describe('a stop collar', () => {
  /** Where a disc of a thickness with a straight hole stops on a cone, found by stepping: independent of the formula. */
  function lowerFaceOn(taper: number, tip: number, hole: number, thickness: number): number {
    const widthAt = (height: number): number => tip + 2 * height * Math.tan(taper / 2);
    let [low, high] = [0, 1000];
    for (let k = 0; k < 100; k += 1) {
      const middle = (low + high) / 2;
      // The cone fits the hole as long as it is nowhere wider within the disc.
      const fits = Array.from({ length: 50 }, (_, i) => widthAt(middle + (thickness * i) / 49)).every(
        (w) => w <= hole,
      );
      if (fits) low = middle;
      else high = middle;
    }
    return low;
  }

  it('touches the bridge 2 mm before the reamer is deep enough, for each size of pin', () => {
    const taper = (3 * Math.PI) / 180;
    const pins = { ...parlour.bridge.anchor, seats: [5.6, 5.65, 5.6, 5.55, 5.6, 5.6] };
    const collars = stopCollars(pins, 6, 3);
    expect(collars.map((c) => c.seat)).toEqual([5.55, 5.6, 5.65]);
    for (const collar of collars) {
      const face = lowerFaceOn(taper, 3, collar.hole, 3);
      const atFace = 3 + 2 * face * Math.tan(taper / 2);
      const left = (collar.seat - atFace) / (2 * Math.tan(taper / 2));
      expect(left).toBeCloseTo(2, 6);
      const advance = (atFace - pins.drill) / (2 * Math.tan(taper / 2));
      expect(collar.stopsAt).toBeCloseTo(advance, 6);
    }
  });

  it('comes with a coupon drilled as the bridge is, as thick as all of the wood', () => {
    const coupon = part('pin-coupon');
    expect(coupon.blank.thickness).toBe(14.3);
    expect(ofKind('hole', coupon).map((h) => [h.diameter, h.depth])).toEqual(
      Array(4).fill([expect.closeTo(4.7625, 9), 14.3]),
    );
    expect(ofKind('outline', part('stop-collars')).map((o) => o.keep)).toEqual(['outside', 'inside']);
  });
});

describe('nut and saddle from the side', () => {
  const base = bridged();
  const instrument: Instrument = {
    ...base,
    jigs: { ...base.jigs, nutAndSaddle: { material: 'bone', over: 1 } },
  };
  const layout = laidOut(instrument);
  const parts = makeAllParts(instrument, layout, workshop);
  const byId = (id: string): Part => {
    const found = parts.find((p) => p.id === id);
    if (found === undefined) throw new Error(`no ${id}`);
    return found;
  };
  const heights = endHeightsOf(instrument, layout);
  if (!heights.ok) throw new Error('no heights');
  const work = planBridge(instrument, layout, heights.value);
  if (!work.ok) throw new Error('no bridge');
  const { nut, saddle } = work.value;

  it('have every string where the tables have it: slots of the nut as notches of their true width', () => {
    const slots = ofKind('line', byId('nut'));
    expect(slots).toHaveLength(6);
    slots.forEach((slot, i) => {
      const [a, b, c, d] = slot.points;
      const wanted = nut.slots[i];
      if (!a || !b || !c || !d || !wanted) throw new Error('no notch');
      expect(c[0] - b[0]).toBeCloseTo(wanted.width, 9);
      expect((b[0] + c[0]) / 2).toBeCloseTo(wanted.fromBassEdge, 9);
      expect(b[1]).toBeCloseTo(wanted.aboveNeck, 9);
      expect(a[1] - b[1]).toBeCloseTo(wanted.depth, 9);
    });
    expect(byId('nut').byHand?.nutBlank).toContain(`string 6 at ${nut.slots[5]?.fromBassEdge.toFixed(2)}`);
  });

  it('stand as high as the action asks: the saddle’s area is that of trapezoids between its strings', () => {
    const [outline] = ofKind('outline', byId('saddle'));
    if (outline === undefined) throw new Error('no outline');
    const tops = saddle.points.map((p) => [p.along, saddle.slotDepth + p.aboveBridge] as const);
    const ends = [[0, tops[0]?.[1] ?? 0] as const, ...tops, [saddle.length, tops.at(-1)?.[1] ?? 0] as const];
    const trapezoids = ends.slice(1).reduce((sum, [x, h], i) => {
      const [x0, h0] = ends[i] ?? [0, 0];
      return sum + ((x - x0) * (h + h0)) / 2;
    }, 0);
    expect(area(outline.ring)).toBeCloseTo(trapezoids, 9);
    const box = bounds(outline.ring);
    expect(box.x[1] - box.x[0]).toBeCloseTo(saddle.length, 9);
    expect(box.y[1]).toBeCloseTo(saddle.tallest, 9);
    expect(byId('saddle').blank.thickness).toBe(3.2);
  });

  it('are bought as blanks with something to spare, and made by hand', () => {
    const rows = blanksToBuy(parts);
    expect(rows.map((r) => r.what)).toEqual(['nut blank, bone', 'saddle blank, bone']);
    expect(rows[0]?.note).toContain(`${(nut.length + 2).toFixed(1).replace(/\.0$/, '')} x `);
    expect(piecesOf(instrument, parts).some((p) => p.id === 'nut' || p.id === 'saddle')).toBe(false);
    const plan = planJobs(parts, workshop);
    if (!plan.ok) throw new Error('no plan');
    expect(plan.value.handSteps.map((s) => s.step)).toEqual(
      expect.arrayContaining(['make-nut', 'make-saddle']),
    );
    expect(plan.value.jobs.some((j) => j.part.id === 'nut' || j.part.id === 'saddle')).toBe(false);
  });

  it('are not drawn where the action is measured at the first fret: nothing can be told of heights', () => {
    const low = { ...instrument, targets: { ...instrument.targets, actionFret: 1 } };
    expect(makeAllParts(low, laidOut(low), workshop).some((p) => p.id === 'nut')).toBe(false);
  });

  it('are drawn and read back', () => {
    for (const id of ['nut', 'saddle']) {
      const drawing = drawPart(byId(id));
      const proof = proveDrawing(writeDxf(drawing), listShapes(drawing));
      expect([id, proof.checks.filter((c) => !c.passed)]).toEqual([id, []]);
    }
  });
});
