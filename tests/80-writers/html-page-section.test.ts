/** The figures that the real page shows along a section, typed in as a reader would, beside those of the proof. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { writePreview } from '../../src/writers/html/preview.ts';
import type { PreviewFigure, PreviewProgram } from '../../src/writers/html/types.ts';
import { launchBrowser, openFile } from '../support/browser.ts';
import { previewOf, withText } from '../support/previewPrograms.ts';

/** Half the length of a section laid through a place, mm, and in how many directions: one is nearly square to any wall. */
const REACH = 4;
const DIRECTIONS = 12;
const FIELDS: Readonly<Record<string, string>> = {
  'wall overcut': 'found-over',
  'wall undercut': 'found-under',
  'floor deep': 'found-deep',
  'floor shallow': 'found-high',
};

const folder = mkdtempSync(join(tmpdir(), 'page-section-'));
const job = previewOf('sedge-ukulele.yaml');
const path = join(folder, 'preview.html');
let browser: Browser;

beforeAll(async () => {
  writeFileSync(path, writePreview(job));
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
});

/** Types a section into the page, waits until it is measured, and reads a figure: millimetres, or -Infinity where there is none. */
async function readAlong(page: Page, line: readonly number[], field: string): Promise<number> {
  const text = (await page.evaluate(`new Promise((done) => {
    const value = ${JSON.stringify(line.map((v) => v.toFixed(4)))};
    ['from-x', 'from-y', 'to-x', 'to-y'].forEach((id, i) => { document.getElementById(id).value = value[i]; });
    document.getElementById('to-y').dispatchEvent(new Event('change'));
    requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(() => done(document.getElementById('${field}').textContent), 30)));
  })`)) as string;
  const value = Number.parseFloat(text);
  return Number.isNaN(value) ? Number.NEGATIVE_INFINITY : value;
}

/** The largest figure of each kind that the proof found in a program, with its place. */
function largest({ cuts }: PreviewProgram): PreviewFigure[] {
  return Object.keys(FIELDS).flatMap((name) => {
    const all = cuts
      .filter((cut) => cut.kind !== 'line' && !(cut.through && name.startsWith('floor')))
      .flatMap((cut) => cut.figures.filter((f) => f.name === name && f.place !== null));
    const most = all.sort((a, b) => b.value - a.value)[0];
    return most === undefined ? [] : [most];
  });
}

/** The largest over sections in several directions through a place, as the page shows it. */
async function worstAt(page: Page, { name, place }: PreviewFigure): Promise<number> {
  const [x, y] = place ?? [0, 0];
  let worst = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < DIRECTIONS; k += 1) {
    const angle = (k * Math.PI) / DIRECTIONS;
    const [dx, dy] = [REACH * Math.cos(angle), REACH * Math.sin(angle)];
    const found = await readAlong(page, [x - dx, y - dy, x + dx, y + dy], FIELDS[name] ?? '');
    worst = Math.max(worst, found);
  }
  return worst;
}

describe('the page’s section', () => {
  it.each(['fingerboard-slots.nc', 'fingerboard-outline.nc', 'fingerboard-markers.nc'])(
    'has the largest figures of the proof within 0.01 mm: %s',
    async (name) => {
      const index = job.programs.findIndex((p) => p.path === name);
      const program = job.programs[index];
      if (program === undefined) throw new Error(`no program ${name}`);
      const { page, complaints } = await openFile(browser, path);
      await page.click(`[data-program="${index}"]`);
      const figures = largest(program);
      expect(figures.length).toBeGreaterThan(1);
      for (const figure of figures) {
        const worst = await worstAt(page, figure);
        const said = `${figure.name}: proof ${figure.value}, page ${worst}`;
        expect(Math.abs(worst - Math.max(0, figure.value)), said).toBeLessThan(0.01);
      }
      expect(complaints).toEqual([]);
      await page.close();
    },
    30_000,
  );

  it('shows a slot that was moved by 0.2 mm, as the proof does', async () => {
    const damaged = withText('fingerboard-slots.nc', (text) => text.replace('G0 X322 ', 'G0 X322.2 '));
    const wrong = join(folder, 'damaged.html');
    writeFileSync(wrong, writePreview({ ...job, programs: [damaged] }));
    const over = largest(damaged).find((f) => f.name === 'wall overcut');
    if (over === undefined) throw new Error('nothing was cut');
    expect(over.value).toBeGreaterThan(0.15);
    const { page } = await openFile(browser, wrong);
    expect(Math.abs((await worstAt(page, over)) - over.value)).toBeLessThan(0.01);
    await page.close();
  }, 30_000);
});
