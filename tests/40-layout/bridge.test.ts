/** The bridge as it lies on the top, and what is refused of it. */
import { describe, expect, it } from 'vitest';
import { readBridgeOutline } from '../../src/artwork/readArtwork.ts';
import { checkLayout } from '../../src/checks/checkLayout.ts';
import { area, bounds, segments } from '../../src/geometry/ring.ts';
import { distance } from '../../src/geometry/vec.ts';
import { layOut } from '../../src/layout/layOut.ts';
import type { Layout, PlacedBridge } from '../../src/layout/types.ts';
import { checkInstrument } from '../../src/profile/checkInstrument.ts';
import type { BridgeBody, Instrument } from '../../src/profile/types.ts';
import { bridged } from '../support/bridges.ts';

function laidOut(instrument: Instrument): Layout {
  const layout = layOut(instrument);
  if (!layout.ok) throw new Error(JSON.stringify(layout.findings));
  return layout.value;
}

function placed(instrument: Instrument): PlacedBridge {
  const { bridge } = laidOut(instrument);
  if (bridge === null) throw new Error('no bridge');
  return bridge;
}

const codesOf = (instrument: Instrument): string[] =>
  checkLayout(laidOut(instrument), instrument).map((f) => f.code);

describe('the outline of a bridge', () => {
  it('encloses a rectangle, two trapezoids and no more than its rounded corners take away', () => {
    const { length, width, wingLength, tipWidth, cornerRadius: r } = bridged().bridge.body as BridgeBody;
    const sharp = (length - 2 * wingLength) * width + 2 * wingLength * ((width + tipWidth) / 2);
    // A corner that turns by t loses r^2 (tan(t / 2) - t / 2): elementary geometry.
    const shoulder = Math.atan((width - tipWidth) / 2 / wingLength);
    const lost = (t: number): number => r * r * (Math.tan(t / 2) - t / 2);
    const all = 4 * lost(shoulder) + 4 * lost(Math.PI / 2 - shoulder);
    expect(area(placed(bridged()).outline)).toBeCloseTo(sharp - all, 6);
  });

  it('lies with its front before the saddle as asked, halfway on the centreline', () => {
    const layout = laidOut(bridged());
    const box = bounds(placed(bridged()).outline);
    const [bass, treble] = layout.saddleLine;
    expect(box.x[0]).toBeCloseTo((bass[0] + treble[0]) / 2 - 10, 9);
    expect(box.x[1] - box.x[0]).toBeCloseTo(34, 9);
    expect(box.y[0]).toBeCloseTo(-75, 9);
    expect(box.y[1]).toBeCloseTo(75, 9);
  });

  it('is a rectangle with round corners where there are no wings', () => {
    const plain = placed(bridged({ wingLength: 0 }));
    expect(plain.wings).toEqual([]);
    expect(area(plain.outline)).toBeCloseTo(150 * 34 - (4 - Math.PI) * 16, 9);
  });

  it('stands along the saddle when asked: its front keeps the same distance from the slot everywhere', () => {
    const { slot, outline } = placed(bridged({ stands: 'saddle', wingLength: 0, cornerRadius: 0 }));
    const [[x0, y0], [x1, y1]] = slot;
    const off = (x: number, y: number): number =>
      ((x - x0) * (y1 - y0) - (y - y0) * (x1 - x0)) / Math.hypot(x1 - x0, y1 - y0);
    const offs = outline.map((v) => off(v.x, v.y)).sort((a, b) => a - b);
    expect(offs[0]).toBeCloseTo(-10, 9);
    expect(offs[1]).toBeCloseTo(-10, 9);
    expect(offs[3]).toBeCloseTo(24, 9);
  });

  it('is the mirror image for the other hand, still counter-clockwise', () => {
    const right = placed(bridged());
    const left = placed({ ...bridged(), hand: 'left' });
    expect(area(left.outline)).toBeCloseTo(area(right.outline), 9);
    expect(left.slot).toEqual(right.slot.map(([x, y]) => [x, -y]));
    expect(left.indexPins).toEqual(right.indexPins.map(([x, y]) => [x, -y]));
  });

  it('has arcs of the asked radius at every corner', () => {
    const arcs = segments(placed(bridged()).outline).filter((s) => s.kind === 'arc');
    expect(arcs).toHaveLength(8);
    for (const arc of arcs) expect(arc.kind === 'arc' && arc.radius).toBeCloseTo(4, 9);
  });
});

describe('the slot and the pins under the saddle', () => {
  it('lie on the saddle line: the slot reaches past the outer strings, the pins halfway between', () => {
    const layout = laidOut(bridged());
    const { slot, indexPins } = placed(bridged());
    const [bass, treble] = layout.saddleLine;
    expect(distance(slot[0], slot[1])).toBeCloseTo(distance(bass, treble) + 12, 9);
    expect(distance(slot[0], bass)).toBeCloseTo(6, 9);
    expect(indexPins.map((p, i) => distance(p, layout.saddleLine[i === 0 ? 0 : 1]))).toEqual([
      expect.closeTo(3, 9),
      expect.closeTo(3, 9),
    ]);
  });

  it('are none where none are asked for', () => {
    expect(placed(bridged({ indexPin: null })).indexPins).toEqual([]);
  });
});

describe('a bridge that cannot be', () => {
  const refused = (change: Partial<BridgeBody>): string[] => {
    const layout = layOut(bridged(change));
    return layout.ok ? [] : layout.findings.map((f) => f.code);
  };

  it('is refused: all wings, corners rounder than their sides', () => {
    expect(refused({ wingLength: 75 })).toEqual(['bridge-all-wings']);
    expect(refused({ cornerRadius: 20 })).toEqual(['bridge-corners-too-round']);
    expect(refused({})).toEqual([]);
  });

  it('is refused where its walls are too thin, with the place', () => {
    expect(codesOf(bridged())).toEqual([]);
    expect(
      codesOf(bridged({ width: 28 })).filter((c) => c === 'bridge-wall-too-thin').length,
    ).toBeGreaterThan(0);
    expect(codesOf(bridged({ front: 4 }))).toContain('bridge-wall-too-thin');
    expect(codesOf(bridged({ wingLength: 50, cornerRadius: 2 }))).toContain('slot-in-wing');
    const near = checkLayout(laidOut(bridged({ width: 28 })), bridged({ width: 28 }))[0];
    expect(near?.text).toMatch(/pin \d.*from the nut face/);
  });

  it('is refused by its own numbers', () => {
    const codes = (change: Partial<BridgeBody>): string[] =>
      checkInstrument(bridged(change))
        .filter((f) => f.where?.path?.startsWith('bridge') === true)
        .map((f) => f.code);
    expect(codes({})).toEqual([]);
    expect(codes({ thickness: 6 })).toEqual(['saddle-slot-too-deep']);
    expect(codes({ tipWidth: 40 })).toEqual(['bridge-tips-too-wide']);
    expect(codes({ tipThickness: 10 })).toEqual(['bridge-tips-too-thick']);
    expect(codes({ indexPin: 4 })).toEqual(['index-pin-shows']);
    expect(codes({ thickness: 14 })).toEqual(['pins-through-less']);
    const high = { ...bridged(), bridge: { ...bridged().bridge, height: 10 } };
    expect(checkInstrument(high).map((f) => f.code)).toContain('bridge-height-differs');
  });

  it('is refused for jigs that do not fit it', () => {
    const codes = (change: (instrument: Instrument) => Instrument): string[] =>
      checkInstrument(change(bridged())).map((f) => f.code);
    const jig = (jigs: Partial<Instrument['jigs']>) => (i: Instrument) => ({
      ...i,
      jigs: { ...i.jigs, ...jigs },
    });
    const { bridgeCaul, bridgeTemplate, pinGauges } = bridged().jigs;
    if (bridgeCaul === null || bridgeTemplate === null || pinGauges === null) throw new Error('no jigs');
    expect(codes((i) => i)).toEqual([]);
    expect(codes(jig({ bridgeCaul: { ...bridgeCaul, radius: null } }))).toEqual(['caul-needs-radius']);
    expect(codes(jig({ bridgeCaul: { ...bridgeCaul, dowelDiameter: 18 } }))).toEqual([
      'caul-dowel-too-thick',
    ]);
    expect(codes(jig({ bridgeCaul: { ...bridgeCaul, plates: 14 } }))).toEqual(['caul-plates-too-many']);
    expect(codes(jig({ bridgeTemplate: { ...bridgeTemplate, from: 'joint' } }))).toEqual([
      'template-without-joint',
    ]);
    expect(codes(jig({ pinGauges: { ...pinGauges, collar: 10 } }))).toEqual(['collar-too-small']);
    expect(codes((i) => ({ ...i, bridge: { ...i.bridge, body: null } }))).toEqual([
      'template-without-bridge',
    ]);
    const plate = bridged().bridge.plate;
    if (plate === null) throw new Error('no plate');
    const withPlate = (change: Partial<typeof plate>) => (i: Instrument) => ({
      ...i,
      bridge: { ...i.bridge, plate: { ...plate, ...change } },
    });
    expect(codes(withPlate({ length: 65 }))).toEqual(['plate-too-short']);
    expect(codes(withPlate({ width: 28 }))).toEqual(['plate-too-narrow']);
    expect(codes(withPlate({ cornerRadius: 25 }))).toEqual(['plate-corners-too-round']);
  });
});

describe('a bridge drawn elsewhere', () => {
  const square = (more: string): string =>
    `<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="160mm" viewBox="0 0 40 160">${more}</svg>`;
  const edge = '<path d="M2 4 H38 V156 H2 Z"/>';
  const drawn = (text: string | null) => {
    const body = bridged({ artwork: { file: 'bridge.svg', rotate: 0 } }).bridge.body;
    return readBridgeOutline(body, () => text);
  };

  it('takes the place of the parametric outline at its own size, its corners as drawn', () => {
    const read = drawn(square(edge));
    if (!read.ok || read.value === null) throw new Error('not read');
    // Chords and arcs are fitted within 0.0015 mm of the drawing.
    expect(Math.abs(area(read.value) - 36 * 152)).toBeLessThan(0.0015 * 2 * (36 + 152));
    const layout = layOut(bridged({ artwork: { file: 'bridge.svg', rotate: 0 } }), [], {
      bridge: read.value,
    });
    if (!layout.ok || layout.value.bridge === null) throw new Error('not laid out');
    const [bass, treble] = layout.value.saddleLine;
    expect(bounds(layout.value.bridge.outline).x[0]).toBeCloseTo((bass[0] + treble[0]) / 2 - 10, 6);
    expect(layout.value.bridge.wings).toEqual([]);
  });

  it('is one outline in a file that is there', () => {
    expect(drawn(null).findings.map((f) => f.code)).toEqual(['artwork-not-found']);
    const two = square(`${edge}<circle cx="20" cy="80" r="5"/>`);
    expect(drawn(two).findings.map((f) => f.code)).toEqual(['bridge-not-one-outline']);
    expect(drawn(square('<path d="M2 4 H38 V156"/>')).findings[0]?.code).toBe('artwork-open');
  });
});
