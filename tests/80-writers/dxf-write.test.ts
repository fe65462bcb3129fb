import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import DxfParser, {
  type ICircleEntity,
  type IEntity,
  type ILineEntity,
  type ILwpolylineEntity,
  type IPointEntity,
} from 'dxf-parser';
import { afterAll, describe, expect, it } from 'vitest';
import { drawLayout } from '../../src/drawing/drawLayout.ts';
import { drawPart } from '../../src/drawing/drawPart.ts';
import type { Drawing, Shape } from '../../src/drawing/types.ts';
import { dxfText } from '../../src/writers/dxf/text.ts';
import { writeDxf } from '../../src/writers/dxf/write.ts';
import { sampleInstrument, sampleLayout, sampleParts } from '../support/drawingSamples.ts';

/** The mission's limit for a drawing read again by somebody else's parser. */
const RE_READ = 3;

const layout = sampleLayout();
const drawings: Drawing[] = [drawLayout(layout, sampleInstrument), ...sampleParts().map(drawPart)];

function reread(drawing: Drawing): { entities: IEntity[]; header: Record<string, unknown> } {
  const dxf = new DxfParser().parseSync(writeDxf(drawing));
  if (dxf === null) throw new Error('the outside parser found nothing');
  return dxf;
}

function onLayer<T extends IEntity>(drawing: Drawing, layer: string): T[] {
  return reread(drawing).entities.filter((e) => e.layer === layer) as T[];
}

function byId(id: string): Drawing {
  const found = drawings.find((d) => d.id === id);
  if (found === undefined) throw new Error(id);
  return found;
}

function shapeDrawing(...shapes: Shape[]): Drawing {
  return { id: 'a', title: 'a', part: 'a', kerf: 'finished edges', layers: [{ name: 'OUTLINE', shapes }] };
}

describe('a drawing read by an outside parser', () => {
  it('declares millimetres', () => {
    for (const drawing of drawings) {
      expect(reread(drawing).header).toMatchObject({ $INSUNITS: 4, $MEASUREMENT: 1 });
    }
  });

  it('has every fret slot where the scale puts it', () => {
    for (const id of ['layout', 'fingerboard']) {
      const slots = onLayer<ILineEntity>(byId(id), 'FRET_SLOTS');
      expect(slots).toHaveLength(19);
      slots.forEach((slot, i) => {
        // x = S (1 - 2^(-n/12)): the equal-tempered scale (sources: any acoustics text, e.g. Fletcher and Rossing).
        const x = 628 * (1 - 2 ** (-(i + 1) / 12));
        for (const end of slot.vertices) expect(end.x).toBeCloseTo(x, RE_READ);
        const half = 23 + (5.5 * x) / 314;
        expect(Math.min(...slot.vertices.map((v) => v.y))).toBeCloseTo(-half, RE_READ);
        expect(Math.max(...slot.vertices.map((v) => v.y))).toBeCloseTo(half, RE_READ);
      });
    }
  });

  it('has slot walls of the true width, closed', () => {
    const walls = onLayer<ILwpolylineEntity>(byId('fingerboard'), 'FRET_SLOT_WALLS');
    expect(walls).toHaveLength(19);
    for (const wall of walls) {
      expect(wall.shape).toBe(true);
      expect(wall.vertices).toHaveLength(4);
      const xs = wall.vertices.map((v) => v.x);
      expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(0.6, RE_READ);
    }
  });

  it('has circles for markers, index pins and bridge pins', () => {
    const drawing = byId('layout');
    const circles = (layer: string) =>
      onLayer<ICircleEntity>(drawing, layer).map((c) => [c.center.x, c.center.y, c.radius]);
    const expected: [string, number[][]][] = [
      ['FACE_MARKERS', layout.faceMarkers.map((m) => [...m.at, 3])],
      ['INDEX_PINS', layout.indexPins.map((p) => [...p.at, 0.75])],
      ['BRIDGE_PINS', layout.strings.map((s) => [...s.pin, 2.25])],
    ];
    for (const [layer, wanted] of expected) {
      const found = circles(layer);
      expect(found).toHaveLength(wanted.length);
      wanted.forEach((circle, i) => {
        circle.forEach((value, k) => {
          expect(found[i]?.[k]).toBeCloseTo(value, RE_READ);
        });
      });
    }
    const sides = onLayer<IPointEntity>(drawing, 'SIDE_MARKERS').map((p) => p.position.x);
    expect(sides).toHaveLength(layout.sideMarkers.length);
    layout.sideMarkers.forEach((marker, i) => {
      expect(sides[i]).toBeCloseTo(marker.x, RE_READ);
    });
  });

  it('keeps the rounded corners of the board as arcs of the radius asked', () => {
    const [board, ...more] = onLayer<ILwpolylineEntity>(byId('fingerboard'), 'BOARD_OUTLINE');
    expect(more).toEqual([]);
    const corners = board?.vertices ?? [];
    const arcs = corners.flatMap((v, i) => {
      const next = corners[(i + 1) % corners.length];
      if (!v.bulge || next === undefined) return [];
      // radius = chord (1 + b^2) / (4 |b|): published DXF reference, group 42.
      return [(Math.hypot(next.x - v.x, next.y - v.y) * (1 + v.bulge ** 2)) / (4 * Math.abs(v.bulge))];
    });
    expect(arcs).toHaveLength(2);
    for (const radius of arcs) expect(radius).toBeCloseTo(5, RE_READ);
  });

  it('hollows each plate of the sanding block to radius plus padding', () => {
    const plates = onLayer<ILwpolylineEntity>(byId('radius-block-plates'), 'OUTLINE');
    expect(plates).toHaveLength(4);
    for (const plate of plates) {
      const bulge = plate.vertices[0]?.bulge ?? 0;
      expect((70 * (1 + bulge ** 2)) / (4 * Math.abs(bulge))).toBeCloseTo(401, 1);
      // The sagitta of the hollow is what the wood sees; the radius only magnifies its rounding.
      expect((70 * bulge) / 2).toBeCloseTo(-(401 - Math.sqrt(401 ** 2 - 35 ** 2)), RE_READ);
    }
    expect(onLayer<ICircleEntity>(byId('radius-block-plates'), 'OPENINGS')).toHaveLength(8);
  });

  it('draws nothing twice', () => {
    for (const drawing of drawings) {
      const { entities } = reread(drawing);
      const keys = entities.map((e) => JSON.stringify({ ...e, handle: 0, layer: 0, ownerHandle: 0 }));
      expect(new Set(keys).size).toBe(keys.length);
    }
  });

  it('says in its notes what the lines are, the units and the datum', () => {
    for (const drawing of drawings) {
      const notes = onLayer<IEntity & { text: string }>(drawing, 'NOTES').map((t) => t.text);
      expect(notes.join(' ')).toContain('finished edges');
      expect(notes.join(' ')).toContain('Millimetres, scale 1:1.');
      expect(notes.join(' ')).toMatch(/Datum: .*(scale zero|corner)/);
    }
  });
});

describe('the bytes of a drawing', () => {
  it('are equal for equal drawings, whatever was written before', () => {
    const first = drawings.map(writeDxf);
    const again = [...drawings].reverse().map(writeDxf).reverse();
    expect(again).toEqual(first);
  });

  it('hold no exponent, no negative zero and at most six decimals', () => {
    const text = writeDxf(
      shapeDrawing(
        { kind: 'line', from: [1e-9, -1e-9], to: [0.1 + 0.2, 1 / 3] },
        { kind: 'ring', ring: [1, 2, 3].map((x) => ({ x, y: x * x, bulge: -1e-9 })) },
        { kind: 'point', at: [123456.7890123, 1e-7] },
      ),
    );
    for (const line of text.split('\n')) {
      expect(line).not.toMatch(/^-?[\d.]+e[-+]?\d+$/i);
      expect(line).not.toBe('-0');
      expect(line).not.toMatch(/^-?\d+\.\d{7,}$/);
    }
    expect(text).toContain('\n0.333333\n');
    expect(text).toContain('\n123456.789012\n');
  });

  it('refuse what is not a number, a circle without size and a layer name that is none', () => {
    expect(() => writeDxf(shapeDrawing({ kind: 'point', at: [Number.NaN, 0] }))).toThrow('NaN');
    expect(() => writeDxf(shapeDrawing({ kind: 'circle', centre: [0, 0], radius: 1e-8 }))).toThrow('radius');
    const odd = { ...shapeDrawing(), layers: [{ name: 'A\n0', shapes: [] }] };
    expect(() => writeDxf(odd)).toThrow('layer name');
  });
});

describe('a hostile name', () => {
  const hostile = 'A\n0\nLINE\r\n\u2028 50% %%c ^J \\U+0041 \\P é \u{1f3b8} \u0000\u0085';

  it('stays on one line of plain ASCII', () => {
    expect(dxfText(hostile)).toMatch(/^[\x20-\x7e]+$/);
    expect(dxfText(hostile)).toBe(
      'A 0 LINE 50% \\U+0025\\U+0025c \\U+005EJ \\U+005CU+0041 \\U+005CP \\U+00E9 \\U+D83C\\U+DFB8',
    );
  });

  it('adds no entity to the drawing', () => {
    const named = { ...sampleInstrument, name: hostile };
    const types = (drawing: Drawing) => reread(drawing).entities.map((e) => e.type);
    const drawing = drawLayout(layout, named);
    expect(types({ ...drawing, title: hostile })).toEqual(types(drawLayout(layout, sampleInstrument)));
  });
});

describe('an outside audit', () => {
  const folder = mkdtempSync(join(tmpdir(), 'drawings-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const python = '/usr/bin/python3';
  const there = spawnSync(python, ['-c', 'import ezdxf']).status === 0;

  it.skipIf(!there)(
    'by ezdxf finds no error and nothing to repair (skipped where ezdxf is not installed)',
    () => {
      const paths = drawings.map((drawing) => {
        const path = join(folder, `${drawing.id}.dxf`);
        writeFileSync(path, writeDxf(drawing));
        return path;
      });
      const script = [
        'import sys, ezdxf',
        'for path in sys.argv[1:]:',
        '    doc = ezdxf.readfile(path)',
        '    audit = doc.audit()',
        '    print(doc.units, len(audit.errors), len(audit.fixes), len(doc.modelspace()))',
      ].join('\n');
      const result = spawnSync(python, ['-c', script, ...paths], { encoding: 'utf8' });
      expect(result.stderr).toBe('');
      const counts = drawings.map((d) => d.layers.reduce((n, layer) => n + layer.shapes.length, 0));
      expect(result.stdout.trim().split('\n')).toEqual(counts.map((n) => `4 0 0 ${n}`));
    },
  );
});
