import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fallUnder } from '../../src/bridge/fall.ts';
import { workPins } from '../../src/bridge/pins.ts';
import { planBridge } from '../../src/bridge/plan.ts';
import type { BridgeWork } from '../../src/bridge/types.ts';
import { coneDepth } from '../../src/geometry/cone.ts';
import { fitCircleTop } from '../../src/geometry/fitCircleTop.ts';
import type { Vec } from '../../src/geometry/types.ts';
import { layOut } from '../../src/layout/layOut.ts';
import type { Layout } from '../../src/layout/types.ts';
import type { Instrument } from '../../src/profile/types.ts';
import { endHeightsOf } from '../../src/stringing/plan.ts';
import { parlour } from '../support/instrument.ts';

function laidOut(instrument: Instrument): Layout {
  const layout = layOut(instrument);
  if (!layout.ok) throw new Error('the sample does not lay out');
  return layout.value;
}

function planned(instrument: Instrument): BridgeWork {
  const layout = laidOut(instrument);
  const heights = endHeightsOf(instrument, layout);
  if (!heights.ok) throw new Error('the sample has no heights');
  const work = planBridge(instrument, layout, heights.value);
  if (!work.ok) throw new Error('the sample has no bridge');
  return work.value;
}

const codesOf = (instrument: Instrument): string[] => {
  const layout = laidOut(instrument);
  const heights = endHeightsOf(instrument, layout);
  if (!heights.ok) throw new Error('the sample has no heights');
  return planBridge(instrument, layout, heights.value).findings.map((f) => f.code);
};

describe('the bridge’s place', () => {
  const work = planned(parlour);
  const layout = laidOut(parlour);

  it('is measured from the nut face: scale and set-back of every string', () => {
    work.place.strings.forEach((s, i) => {
      const setBack = parlour.strings[i]?.setBack ?? Number.NaN;
      expect(s.saddle + parlour.nut.setForward).toBeCloseTo(parlour.scale.length + setBack, 9);
    });
  });

  it('checks skew by Pythagoras from the corners of the nut', () => {
    const { skew, strings } = work.place;
    const half = parlour.fingerboard.widthAtNut / 2;
    const [bass, treble] = [strings[0], strings.at(-1)];
    const far = (across: number, corner: number, along: number): number =>
      Math.sqrt((across - corner) ** 2 + along ** 2);
    expect(skew.bass).toBeCloseTo(far(bass?.pinAcross ?? 0, -half, bass?.pin ?? 0), 9);
    expect(skew.treble).toBeCloseTo(far(treble?.pinAcross ?? 0, half, treble?.pin ?? 0), 9);
    expect(skew.bassToTreble).toBeCloseTo(far(treble?.pinAcross ?? 0, -half, treble?.pin ?? 0), 9);
    expect(skew.trebleToBass).toBeCloseTo(far(bass?.pinAcross ?? 0, half, bass?.pin ?? 0), 9);
  });

  it('is the same for the other hand, side by side', () => {
    const left = planned({ ...parlour, hand: 'left' });
    left.place.strings.forEach((s, i) => {
      const right = work.place.strings[i];
      expect(s.saddle).toBeCloseTo(right?.saddle ?? 0, 9);
      expect(s.pinAcross).toBeCloseTo(right?.pinAcross ?? 0, 9);
    });
    expect(left.place.slot.angle).toBeCloseTo(work.place.slot.angle, 12);
    expect(left.place.centring.bass).toBeCloseTo(work.place.centring.bass, 9);
    expect(left.nut.slots.map((s) => s.fromBassEdge)).toEqual(work.nut.slots.map((s) => s.fromBassEdge));
  });

  it('centres by the straightedges: both sides add up to the board’s width there less the pins’ spread', () => {
    const { centring } = work.place;
    const pins = layout.strings.map((s) => s.pin);
    const widthAt = (x: number): number => layout.board.halfWidth.at0 + layout.board.halfWidth.slope * x;
    const sum = widthAt(pins[0]?.[0] ?? 0) + widthAt(pins.at(-1)?.[0] ?? 0) - parlour.bridge.anchor.spread;
    expect(centring.bass + centring.treble).toBeCloseTo(sum, 9);
  });
});

describe('the saddle', () => {
  it('gives 4.567 and 3.362 above the fret plane at 2.4 and 1.8 over the 12th fret (common practice, worked by hand)', () => {
    // Nut 0.25, saddle line 630.5, no relief: hs = hn + (a12 - hn) xs / x12.
    const first = (action: number): number => 0.25 + ((action - 0.25) * 35.2469) / 314;
    const setUp: Instrument = {
      ...parlour,
      scale: { ...parlour.scale, length: 628 },
      strings: parlour.strings.map((s) => ({ ...s, setBack: 2.5 })),
      targets: {
        ...parlour.targets,
        actionBass: 2.4,
        actionTreble: 1.8,
        actionFret: 12,
        firstFretBass: first(2.4),
        firstFretTreble: first(1.8),
        relief: 0,
      },
    };
    const points = planned(setUp).saddle.points;
    expect(points[0]?.aboveFrets).toBeCloseTo(4.567, 3);
    expect(points.at(-1)?.aboveFrets).toBeCloseTo(3.362, 3);
  });

  it('loses 0.906 to the board’s curve under an outer string (R 406.4, half spread 18 to 28; worked by hand)', () => {
    const flat = laidOut({ ...parlour, fingerboard: { ...parlour.fingerboard, radius: 406.4 } });
    const line = {
      position: 1,
      course: 1,
      scale: { from: 0, length: 628 },
      fretX: Array.from({ length: 19 }, (_, i) => 628 * (1 - 2 ** (-(i + 1) / 12))),
      pitch: 'E2',
      gauge: 1,
      nut: [0, 18] as Vec,
      saddle: [628, 28] as Vec,
      pin: [645, 28] as Vec,
    };
    // The worked figure carries the line through nut and 12th fret on; ours goes through the first and the 12th.
    const R = 406.4;
    const drop = (x: number): number => R - Math.sqrt(R * R - (18 + (10 * x) / 628) ** 2);
    expect(drop(0) + ((drop(314) - drop(0)) * 630.5) / 314).toBeCloseTo(0.906, 3);
    const byHand = drop(35.2469) + ((drop(314) - drop(35.2469)) * (630.5 - 35.2469)) / (314 - 35.2469);
    expect(fallUnder(line, flat, 12).measured(630.5)).toBeCloseTo(byHand, 4);
    expect(Math.abs(byHand - 0.906)).toBeLessThan(0.01);
  });

  it('rises by what the straightedge is raised, and sinks by the drop', () => {
    const at = (straightedge: number, drop: number): number[] =>
      planned({ ...parlour, bridge: { ...parlour.bridge, straightedge, drop } }).saddle.points.map(
        (p) => p.aboveBridge,
      );
    const base = at(0, 0);
    for (const [i, height] of at(1.2, 0.5).entries()) expect(height - (base[i] ?? 0)).toBeCloseTo(0.7, 12);
  });

  it('has every string straight: a line from the saddle through the nut clears the action’s fret by the action', () => {
    const layout = laidOut(parlour);
    const work = planned(parlour);
    const { targets, fretWire, fingerboard } = parlour;
    const crest = fingerboard.thickness + fretWire.crownHeight;
    const twelfth = layout.slots[targets.actionFret - 1]?.x ?? 0;
    const bow = layout.slots[targets.bowFret - 1]?.x ?? 1;
    layout.strings.forEach((line, i) => {
      const nut = (work.nut.slots[i]?.aboveNeck ?? 0) - crest;
      const saddle = (work.saddle.points[i]?.aboveFrets ?? 0) - (work.saddle.points[i]?.fall ?? 0);
      const share = (twelfth - line.nut[0]) / (line.saddle[0] - line.nut[0]);
      const y = line.nut[1] + share * (line.saddle[1] - line.nut[1]);
      const R = fingerboard.radius;
      const u = twelfth / bow;
      const dip = u >= 1 ? 0 : 4 * targets.relief * u * (1 - u);
      const top = Math.sqrt(R * R - y * y) - R - dip;
      const across = i / (layout.strings.length - 1);
      const action = nut + share * (saddle - nut) - top;
      expect(action).toBeGreaterThan(Math.min(targets.actionBass, targets.actionTreble) - 1e-9);
      if (across === 0) expect(action).toBeCloseTo(targets.actionBass, 9);
      if (across === 1) expect(action).toBeCloseTo(targets.actionTreble, 9);
    });
  });

  it('names what is doubtful, and refuses what cannot be', () => {
    const withBridge = (bridge: Partial<Instrument['bridge']>): Instrument => ({
      ...parlour,
      bridge: { ...parlour.bridge, ...bridge },
    });
    expect(codesOf(withBridge({ straightedge: 4 }))).toContain('saddle-unusual');
    expect(codesOf(withBridge({ straightedge: -3 }))).toContain('saddle-too-low');
    expect(codesOf(withBridge({ saddle: { ...parlour.bridge.saddle, slotDepth: 3 } }))).toContain(
      'saddle-tips',
    );
    expect(codesOf(withBridge({ saddle: { ...parlour.bridge.saddle, height: 6 } }))).toContain(
      'saddle-height-differs',
    );
    expect(codesOf({ ...parlour, nut: { ...parlour.nut, stringSpread: 43 } })).toContain('string-near-edge');
  });
});

describe('a shaped top', () => {
  it('finds the radius of points on a circle’s crown and misses none by more than the parabola does', () => {
    const on = (x: number): Vec => [x, Math.sqrt(400 * 400 - (x - 30) ** 2) - 390];
    const { radius, miss } = fitCircleTop([0, 10, 20, 30, 40, 50, 60].map(on));
    expect(Math.abs((radius ?? 0) / 400 - 1)).toBeLessThan(0.005);
    expect(miss).toBeLessThan(0.001);
  });

  it('calls a straight top straight', () => {
    expect(
      fitCircleTop([
        [0, 3],
        [10, 3.5],
        [20, 4],
      ]).radius,
    ).toBeNull();
  });
});

describe('pins', () => {
  it('reams 16.04 and puts the tip 30.55 below the face (seat 5.6, drill 4.76, tip 4.0, 3 deg; worked by hand)', () => {
    const pins = {
      ...parlour.bridge.anchor,
      seat: 5.6,
      drill: 4.76,
      reamerTip: 4,
      reamerTaper: (3 * Math.PI) / 180,
    };
    const [first] = workPins({ ...parlour, bridge: { ...parlour.bridge, anchor: pins } });
    expect(first?.advance).toBeCloseTo(16.04, 2);
    expect(first?.tipBelow).toBeCloseTo(30.55, 2);
  });

  it('takes each pin’s own measure', () => {
    const seats = [5.5, 5.55, 5.6, 5.65, 5.7, 5.6];
    const pins = { ...parlour.bridge.anchor, seats };
    const holes = workPins({ ...parlour, bridge: { ...parlour.bridge, anchor: pins } });
    expect(holes.map((h) => h.seat)).toEqual(seats);
    // 0.05 of diameter is 0.95 of height at 3 deg.
    expect((holes[1]?.advance ?? 0) - (holes[0]?.advance ?? 0)).toBeCloseTo(0.95, 2);
  });

  it('agrees with a solid of revolution: the hole that a turned reamer leaves is the seat at the face, and the drill below', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 4.5, max: 7, noNaN: true }),
        fc.double({ min: 0.1, max: 1.5, noNaN: true }),
        fc.double({ min: 1, max: 6, noNaN: true }),
        (seat, less, degrees) => {
          const taper = (degrees * Math.PI) / 180;
          const drill = seat - less;
          const advance = coneDepth(seat, drill, taper);
          // A cone pushed in until it touches the rim of the drilled hole has its drill-wide ring at the face; `advance` deeper,
          // the cone's radius at depth z is what the ring `advance - z` above that one has.
          const radius = (z: number): number =>
            Math.max(drill / 2, drill / 2 + (advance - z) * Math.tan(taper / 2));
          expect(2 * radius(0)).toBeCloseTo(seat, 9);
          expect(2 * radius(advance)).toBeCloseTo(drill, 9);
          // Pappus on thin rings against the frustum's closed form.
          const rings = 2000;
          let volume = 0;
          for (let k = 0; k < rings; k += 1)
            volume += Math.PI * radius(((k + 0.5) * advance) / rings) ** 2 * (advance / rings);
          const [a, b] = [seat / 2, drill / 2];
          expect(volume / ((Math.PI * advance * (a * a + a * b + b * b)) / 3)).toBeCloseTo(1, 5);
        },
      ),
    );
  });
});
