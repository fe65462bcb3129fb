import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Box, Vec } from '../../src/geometry/types.ts';
import { PAPERS, type Paper } from '../../src/writers/pdf/paper.ts';
import { OVERLAP, REGISTER_ARM, type Sheet, tile } from '../../src/writers/pdf/tile.ts';

const length = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const papers: fc.Arbitrary<Paper> = fc.oneof(
  fc.constantFrom(...PAPERS),
  length(200, 1600).map((width): Paper => ({ kind: 'roll', name: 'roll', width })),
);
const boxes: fc.Arbitrary<Box> = fc
  .tuple(length(-400, 400), length(-400, 400), length(5, 1200), length(5, 900))
  .map(([x, y, w, h]): Box => ({ x: [x, x + w], y: [y, y + h] }));
const stretches: fc.Arbitrary<Vec> = fc.tuple(length(0.91, 1.1), length(0.91, 1.1));

const holds = ({ shows }: Sheet, [x, y]: Vec): boolean =>
  x >= shows.x[0] - 1e-9 && x <= shows.x[1] + 1e-9 && y >= shows.y[0] - 1e-9 && y <= shows.y[1] + 1e-9;

describe('sheets', () => {
  it('show every place of a drawing, on the paper, and neighbours overlap', () => {
    fc.assert(
      fc.property(boxes, papers, stretches, length(0, 1), length(0, 1), (box, paper, stretch, u, v) => {
        const sheets = tile(box, paper, stretch);
        const place: Vec = [box.x[0] + u * (box.x[1] - box.x[0]), box.y[0] + v * (box.y[1] - box.y[0])];
        expect(sheets.some((sheet) => holds(sheet, place))).toBe(true);
        for (const { shows, at, paper: page } of sheets) {
          expect(at[0] + (shows.x[1] - shows.x[0]) * stretch[0]).toBeLessThan(page.width);
          expect(at[1] + (shows.y[1] - shows.y[0]) * stretch[1]).toBeLessThan(page.height);
        }
        for (const a of sheets) {
          const next = sheets.find((b) => b.row === a.row && b.column === a.column + 1);
          if (next !== undefined)
            expect(a.shows.x[1] - next.shows.x[0]).toBeGreaterThanOrEqual(OVERLAP - 1e-6);
          const above = sheets.find((b) => b.column === a.column && b.row === a.row + 1);
          if (above !== undefined)
            expect(a.shows.y[1] - above.shows.y[0]).toBeGreaterThanOrEqual(OVERLAP - 1e-6);
        }
      }),
    );
  });

  it('carry every cross on both sides of a seam, two to a seam', () => {
    fc.assert(
      fc.property(boxes, papers, (box, paper) => {
        const sheets = tile(box, paper, [1, 1]);
        for (const sheet of sheets) {
          const seams = sheets.filter(
            (other) => Math.abs(other.column - sheet.column) + Math.abs(other.row - sheet.row) === 1,
          );
          expect(sheet.registers).toHaveLength(2 * seams.length);
          for (const cross of sheet.registers) {
            expect(holds(sheet, cross)).toBe(true);
            expect(
              seams.some((other) => other.registers.some((c) => c[0] === cross[0] && c[1] === cross[1])),
            ).toBe(true);
          }
        }
      }),
    );
  });

  it('take the way of lying that needs fewer', () => {
    const board: Box = { x: [0, 440], y: [-35, 35] };
    const a4 = PAPERS[0];
    if (a4 === undefined) throw new Error('no paper');
    expect(tile(board, a4, [1, 1])).toHaveLength(2);
    expect(tile(board, { kind: 'roll', name: 'roll', width: 610 }, [1, 1])).toHaveLength(1);
  });

  it('carry their crosses beside a text that crosses the seams, well apart', () => {
    fc.assert(
      fc.property(length(0, 1), length(3, 8), papers, (share, height, paper) => {
        const box: Box = { x: [0, 900], y: [0, 180] };
        const low = share * (180 - height);
        const text: Box = { x: [0, 900], y: [low, low + height] };
        for (const { registers, shows } of tile(box, paper, [1, 1], [text])) {
          const upright = registers.filter(([x]) => x - shows.x[0] < 7 || shows.x[1] - x < 7);
          for (const [, y] of upright)
            expect(Math.max(text.y[0] - y, y - text.y[1])).toBeGreaterThanOrEqual(REGISTER_ARM);
          for (const [x, y] of upright) {
            const others = upright.filter(([u, v]) => u === x && v !== y);
            expect(others).toHaveLength(1);
            expect(Math.abs((others[0]?.[1] ?? y) - y)).toBeGreaterThan(2 * REGISTER_ARM);
          }
        }
      }),
    );
  });
});
