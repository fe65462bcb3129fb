import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { benchPageOf } from '../../src/app/workPages.ts';
import { layOut } from '../../src/layout/layOut.ts';
import type { Page, PageTable } from '../../src/sheet/pages/types.ts';
import { writePageHtml } from '../../src/writers/html/page.ts';
import { writePagePdf } from '../../src/writers/pdf/page.ts';
import { columnWidths } from '../../src/writers/pdf/pageTable.ts';
import { launchBrowser, openFile } from '../support/browser.ts';
import { parlour } from '../support/instrument.ts';

const { resolve } = createRequire(import.meta.url);
const face = (name: string): Uint8Array => readFileSync(resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`));
const fonts = { regular: face('DejaVuSansCondensed'), bold: face('DejaVuSansCondensed-Bold') };
const hasPoppler = spawnSync('pdftotext', ['-v'], { stdio: 'ignore' }).error === undefined;
const LYING = { width: 297, height: 210 };
const POINTS = 72 / 25.4;

let folder = '';
let browser: Browser;
let page: Page;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'nutline-pages-'));
  browser = await launchBrowser();
  const layout = layOut(parlour);
  if (!layout.ok) throw new Error('the parlour does not lay out');
  page = benchPageOf({ ...parlour, name: 'Tarn Ångström <b>' }, layout.value, 'abcdef0123456789');
});
afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
});

function saved(name: string, bytes: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
}

function poppler(command: string, ...words: readonly string[]): string {
  return spawnSync(command, [...words], { encoding: 'utf8', maxBuffer: 1e8 }).stdout;
}

describe('a page to work down, in the browser', () => {
  it('opens from disk with no request and no complaint, and takes ticks and figures by keyboard', async () => {
    const {
      page: open,
      requests,
      complaints,
    } = await openFile(browser, saved('a.html', writePageHtml(page)));
    expect(requests).toHaveLength(1);
    expect(complaints).toEqual([]);
    expect(await open.textContent('h1')).toContain('Tarn Ångström <b>');
    const box = open.getByRole('textbox', { name: 'measured: Fret slots by caliper, 12', exact: true });
    await box.fill('314.02');
    expect(await box.inputValue()).toBe('314.02');
    await open.keyboard.press('Tab');
    await open.keyboard.press('Space');
    expect(
      await open.getByRole('checkbox', { name: 'right: Fret slots by caliper, 12', exact: true }).isChecked(),
    ).toBe(true);
    await open.close();
  });

  it.each(['light', 'dark'] as const)('has no fault of weight by axe, %s', async (colorScheme) => {
    const { page: open } = await openFile(browser, saved('b.html', writePageHtml(page)), {
      colorScheme,
      bypassCSP: true,
    });
    await open.addScriptTag({ path: resolve('axe-core/axe.min.js') });
    const found = await open.evaluate(async () => {
      const { axe } = globalThis as unknown as {
        axe: { run: () => Promise<{ violations: { id: string; impact: string }[]; passes: unknown[] }> };
      };
      const { violations, passes } = await axe.run();
      return { violations: violations.map(({ id, impact }) => `${impact}: ${id}`), passes: passes.length };
    });
    expect(found.passes).toBeGreaterThan(10);
    expect(found.violations).toEqual([]);
    await open.close();
  });
});

describe('a page to work down, as PDF', () => {
  it('is the same bytes each time', async () => {
    const [one, two] = await Promise.all([
      writePagePdf(page, LYING, fonts),
      writePagePdf(page, LYING, fonts),
    ]);
    expect(Buffer.from(one).equals(Buffer.from(two))).toBe(true);
  });

  it.skipIf(!hasPoppler)(
    'has every cell of every table, its fonts inside, and nothing off the sheet',
    async () => {
      const path = saved('a.pdf', await writePagePdf(page, LYING, fonts));
      const text = poppler('pdftotext', '-layout', path, '-').replace(/\s+/g, ' ');
      expect(text).toContain('Tarn Ångström <b>');
      const slots = page.blocks.find(
        (b): b is PageTable => b.kind === 'table' && b.name === 'Fret slots by caliper',
      );
      for (const row of slots?.rows ?? []) {
        const words = row.filter((cell) => typeof cell === 'string' && cell !== '').join(' ');
        expect(text).toContain(words);
      }
      const embedded = poppler('pdffonts', path)
        .split('\n')
        .slice(2)
        .filter((line) => line !== '');
      expect(embedded).toHaveLength(2);
      for (const line of embedded) expect(line).toMatch(/Identity-H +yes yes yes/);
      const words = [
        ...poppler('pdftotext', '-bbox', path, '-').matchAll(
          /<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)"/g,
        ),
      ];
      expect(words.length).toBeGreaterThan(1000);
      for (const [, x0, y0, x1, y1] of words.map((w) => w.map(Number))) {
        expect(x0).toBeGreaterThan(10 * POINTS);
        expect(y0).toBeGreaterThan(8 * POINTS);
        expect(x1).toBeLessThan((LYING.width - 10) * POINTS);
        expect(y1).toBeLessThan((LYING.height - 4) * POINTS);
      }
    },
  );

  it.skipIf(!hasPoppler)(
    'repeats a table’s head on the sheets it runs on to, and numbers the sheets',
    async () => {
      const path = saved('b.pdf', await writePagePdf(page, { width: 297, height: 120 }, fonts));
      const pages = poppler('pdftotext', '-layout', path, '-')
        .split('\f')
        .filter((sheet) => sheet.trim() !== '');
      expect(pages.length).toBeGreaterThan(8);
      const withSlots = pages.filter((sheet) => /after \d+, before \d+ +\d/.test(sheet));
      expect(withSlots.length).toBeGreaterThan(1);
      for (const sheet of withSlots) expect(sheet).toMatch(/slot +where/);
      for (const [i, sheet] of pages.entries()) expect(sheet).toContain(`sheet ${i + 1} of ${pages.length}`);
    },
  );
});

describe('widths of columns', () => {
  const measure = (text: string): number => text.length;
  const table = (cells: readonly string[]): PageTable => ({
    kind: 'table',
    name: 't',
    columns: cells.map((_, i) => ({ head: `h${i}`, align: 'left' })),
    rows: [cells],
  });

  it('are those of the widest cell where all fits', () => {
    expect(columnWidths(table(['x'.repeat(20), 'yy']), 100, measure)).toEqual([23, 5]);
  });

  it('take from the widest columns of words first, down to a least width', () => {
    const widths = columnWidths(table(['x'.repeat(90), 'y'.repeat(40), 'z']), 100, measure);
    expect(widths.reduce((a, b) => a + b, 0)).toBeCloseTo(100, 9);
    expect(widths[0]).toBeCloseTo(95 - (widths[1] ?? 0), 9);
    const narrow = columnWidths(table(['x'.repeat(90), 'y'.repeat(90)]), 30, measure);
    expect(narrow).toEqual([24, 24]);
  });
});
