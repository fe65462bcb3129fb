/** What different machines leave of the same wood, carved cell by cell: alike to a cell of 0.005 mm and to 0.005 mm of height. */
import { describe, expect, it } from 'vitest';
import type { ProvenProgram } from '../../src/app/types.ts';
import { type Carved, carve, type Plot } from '../support/carve.ts';
import { MACHINES, programsOn } from '../support/machines.ts';

const STEP = 0.005;
const SAME = 0.005;

interface Place {
  readonly name: string;
  readonly program: string;
  readonly feature: string;
  /** The plot, from the box of the feature's region. */
  readonly plotOf: (box: { x: readonly [number, number]; y: readonly [number, number] }) => Plot;
}

const flatTop = (): number => 0;
const PLACES: readonly Place[] = [
  {
    name: 'the treble end of a fret slot',
    program: 'fingerboard-slots.nc',
    feature: 'fret-slot-12',
    plotOf: ({ x, y }) => ({
      x: [x[0] - 0.1, x[1] + 0.1],
      y: [y[1] - 0.5, y[1] + 0.1],
      step: STEP,
      top: flatTop,
    }),
  },
  {
    name: 'the wall and floor of a marker pocket',
    program: 'fingerboard-markers.nc',
    feature: 'face-marker-05',
    plotOf: ({ x, y }) => ({
      x: [x[1] - 0.3, x[1] + 0.1],
      y: [(y[0] + y[1]) / 2 - 0.2, (y[0] + y[1]) / 2 + 0.2],
      step: STEP,
      top: flatTop,
    }),
  },
];

const NAMES = [
  'arcs in all planes',
  'no arcs',
  'arcs in XY only',
  'inches with five digits',
  'inches with four digits',
  'inches without arcs',
  'three digits',
] as const;
const made = new Map<string, readonly ProvenProgram[]>(
  NAMES.map((name) => [name, programsOn(MACHINES[name] ?? {}, /slots|markers/)]),
);

function carvedBy(name: string, place: Place): Carved {
  const program = made.get(name)?.find((p) => p.job.program === place.program);
  const ring = program?.intent.cuts.find((c) => c.feature === place.feature)?.region?.[0];
  if (program === undefined || ring === undefined) throw new Error(`${name} makes no ${place.feature}`);
  const xs = ring.map((v) => v[0]);
  const ys = ring.map((v) => v[1]);
  const box = {
    x: [Math.min(...xs), Math.max(...xs)] as const,
    y: [Math.min(...ys), Math.max(...ys)] as const,
  };
  return carve(program.text, program.intent.tool.diameter, place.plotOf(box));
}

/** Cells of one whose height no cell next to them in the other has. */
function unlike(a: Carved, b: Carved): string[] {
  const found: string[] = [];
  for (let j = 1; j < a.ny - 1; j += 1) {
    for (let i = 1; i < a.nx - 1; i += 1) {
      const around: number[] = [];
      for (const dj of [-1, 0, 1]) for (const di of [-1, 0, 1]) around.push(b.heightAt(i + di, j + dj));
      const height = a.heightAt(i, j);
      const isLike = height >= Math.min(...around) - SAME && height <= Math.max(...around) + SAME;
      if (!isLike) found.push(`${a.x(i).toFixed(3)}, ${a.y(j).toFixed(3)}: ${height.toFixed(4)}`);
    }
  }
  return found;
}

function cutCells(carved: Carved): number {
  let count = 0;
  for (let j = 0; j < carved.ny; j += 1)
    for (let i = 0; i < carved.nx; i += 1) if (carved.isCut(i, j)) count += 1;
  return count;
}

describe.each(PLACES)('$name', (place) => {
  const theirs = carvedBy('arcs in all planes', place);

  it('is partly cut and partly left, so that walls and floor are seen', () => {
    const share = cutCells(theirs) / (theirs.nx * theirs.ny);
    expect(share).toBeGreaterThan(0.3);
    expect(share).toBeLessThan(0.95);
  });

  it.each(NAMES.slice(1))('is the same by a machine with %s', (name) => {
    const ours = carvedBy(name, place);
    expect(unlike(ours, theirs).slice(0, 5)).toEqual([]);
    expect(unlike(theirs, ours).slice(0, 5)).toEqual([]);
    const differing = Math.abs(cutCells(ours) - cutCells(theirs));
    expect(differing / cutCells(theirs)).toBeLessThan(0.02);
  });

  it('is told apart from one 0.015 mm to the side or 0.01 mm deeper', () => {
    const program = made.get('arcs in all planes')?.find((p) => p.job.program === place.program);
    if (program === undefined) throw new Error('no program');
    const ring = program.intent.cuts.find((c) => c.feature === place.feature)?.region?.[0] ?? [];
    const xs = ring.map((v) => v[0]);
    const ys = ring.map((v) => v[1]);
    const plot = place.plotOf({
      x: [Math.min(...xs), Math.max(...xs)],
      y: [Math.min(...ys), Math.max(...ys)],
    });
    for (const [letter, by] of [
      ['X', 0.015],
      ['Z', -0.01],
    ] as const) {
      const moved = program.text.replace(
        new RegExp(`${letter}(-?[\\d.]+)`, 'g'),
        (_, n: string) => `${letter}${(Number(n) + by).toFixed(4)}`,
      );
      const carved = carve(moved, program.intent.tool.diameter, plot);
      expect(unlike(carved, theirs).length + unlike(theirs, carved).length).toBeGreaterThan(10);
    }
  });
});
