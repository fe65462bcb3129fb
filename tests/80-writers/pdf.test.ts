import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Drawing } from '../../src/drawing/types.ts';
import { PAPERS } from '../../src/writers/pdf/paper.ts';
import { writePdf } from '../../src/writers/pdf/write.ts';

/** Dots to a millimetre on the referee's picture. */
const DOTS = 10;
const hasPoppler = spawnSync('pdftoppm', ['-v'], { stdio: 'ignore' }).error === undefined;

const drawing: Drawing = {
  id: 'ruler',
  title: 'Ruler',
  part: 'ruler',
  kerf: 'finished edges',
  layers: [
    {
      name: 'OUTLINE',
      shapes: [
        { kind: 'line', from: [0, 0], to: [0, 60] },
        { kind: 'line', from: [37.5, 0], to: [37.5, 60] },
        { kind: 'line', from: [200, 0], to: [200, 60] },
        { kind: 'circle', centre: [120, 30], radius: 20 },
      ],
    },
    { name: 'TEXT', shapes: [{ kind: 'text', at: [10, 70], height: 4, angle: 0, text: 'Größe: 1 × 2' }] },
  ],
};
const A4 = PAPERS[0];
const head = { instrument: 'Sample', hash: 'abcdef0123456789', stretch: [1, 1] as const };

interface Picture {
  readonly width: number;
  readonly height: number;
  readonly dark: (x: number, y: number) => boolean;
}

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'nutline-pdf-'));
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

/** The first sheet as poppler draws it: an independent reader of PDF. */
function pictureOf(pdf: Uint8Array): Picture {
  const path = join(folder, 'page.pdf');
  writeFileSync(path, pdf);
  const run = spawnSync('pdftoppm', [
    '-r',
    String(DOTS * 25.4),
    '-gray',
    '-f',
    '1',
    '-l',
    '1',
    '-singlefile',
    path,
    join(folder, 'page'),
  ]);
  expect(run.status).toBe(0);
  const bytes = readFileSync(join(folder, 'page.pgm'));
  const headWords = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.subarray(0, 60).toString('latin1'));
  const [width, height] = [Number(headWords?.[1]), Number(headWords?.[2])];
  const start = headWords?.[0].length ?? 0;
  return { width, height, dark: (x, y) => (bytes[start + y * width + x] ?? 255) < 128 };
}

/** Longest dark run in a row or column: [start, length] in dots. */
function longestRun(length: number, dark: (i: number) => boolean): readonly [number, number] {
  let best: readonly [number, number] = [0, 0];
  let start = 0;
  for (let i = 0; i <= length; i += 1) {
    if (i < length && dark(i)) continue;
    if (i - start > best[1]) best = [start, i - start];
    start = i + 1;
  }
  return best;
}

/** Middles of the dark places met along a row. */
function darkPlaces(picture: Picture, y: number): number[] {
  const places: number[] = [];
  for (let x = 0; x < picture.width; x += 1) {
    if (!picture.dark(x, y)) continue;
    const from = x;
    while (picture.dark(x, y)) x += 1;
    places.push((from + x - 1) / 2 / DOTS);
  }
  return places;
}

async function write(stretch: readonly [number, number]): Promise<Uint8Array> {
  if (A4 === undefined) throw new Error('no paper');
  return writePdf(drawing, A4, { ...head, stretch });
}

describe('a template on paper', () => {
  it('is the same bytes for the same drawing', async () => {
    expect(await write([1, 1])).toEqual(await write([1, 1]));
  });

  it('is PDF without a font', async () => {
    const text = Buffer.from(await write([1, 1])).toString('latin1');
    expect(text.startsWith('%PDF-')).toBe(true);
    expect(text).not.toContain('/BaseFont');
  });

  describe.skipIf(!hasPoppler)('as poppler draws it', () => {
    it('measures what its check bars say, level and upright, within a dot or two of 0.1 mm', async () => {
      const picture = pictureOf(await write([1, 1]));
      expect(Math.abs(picture.width - 2970)).toBeLessThanOrEqual(1);
      const level = Array.from({ length: 250 }, (_, i) => picture.height - 10 - i)
        .map((y) => longestRun(picture.width, (x) => picture.dark(x, y))[1])
        .filter((run) => run > 900 && run < 1100);
      expect(level.some((run) => Math.abs(run - 1000) <= 3)).toBe(true);
      expect(level.some((run) => Math.abs(run - 1016) <= 3)).toBe(true);
      const upright = Array.from(
        { length: 180 },
        (_, x) => longestRun(picture.height, (y) => picture.dark(x, y))[1],
      );
      expect(upright.some((run) => Math.abs(run - 1000) <= 3)).toBe(true);
      expect(upright.some((run) => Math.abs(run - 1016) <= 3)).toBe(true);
    });

    it('puts lines where the drawing has them, within 0.1 mm', async () => {
      const picture = pictureOf(await write([1, 1]));
      // Rows that meet two upright bars, the frame, three lines and the circle's two sides.
      const rows = Array.from({ length: picture.height }, (_, y) => darkPlaces(picture, y)).filter(
        (r) => r.length === 9,
      );
      const spans = rows.map(([, , edge = 0, first = 0, second = 0, left = 0, right = 0, last = 0]) => ({
        edge,
        lines: [second - first, last - first],
        circle: right - left,
      }));
      expect(
        spans.some(
          (s) => Math.abs((s.lines[0] ?? 0) - 37.5) < 0.1 && Math.abs((s.lines[1] ?? 0) - 200) < 0.1,
        ),
      ).toBe(true);
      expect(Math.max(...spans.map((s) => s.circle))).toBeLessThan(40.2);
      expect(Math.max(...spans.map((s) => s.circle))).toBeGreaterThan(39);
    });

    it('is drawn larger along and across by as much as the printer takes away', async () => {
      const picture = pictureOf(await write([100 / 98, 100 / 96]));
      const level = Array.from({ length: 250 }, (_, i) => picture.height - 10 - i).map(
        (y) => longestRun(picture.width, (x) => picture.dark(x, y))[1],
      );
      expect(level.some((run) => Math.abs(run - 100_000 / 98) <= 3)).toBe(true);
      const upright = Array.from(
        { length: 180 },
        (_, x) => longestRun(picture.height, (y) => picture.dark(x, y))[1],
      );
      expect(upright.some((run) => Math.abs(run - 100_000 / 96) <= 3)).toBe(true);
    });
  });
});
