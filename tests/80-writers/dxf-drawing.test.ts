import { describe, expect, it } from 'vitest';
import { drawLayout } from '../../src/drawing/drawLayout.ts';
import { drawPart } from '../../src/drawing/drawPart.ts';
import { listShapes } from '../../src/drawing/listShapes.ts';
import { drawnOnce } from '../../src/drawing/once.ts';
import type { Drawing, Shape } from '../../src/drawing/types.ts';
import { rectangle, reverse } from '../../src/geometry/ring.ts';
import type { Part } from '../../src/parts/types.ts';
import { sampleInstrument, sampleLayout, sampleParts } from '../support/drawingSamples.ts';

function layerOf(drawing: Drawing, name: string): readonly Shape[] {
  return drawing.layers.find((layer) => layer.name === name)?.shapes ?? [];
}

function part(id: string): Part {
  const found = sampleParts().find((p) => p.id === id);
  if (found === undefined) throw new Error(id);
  return found;
}

describe('drawPart', () => {
  it('puts each feature of the fingerboard on the layer of its meaning', () => {
    const counts = Object.fromEntries(
      drawPart(part('fingerboard')).layers.map((l) => [l.name, l.shapes.length]),
    );
    expect(counts).toEqual({
      BOARD_OUTLINE: 1,
      HOLES: 2,
      POCKETS: 3,
      FRET_SLOTS: 19,
      FRET_SLOT_WALLS: 19,
      EDGE_HOLES: 3,
      CENTRELINE: 1,
      BLANK: 1,
      NOTES: 5,
    });
  });

  it('draws round pockets, holes and openings as circles', () => {
    for (const [id, layer] of [
      ['fingerboard', 'POCKETS'],
      ['fingerboard', 'HOLES'],
      ['radius-block-plates', 'OPENINGS'],
      ['pin-template', 'OPENINGS'],
    ] as const) {
      const shapes = layerOf(drawPart(part(id)), layer);
      expect(shapes.length).toBeGreaterThan(0);
      expect(shapes.every((s) => s.kind === 'circle')).toBe(true);
    }
  });

  it('draws a centreline only where a part lies about one and does not carry it as a marked line', () => {
    const has = (id: string) => layerOf(drawPart(part(id)), 'CENTRELINE').length;
    expect(['fingerboard', 'slot-template', 'pin-template', 'radius-block-plates'].map(has)).toEqual([
      1, 0, 0, 0,
    ]);
    expect(layerOf(drawPart(part('pin-template')), 'MARKED_LINES')).toHaveLength(2);
    // One for each slot and the centreline.
    const frets = part('fingerboard').features.filter((f) => f.kind === 'slot').length;
    expect(layerOf(drawPart(part('slot-template')), 'MARKED_LINES')).toHaveLength(frets + 1);
  });

  it('draws a marked line of several points as an open chain', () => {
    const plate = part('slot-template');
    const bentLine = {
      id: 'bent',
      work: 'slotTemplate',
      kind: 'line',
      meaning: 'nut line',
      points: [
        [0, 0],
        [1, 2],
        [3, 2],
      ],
    } as const;
    const drawing = drawPart({ ...plate, features: [...plate.features, bentLine] });
    expect(layerOf(drawing, 'MARKED_LINES').at(-1)).toMatchObject({ kind: 'chain', vertices: { length: 3 } });
  });

  it('keeps the lettering of a long name within a line', () => {
    const long = { ...part('fingerboard'), title: `${'word '.repeat(40)}${'x'.repeat(200)}` };
    const lines = layerOf(drawPart(long), 'NOTES').flatMap((s) => (s.kind === 'text' ? [s.text] : []));
    expect(Math.max(...lines.map((t) => t.length))).toBeLessThanOrEqual(90);
    expect(lines.join('').replace(/ /g, '')).toContain(`${'word'.repeat(40)}${'x'.repeat(200)}`);
  });
});

describe('drawLayout', () => {
  it('shows a scale zero of its own only when the nut is set forward', () => {
    const plain = drawLayout(sampleLayout(), sampleInstrument);
    expect(layerOf(plain, 'SCALE_ZERO')).toEqual([]);
    const nut = { ...sampleInstrument.nut, setForward: 0.4 };
    const forward = drawLayout(sampleLayout({ nut }), sampleInstrument);
    expect(layerOf(forward, 'SCALE_ZERO')).toHaveLength(1);
    expect(JSON.stringify(layerOf(forward, 'NOTES'))).toContain('0.4 mm toward the bridge from scale zero');
  });

  it('is mirrored for a left-handed instrument, and says so', () => {
    const right = drawLayout(sampleLayout(), sampleInstrument);
    const left = drawLayout(sampleLayout({ hand: 'left' }), { ...sampleInstrument, hand: 'left' });
    const ys = (d: Drawing) =>
      layerOf(d, 'SIDE_MARKERS').map((s) => (s.kind === 'point' ? s.at[1] : Number.NaN));
    expect(ys(left)).toEqual(ys(right).map((y) => -y));
    expect(JSON.stringify(layerOf(left, 'NOTES'))).toContain('y toward the bass side');
  });
});

describe('drawnOnce', () => {
  const box = rectangle({ x: [0, 10], y: [0, 5] });
  const turned = [...box.slice(2), ...box.slice(0, 2)];

  it('leaves out what lies on a shape drawn before, however it runs', () => {
    const layers = drawnOnce([
      {
        name: 'A',
        shapes: [
          { kind: 'ring', ring: box },
          { kind: 'line', from: [0, 0], to: [1, 1] },
        ],
      },
      {
        name: 'B',
        shapes: [
          { kind: 'ring', ring: reverse(turned) },
          { kind: 'line', from: [1, 1], to: [0, 0] },
          { kind: 'line', from: [1, 1], to: [0, 0.01] },
        ],
      },
      { name: 'C', shapes: [{ kind: 'ring', ring: turned }] },
    ]);
    expect(layers.map((l) => [l.name, l.shapes.length])).toEqual([
      ['A', 2],
      ['B', 1],
    ]);
  });

  it('keeps two arcs over one chord that bend to different sides', () => {
    const arc = (bulge: number): Shape => ({
      kind: 'chain',
      vertices: [
        { x: 0, y: 0, bulge },
        { x: 10, y: 0, bulge: 0 },
      ],
    });
    expect(drawnOnce([{ name: 'A', shapes: [arc(0.5), arc(-0.5), arc(0.5)] }])[0]?.shapes).toHaveLength(2);
  });
});

describe('listShapes', () => {
  it('lists every shape of every layer as bare numbers', () => {
    const drawing = drawPart(part('radius-block-plates'));
    const listed = listShapes(drawing);
    expect(listed).toHaveLength(drawing.layers.reduce((n, l) => n + l.shapes.length, 0));
    const plate = listed.find((s) => s.layer === 'OUTLINE');
    expect(plate?.kind === 'ring' && plate.vertices[0]).toEqual([5, 5, expect.closeTo(-0.0437, 3)]);
  });
});
