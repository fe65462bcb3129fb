/** The prover's figures against a plain carved grid, good programs and damaged ones alike. */
import { describe, expect, it } from 'vitest';
import { prove } from '../../src/verify/prove.ts';
import { type Carved, carve } from '../support/carve.ts';
import { numbers } from '../support/damage.ts';
import { bytesOf, outline, pocket, type Sample, slots } from '../support/proofSamples.ts';

/** The same tool without scatter, so that grid and proof speak of one cutter. */
function exact(sample: Sample): Sample {
  const { diameter } = sample.intent.tool;
  const tool = { ...sample.intent.tool, diameterRange: [diameter, diameter] as const };
  return { ...sample, intent: { ...sample.intent, tool } };
}

function figures({ text, intent }: Sample): (name: string) => number {
  const proof = prove(bytesOf(text), intent);
  return (name) => Math.max(...proof.checks.filter((c) => c.name === name).map((c) => c.value));
}

function everyCell(carved: Carved, visit: (x: number, y: number, i: number, j: number) => void): void {
  for (let j = 0; j < carved.ny; j += 1) {
    for (let i = 0; i < carved.nx; i += 1) visit(carved.x(i), carved.y(j), i, j);
  }
}

describe('a round pocket', () => {
  const step = 0.04;
  const plot = { x: [36, 44] as const, y: [6, 14] as const, step, top: () => 0 };

  /** How far the cut reaches out of the circle, and how far the uncut inside it lies from the nearest full-depth cell. */
  function onGrid(text: string): { over: number; under: number } {
    const carved = carve(text, 3.175, plot);
    const isDone = (i: number, j: number): boolean => carved.heightAt(i, j) <= -2 + 1e-6;
    let [over, under] = [Number.NEGATIVE_INFINITY, 0];
    everyCell(carved, (x, y, i, j) => {
      const out = Math.hypot(x - 40, y - 10) - 3.175;
      if (carved.isCut(i, j)) over = Math.max(over, out);
      if (out < 0 && !isDone(i, j)) under = Math.max(under, nearest(carved, i, j, isDone));
    });
    return { over, under };
  }

  /** Distance to the nearest cell that is done, looked for within 1 mm. */
  function nearest(carved: Carved, i: number, j: number, isDone: (i: number, j: number) => boolean): number {
    const window = Math.ceil(1 / carved.step);
    let least = 1;
    for (let di = -window; di <= window; di += 1) {
      for (let dj = -window; dj <= window; dj += 1) {
        const away = Math.hypot(di, dj) * carved.step;
        if (away < least && isDone(i + di, j + dj)) least = away;
      }
    }
    return least;
  }

  it.each([
    ['as it should be', 0, 1.5875],
    ['off by 0.1', 0.1, 1.5875],
    ['off by 0.25', 0.25, 1.5875],
    ['too wide by 0.06', 0, 1.6475],
    ['too narrow by 0.08', 0, 1.5075],
  ])('%s', (_, dx, radius) => {
    const sample = exact(pocket());
    const wider =
      radius === 1.5875 && dx === 0
        ? sample.text
        : numbers('XI', (v, letter) => (letter === 'I' ? -radius : v === 41.5875 ? 40 + radius + dx : v))(
            sample.text,
          );
    const text = wider.replace('G1 X41.4\n', '');
    const grid = onGrid(text);
    const figure = figures({ ...sample, text });
    const slack = 1.5 * step;
    if (grid.over > slack) expect(Math.abs(figure('wall overcut') - grid.over)).toBeLessThan(slack);
    else expect(figure('wall overcut')).toBeLessThan(2 * slack);
    if (grid.under > slack) expect(Math.abs(figure('wall undercut') - grid.under)).toBeLessThan(slack);
    else expect(figure('wall undercut')).toBeLessThan(2 * slack);
  });

  it('whatever number is slipped by 0.1: what the proof lets pass, the grid finds right', () => {
    const { text, intent } = exact(pocket());
    let passed = 0;
    let refused = 0;
    for (const match of text.matchAll(/[XYZIJ]-?[\d.]+/g)) {
      for (const by of [0.1, -0.1]) {
        const word = match[0];
        const slipped = `${word[0]}${Number((Number(word.slice(1)) + by).toFixed(4))}`;
        const damaged = text.slice(0, match.index) + slipped + text.slice(match.index + word.length);
        if (!prove(bytesOf(damaged), intent).passed) {
          refused += 1;
          continue;
        }
        passed += 1;
        const grid = onGrid(damaged);
        expect([damaged, grid.over < 1.5 * step, grid.under < 1.5 * step]).toEqual([damaged, true, true]);
      }
    }
    expect(passed).toBeGreaterThan(5);
    expect(refused).toBeGreaterThan(30);
  });
});

describe('a slot under a radius', () => {
  const step = 0.05;
  const R = 305;
  const floor = (y: number): number => Math.sqrt(R * R - y * y) - R - 2.2;
  const plot = {
    x: [29.5, 30.5] as const,
    y: [-28, 28] as const,
    step,
    top: (_: number, y: number) => floor(y) + 2.2,
  };

  function depths(text: string): { deep: number; shallow: number } {
    const carved = carve(text, 0.6, plot);
    let [deep, shallow] = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
    everyCell(carved, (x, y, i, j) => {
      if (carved.isCut(i, j)) deep = Math.max(deep, floor(y) - carved.heightAt(i, j));
      if (Math.abs(x - 30) < step) shallow = Math.max(shallow, carved.heightAt(i, j) - floor(y));
    });
    return { deep, shallow };
  }

  it.each([
    ['centre on the radius', 0, 0],
    ['shifted by the cutter’s radius', 0.3, 0],
    ['shifted, and 0.02 deeper', 0.3, 0.02],
    ['shifted, and 0.02 too shallow', 0.3, -0.02],
  ])('%s', (_, lag, aim) => {
    const sample = slots({ R, half: 28, lag, aim, scatter: 0 });
    const grid = depths(sample.text);
    const deep = figures(sample)('floor deep');
    const shallow = figures(sample)('floor shallow');
    // A cell at the disc's edge stands half a step off it, where the floor differs by half a step times its slope; the proof
    // looks 0.6 mm past the edge as well, and adds 0.0005 for its own sampling.
    const slack = step * 0.1 + 0.0015;
    expect(deep).toBeGreaterThan(grid.deep - 0.0005);
    expect(deep).toBeLessThan(grid.deep + slack);
    expect(Math.abs(shallow - grid.shallow)).toBeLessThan(slack);
    if (aim < 0) expect(shallow).toBeGreaterThan(0.019);
  });
});

describe('an outline', () => {
  const step = 0.1;
  const plot = { x: [0, 80] as const, y: [0, 60] as const, step, top: () => 0 };

  it.each([
    ['as it should be', 0, 0],
    ['off by 0.3', 0.3, 0.3],
    ['off by 0.6', 0.6, 0.6],
  ])('%s', (_, dx, over) => {
    const sample = exact(outline());
    const text = dx === 0 ? sample.text : numbers('X', (v) => v + dx)(sample.text);
    const carved = carve(text, 6, plot);
    let into = 0;
    let tabs = 0;
    everyCell(carved, (x, y, i, j) => {
      if (carved.isCut(i, j)) into = Math.max(into, Math.min(x - 10, 70 - x, y - 10, 50 - y));
      const inTab = Math.abs(x - 40 - dx) < 3.9 && y > 50.2 && y < 55.8;
      if (inTab) tabs = Math.max(tabs, Math.abs(carved.heightAt(i, j) - -4.8));
    });
    expect(into).toBeLessThan(over + step);
    expect(Math.abs(figures({ ...sample, text })('wall overcut') - into)).toBeLessThan(1.5 * step);
    expect(tabs).toBeLessThan(1e-9);
  });
});
