/** Bridges without pins as parts and programs. */
import { describe, expect, it } from 'vitest';
import { jobsByProgram, makeProgram } from '../../src/app/programs.ts';
import { drawPart } from '../../src/drawing/drawPart.ts';
import { listShapes } from '../../src/drawing/listShapes.ts';
import type { Part } from '../../src/parts/types.ts';
import type { Instrument } from '../../src/profile/types.ts';
import { proveDrawing } from '../../src/verify/dxf/prove.ts';
import { writeDxf } from '../../src/writers/dxf/write.ts';
import { bodied, tailpiece, through, tied } from '../support/anchors.ts';
import { partsOf, planOf } from '../support/job.ts';

const CASES: readonly (readonly [string, Instrument])[] = [
  ['tied', bodied(tied, { width: 36 })],
  ['tied, left-handed', { ...bodied(tied, { width: 36 }), hand: 'left' }],
  ['through', bodied({ ...through, drill: 1.6 })],
  ['tailpiece', bodied(tailpiece, { indexPin: null })],
];

function bridgeOf(instrument: Instrument): Part {
  const part = partsOf(instrument).find(({ id }) => id === 'bridge');
  if (part === undefined) throw new Error('no bridge');
  return part;
}

describe('the programs of a bridge without pins', () => {
  it.each(CASES)('%s: all prove', (_, instrument) => {
    const own = planOf(instrument).jobs.filter((job) => job.part.id.startsWith('bridge'));
    const made = jobsByProgram(own).map((jobs) => makeProgram(jobs, instrument.name));
    expect(made.length).toBeGreaterThan(4);
    expect(made.filter(({ proof }) => !proof.passed).map(({ job }) => job.program)).toEqual([]);
  });

  it('have holes from above only where strings go through', () => {
    const holes = (instrument: Instrument): string[] =>
      bridgeOf(instrument).features.flatMap((f) => (f.kind === 'hole' ? [f.id] : []));
    expect(holes(bodied(tied))).toEqual(['bridge-index-pin-bass', 'bridge-index-pin-treble']);
    expect(holes(bodied(through)).filter((id) => id.startsWith('string-hole'))).toHaveLength(6);
    expect(holes(bodied(tailpiece, { indexPin: null }))).toEqual([]);
    const plate = partsOf(bodied(tied)).find(({ id }) => id === 'bridge-plate');
    expect(plate?.features.map(({ kind }) => kind)).toEqual(['outline']);
  });
});

describe('the tie block', () => {
  const instrument = bodied(tied, { width: 36 });
  const part = bridgeOf(instrument);
  const lines = part.features.filter((f) => f.work === 'tieHoles');

  it('is drawn: its face and the axis of every hole, along the strings from face to back', () => {
    expect(lines.map(({ id }) => id)).toEqual([
      'tie-block-face',
      ...[1, 2, 3, 4, 5, 6].map((i) => `tie-hole-${i}`),
    ]);
    const holes = lines.flatMap((f) => (f.kind === 'line' && f.meaning === 'tie hole' ? [f.points] : []));
    for (const [from, to] of holes) {
      expect((to?.[0] ?? 0) - (from?.[0] ?? 0)).toBeCloseTo(12, 12);
      expect(to?.[1]).toBe(from?.[1]);
    }
    const across = holes.map(([from]) => from?.[1] ?? Number.NaN);
    for (const [i, y] of across.slice(1).entries()) expect(y - (across[i] ?? 0)).toBeCloseTo(57 / 5, 9);
  });

  it('is drilled by hand, before the bridge is shaped, at heights from the underside', () => {
    const steps = planOf(instrument).handSteps.map(({ step }) => step);
    expect(steps).toContain('drill-tie-holes');
    // 9 mm thick, holes 3 mm below the face.
    expect(part.byHand?.tieHoles).toContain('middles 6 mm above the underside');
    expect(part.byHand?.tieHoles).toContain('28.5, 17.1, 5.7, 5.7, 17.1, 28.5 mm');
  });

  it('is read back from the drawing as it was drawn', () => {
    const drawing = drawPart(part);
    const proof = proveDrawing(writeDxf(drawing), listShapes(drawing));
    expect(proof.passed).toBe(true);
    const marked = drawing.layers.find(({ name }) => name === 'MARKED_LINES');
    expect(marked?.shapes.length).toBeGreaterThanOrEqual(7);
  });
});
