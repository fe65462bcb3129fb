import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { drawPart } from '../../src/drawing/drawPart.ts';
import type { Drawing } from '../../src/drawing/types.ts';
import { bounds, perimeter } from '../../src/geometry/ring.ts';
import type { Ring } from '../../src/geometry/types.ts';
import { writeSvg } from '../../src/writers/svg/write.ts';
import { escapeXml } from '../../src/writers/svg/xml.ts';
import { launchBrowser, openFile } from '../support/browser.ts';
import { sampleLayout, sampleParts } from '../support/drawingSamples.ts';

const folder = mkdtempSync(join(tmpdir(), 'svg-'));
const hostile = '</title><script>1</script> "\'&<!-- \u0000\ufffe';
const [board] = sampleParts();
if (board === undefined) throw new Error('no board');
/** Both ways round, less and more than half a turn, and a full circle. */
const bent: Ring = [
  { x: 0, y: 0, bulge: 0.4 },
  { x: 20, y: 0, bulge: -1.6 },
  { x: 20, y: 30, bulge: 0 },
];
const drawing: Drawing = {
  ...drawPart(board),
  title: hostile,
  layers: [
    ...drawPart(board).layers,
    { name: 'BENT', shapes: [{ kind: 'ring', ring: bent }] },
    { name: 'ROUND', shapes: [{ kind: 'circle', centre: [5, 6], radius: 7 }] },
    {
      name: 'OPEN',
      shapes: [
        {
          kind: 'chain',
          vertices: [
            { x: 0, y: 0, bulge: 1 },
            { x: 10, y: 0, bulge: 9 },
          ],
        },
      ],
    },
    { name: 'WORDS', shapes: [{ kind: 'text', at: [0, 0], height: 3.5, angle: Math.PI / 2, text: hostile }] },
  ],
};

let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
});

interface Measured {
  x: number;
  y: number;
  width: number;
  height: number;
  length: number;
}

describe('a drawing as SVG, measured by a browser', () => {
  it('has true size, outlines of true length and place, and hostile names as text', async () => {
    const path = join(folder, 'a.svg');
    writeFileSync(path, writeSvg(drawing));
    const { page, requests, complaints } = await openFile(browser, path);
    const measured: Record<string, Measured> = await page.evaluate(`Object.fromEntries(
      [...document.querySelectorAll('g')].map((g) => {
        const { x, y, width, height } = g.getBBox();
        const length = [...g.children].reduce((sum, e) => sum + (e.getTotalLength ? e.getTotalLength() : 0), 0);
        return [g.id, { x, y, width, height, length }];
      }))`);
    const outline = sampleLayout().board.outline;
    for (const [name, ring] of [
      ['BOARD_OUTLINE', outline],
      ['BENT', bent],
    ] as const) {
      const box = bounds(ring);
      expect(measured[name]?.length).toBeCloseTo(perimeter(ring), 1);
      expect(measured[name]?.x).toBeCloseTo(box.x[0], 2);
      // y is turned: the highest point of the drawing is the smallest on the page.
      expect(measured[name]?.y).toBeCloseTo(-box.y[1], 2);
      expect(measured[name]?.width).toBeCloseTo(box.x[1] - box.x[0], 2);
      expect(measured[name]?.height).toBeCloseTo(box.y[1] - box.y[0], 2);
    }
    expect(measured.ROUND).toMatchObject({ x: -2, y: -13, width: 14, height: 14 });
    expect(measured.OPEN?.length).toBeCloseTo(5 * Math.PI, 1);
    expect(measured.FRET_SLOTS?.length).toBeGreaterThan(19 * 46);
    const [width, height, view]: [string, string, string] = await page.evaluate(
      `['width', 'height', 'viewBox'].map((name) => document.documentElement.getAttribute(name))`,
    );
    expect(`${width} ${height}`).toBe(view.split(' ').slice(2).join('mm ').concat('mm'));
    expect(await page.evaluate(`document.querySelector('title').textContent`)).toBe(
      hostile.replace('\u0000', ' ').replace('\ufffe', ' '),
    );
    expect(await page.evaluate(`document.querySelectorAll('script').length`)).toBe(0);
    expect(requests).toHaveLength(1);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('refuses a drawing without shapes and a coordinate that is none', () => {
    expect(() => writeSvg({ ...drawing, layers: [] })).toThrow('without shapes');
    const wild: Drawing = {
      ...drawing,
      layers: [{ name: 'A', shapes: [{ kind: 'point', at: [Infinity, 0] }] }],
    };
    expect(() => writeSvg(wild)).toThrow('coordinate');
  });

  it('escapes each sign of markup', () => {
    expect(escapeXml(`<a href='x' id="y">&`)).toBe('&#60;a href=&#39;x&#39; id=&#34;y&#34;&#62;&#38;');
  });
});
