/** Templates as their files say, read back operator by operator: true lengths and places, seams that meet, bars that measure. */
import { describe, expect, it } from 'vitest';
import { drawPart } from '../../src/drawing/drawPart.ts';
import type { Vec } from '../../src/geometry/types.ts';
import { PAPERS } from '../../src/writers/pdf/paper.ts';
import { writePdf } from '../../src/writers/pdf/write.ts';
import { partsOf } from '../support/job.ts';
import { necked, neckShop } from '../support/neck.ts';
import { type PdfPage, type PdfPath, pdfPages } from '../support/pdfPaths.ts';

const WITHIN = 0.05;
const parts = partsOf(necked, neckShop);
const OTHER = [1, 0] as const;

async function pagesOf(id: string, paperName: string, stretch: Vec = [1, 1]): Promise<PdfPage[]> {
  const part = parts.find((p) => p.id === id);
  const paper = PAPERS.find((p) => p.name === paperName);
  if (part === undefined || paper === undefined) throw new Error(`no ${id} on ${paperName}`);
  return pdfPages(
    await writePdf(drawPart(part), paper, { instrument: 'Sample', hash: 'abcdef012345', stretch }),
  );
}

const isSeen = ({ clips }: PdfPath, [x, y]: Vec): boolean =>
  clips.every(([x0, y0, x1, y1]) => x >= x0 && x <= x1 && y >= y0 && y <= y1);

/** Middles of the register crosses: a level stroke of 10 mm and an upright one through the same middle. */
function registers({ paths }: PdfPage): Vec[] {
  const middles = (axis: 0 | 1): Vec[] =>
    paths.flatMap(({ points, clips }) => {
      const [a, b] = points;
      if (clips.length === 0 || points.length !== 2 || a === undefined || b === undefined) return [];
      const isSo =
        Math.abs(Math.abs(b[axis] - a[axis]) - 10) < 0.01 && Math.abs(b[OTHER[axis]] - a[OTHER[axis]]) < 0.01;
      return isSo ? [[(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] as const] : [];
    });
  const upright = middles(1);
  return middles(0).filter(([x, y]) => upright.some(([u, v]) => Math.hypot(u - x, v - y) < 0.01));
}

/** By how much each sheet must be moved so that its crosses lie on those of the one before. */
function offsets(pages: readonly PdfPage[]): Vec[] {
  const moves: Vec[] = [[0, 0]];
  for (const [i, page] of pages.entries()) {
    if (i === 0) continue;
    const before = registers(pages[i - 1] ?? page)
      .toSorted((a, b) => b[0] - a[0])
      .slice(0, 2);
    const now = registers(page)
      .toSorted((a, b) => a[0] - b[0])
      .slice(0, 2);
    const byHeight = (list: Vec[]): Vec[] => list.toSorted((a, b) => a[1] - b[1]);
    const [low, high] = byHeight(before).map((cross, k): Vec => {
      const other = byHeight(now)[k] ?? [Number.NaN, Number.NaN];
      return [cross[0] - other[0], cross[1] - other[1]];
    });
    if (low === undefined || high === undefined) throw new Error('no seam');
    expect(Math.hypot(low[0] - high[0], low[1] - high[1])).toBeLessThan(0.002);
    const [x, y] = moves[i - 1] ?? [0, 0];
    moves.push([x + low[0], y + low[1]]);
  }
  return moves;
}

/** Upright strokes of a length that are seen, on all sheets laid together: where they stand along the drawing, each once. */
function uprights(pages: readonly PdfPage[], longer: number): number[] {
  const moves = offsets(pages);
  const found = pages.flatMap(({ paths }, i) =>
    paths.flatMap((path) => {
      const [a, b] = path.points;
      if (path.closed || path.points.length !== 2 || a === undefined || b === undefined) return [];
      const isOne = Math.abs(a[0] - b[0]) < 0.001 && Math.abs(a[1] - b[1]) > longer;
      return isOne && path.clips.length > 0 && isSeen(path, a) && isSeen(path, b)
        ? [a[0] + (moves[i]?.[0] ?? 0)]
        : [];
    }),
  );
  return found.toSorted((a, b) => a - b).filter((x, i, all) => i === 0 || x - (all[i - 1] ?? 0) > 0.1);
}

describe.each(['a4', 'letter', 'a3'])('the fingerboard on %s', (paper) => {
  it('has every slot at its place on the assembled sheets, within 0.05 mm', async () => {
    const pages = await pagesOf('fingerboard', paper);
    expect(pages.length).toBeGreaterThan(1);
    const { length } = necked.scale;
    // From slot to slot, by the rule of the equal divisions and no step of the code's.
    const slots = Array.from({ length: necked.frets.count }, (_, k) => length * (1 - 2 ** (-(k + 1) / 12)));
    const drawn = uprights(pages, 40);
    const first = drawn.findIndex(
      (x) => Math.abs((drawn.at(-1) ?? 0) - x - ((slots.at(-1) ?? 0) - (slots[0] ?? 0))) < 1,
    );
    const moved = (drawn[first] ?? Number.NaN) - (slots[0] ?? 0);
    for (const slot of slots) {
      const near = drawn.reduce((best, x) =>
        Math.abs(x - moved - slot) < Math.abs(best - moved - slot) ? x : best,
      );
      expect(Math.abs(near - moved - slot)).toBeLessThan(WITHIN);
    }
  });
});

describe('the head plate', () => {
  it('has its holes where the part has them, on every sheet that shows them', async () => {
    const pages = await pagesOf('headstock', 'a4');
    const holes = parts
      .find((p) => p.id === 'headstock')
      ?.features.flatMap((f) => (f.kind === 'hole' ? [f] : []));
    if (holes === undefined || holes.length === 0) throw new Error('no holes');
    const moves = offsets(pages);
    const circles = pages.flatMap(({ paths }, i) =>
      paths.flatMap((path): { at: Vec; across: number }[] => {
        if (path.points.length !== 5 || path.clips.length === 0) return [];
        const [xs, ys] = [path.points.map((p) => p[0]), path.points.map((p) => p[1])];
        const [x0, x1] = [Math.min(...xs), Math.max(...xs)];
        const [y0, y1] = [Math.min(...ys), Math.max(...ys)];
        if (!isSeen(path, [x0, y0]) || !isSeen(path, [x1, y1])) return [];
        const [dx, dy] = moves[i] ?? [0, 0];
        return [{ at: [(x0 + x1) / 2 + dx, (y0 + y1) / 2 + dy], across: x1 - x0 }];
      }),
    );
    const [one] = holes;
    const like = circles.filter((c) => Math.abs(c.across - (one?.diameter ?? 0)) < WITHIN);
    // One of the circles is this hole: then all the others lie as far from it as the part says.
    const fits = like.some((base) =>
      holes.every((hole) =>
        circles.some(
          (c) =>
            Math.abs(c.across - hole.diameter) < WITHIN &&
            Math.hypot(
              c.at[0] - base.at[0] - (hole.at[0] - (one?.at[0] ?? 0)),
              c.at[1] - base.at[1] - (hole.at[1] - (one?.at[1] ?? 0)),
            ) < WITHIN,
        ),
      ),
    );
    expect(fits).toBe(true);
  });
});

describe('check bars', () => {
  it.each<[string, Vec]>([
    ['true', [1, 1]],
    ['for a printer that is off', [100 / 99.2, 100 / 100.4]],
  ])('measure what they say in both directions, %s', async (_, stretch) => {
    for (const page of await pagesOf('fingerboard', 'a4', stretch)) {
      const bars = (axis: 0 | 1): number[] =>
        page.paths.flatMap(({ points, clips }) => {
          const [a, b] = points;
          if (clips.length > 0 || points.length !== 2 || a === undefined || b === undefined) return [];
          return Math.abs(a[OTHER[axis]] - b[OTHER[axis]]) < 0.001 ? [Math.abs(a[axis] - b[axis])] : [];
        });
      for (const length of [100, 101.6]) {
        for (const axis of [0, 1] as const) {
          const off = Math.min(...bars(axis).map((bar) => Math.abs(bar / (stretch[axis] ?? 1) - length)));
          expect(off).toBeLessThan(0.005);
        }
      }
    }
  });
});
