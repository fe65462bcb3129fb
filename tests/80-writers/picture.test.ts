/** Pictures of the programs: that they are the page's drawing, that two renderers agree on them, that names stay text. */
import fc from 'fast-check';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { picturePainter } from '../../src/cli/files.ts';
import { drawPicture } from '../../src/writers/html/picture/drawPicture.ts';
import { wrapped } from '../../src/writers/html/picture/lettering.ts';
import { recordStrokes } from '../../src/writers/html/picture/strokes.ts';
import { traceThinned } from '../../src/writers/html/picture/thinned.ts';
import type { PreviewProgram } from '../../src/writers/html/types.ts';
import { writePng } from '../../src/writers/png/write.ts';
import { launchBrowser } from '../support/browser.ts';
import { samplePreview } from '../support/previewSamples.ts';

const sample = samplePreview();
const HEAD = { title: sample.title, number: 1, count: 4, unit: 'mm' } as const;

function programAt(index: number): PreviewProgram {
  const program = sample.programs[index];
  if (program === undefined) throw new Error(`no program ${index}`);
  return program;
}

let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser.close();
});

async function opened(svg: string): Promise<Page> {
  const page = await browser.newPage({ viewport: { width: 1400, height: 1600 } });
  await page.setContent(`<!doctype html><style>body { margin: 0 }</style>${svg.replace(/^<\?xml.*\n/, '')}`);
  return page;
}

/** Text by the places of its words: what a reader sees. */
const textsOf = (page: Page): Promise<string[]> =>
  page.evaluate('[...document.querySelectorAll("svg text")].map((t) => t.textContent)');

describe('a picture of a program', () => {
  it('shows plan, section, side view and the title block with its figures', async () => {
    const page = await opened(drawPicture(programAt(0), HEAD));
    const texts = await textsOf(page);
    for (const wanted of [
      'Sheet 1 of 4: fret slots, fingerboard',
      'PLAN FROM ABOVE',
      'SECTION A\u2013A',
      'SIDE VIEW',
      'fingerboard-slots.nc',
      '14.3 min',
      'proven',
      'from the nut line',
    ]) {
      expect(texts).toContain(wanted);
    }
    // Each label and its halo: the stock's length stands on the sheet as a dimension.
    const { x } = programAt(0).stock;
    expect(texts.filter((t) => t === `${Number((x[1] - x[0]).toFixed(3))} mm`).length).toBeGreaterThan(1);
    await page.close();
  });

  it('draws a slot where it lies: as far from the stock’s edge as its x asks, at the plan’s scale', async () => {
    const page = await opened(drawPicture(programAt(2), { ...HEAD, number: 3 }));
    // The stock is 60 px from either side of a plan that its length fills; the part's outline is a closed path inside it.
    const box = await page.evaluate<{ x: number; width: number }[]>(`[...document.querySelectorAll('path')]
      .filter((p) => p.getAttribute('stroke-width') === '2')
      .map((p) => { const { x, width } = p.getBBox(); return { x, width }; })`);
    const { stock, outlines } = programAt(2);
    const scale = (1372 - 120) / (stock.x[1] - stock.x[0]);
    const xs = outlines.flat().map((v) => v[0]);
    const [least, most] = [Math.min(...xs), Math.max(...xs)];
    const found = box.find((b) => Math.abs(b.width - (most - least) * scale) < 0.5);
    expect(found?.x).toBeCloseTo(60 + (least - stock.x[0]) * scale, 0);
    await page.close();
  });

  it('is in inches when asked, and says when a program does not prove', async () => {
    const page = await opened(drawPicture(programAt(3), { ...HEAD, number: 4, unit: 'in' }));
    const texts = await textsOf(page);
    expect(texts).toContain(
      `${(120 / 25.4).toFixed(4)} in \u00d7 ${(50 / 25.4).toFixed(4)} in \u00d7 ${(3 / 25.4).toFixed(4)} in`,
    );
    expect(texts).toContain('NOT PROVEN: do not cut');
    expect(texts.some((t) => / mm$/.test(t))).toBe(false);
    await page.close();
  });

  it('keeps hostile names as text, and runs and loads nothing', async () => {
    const evil =
      '"><script>window.hurt = 1</script><image href="http://x.invalid/a.png" onerror="window.hurt=1"/>&amp;';
    const program = {
      ...programAt(1),
      part: evil,
      operation: evil,
      machine: evil,
      tool: evil,
      path: evil,
      workZero: evil,
    };
    const svg = drawPicture({ ...program, cautions: [evil] }, { ...HEAD, title: evil });
    const page = await opened(svg);
    expect(await page.evaluate('window.hurt')).toBeUndefined();
    expect(await page.evaluate('document.querySelectorAll("script, image, [href], [onerror]").length')).toBe(
      0,
    );
    expect((await textsOf(page)).join('')).toContain('<script>window.hurt');
    await page.close();
  });

  it('is the same each time, and has no coordinate that is not a number', () => {
    for (const program of sample.programs) {
      const svg = drawPicture(program, HEAD);
      expect(drawPicture(program, HEAD)).toBe(svg);
      expect(svg).not.toMatch(/NaN|Infinity|undefined|null/);
    }
  });
});

/** The share of ink in squares of 20 pixels of a PNG, from its top left corner. */
const INK = `async (bytes) => {
  const image = await createImageBitmap(new Blob([Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0))]));
  const canvas = new OffscreenCanvas(image.width, image.height);
  const ctx = canvas.getContext('2d');
  ctx.drawImage(image, 0, 0);
  const { data } = ctx.getImageData(0, 0, image.width, image.height);
  const sums = [];
  for (let y = 0; y + 20 <= image.height; y += 20) for (let x = 0; x + 20 <= image.width; x += 20) {
    let sum = 0;
    for (let j = 0; j < 20; j += 1) for (let i = 0; i < 20; i += 1) sum += 255 - data[4 * ((y + j) * image.width + x + i)];
    sums.push(sum / 400 / 255);
  }
  return { width: image.width, height: image.height, sums };
}`;

interface Ink {
  readonly width: number;
  readonly height: number;
  readonly sums: readonly number[];
}

describe('a PNG', () => {
  it('is drawn as a browser draws the same picture, square by square', async () => {
    const svg = drawPicture(programAt(2), HEAD);
    const page = await opened(svg);
    const png = await writePng(svg, picturePainter(), 1);
    const height = Number(/height="(\d+)"/.exec(svg)?.[1]);
    const shot = await page.screenshot({ clip: { x: 0, y: 0, width: 1400, height } });
    const inkOf = (bytes: Uint8Array): Promise<Ink> =>
      page.evaluate(`(${INK})(${JSON.stringify(Buffer.from(bytes).toString('base64'))})`);
    const [ours, theirs] = [await inkOf(png), await inkOf(shot)];
    expect([ours.width, ours.height]).toEqual([1400, height]);
    // Letters differ with the faces at hand, lines do not: nearly all squares are alike, and some have ink.
    const apart = ours.sums.filter((sum, i) => Math.abs(sum - (theirs.sums[i] ?? 0)) > 0.06);
    expect(apart.length / ours.sums.length).toBeLessThan(0.05);
    expect(ours.sums.filter((sum) => sum > 0.1).length).toBeGreaterThan(100);
    await page.close();
  });

  it('has as many pixels as asked and text in it', async () => {
    const words =
      '<svg xmlns="http://www.w3.org/2000/svg" width="100" height="40"><text x="5" y="30" font-size="30">mm</text></svg>';
    const empty = words.replace('mm', '');
    const png = Buffer.from(await writePng(words, picturePainter(), 2));
    expect(png.subarray(0, 8)).toEqual(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]));
    expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([200, 80]);
    expect(png).not.toEqual(Buffer.from(await writePng(empty, picturePainter(), 2)));
  });
});

describe('thinned lines', () => {
  /** Places of path data of moves and lines. */
  const placesIn = (data: string): number[][] =>
    [...data.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map((m) => [Number(m[1]), Number(m[2])]);

  function distanceTo(line: readonly number[][], [x = 0, y = 0]: readonly number[]): number {
    const away = line.slice(1).map(([bx = 0, by = 0], i) => {
      const [ax = 0, ay = 0] = line[i] ?? [];
      const square = (bx - ax) ** 2 + (by - ay) ** 2;
      const t =
        square === 0 ? 0 : Math.max(0, Math.min(1, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / square));
      return Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
    });
    return Math.min(...away);
  }

  it('pass every place by less than a tenth of a pixel and keep both ends', () => {
    const step = fc.tuple(
      fc.double({ min: -2, max: 2, noNaN: true }),
      fc.double({ min: -0.2, max: 0.2, noNaN: true }),
    );
    fc.assert(
      fc.property(fc.array(step, { minLength: 2, maxLength: 60 }), (steps) => {
        const places: number[][] = [[10, 10]];
        for (const [dx, dy] of steps) {
          const [x = 0, y = 0] = places.at(-1) ?? [];
          places.push([x + dx, y + dy]);
        }
        const trace = traceThinned();
        places.forEach(([x = 0, y = 0], i) => {
          if (i === 0) trace.moveTo(x, y);
          else trace.lineTo(x, y);
        });
        const thin = placesIn(trace.data());
        for (const place of places) expect(distanceTo(thin, place)).toBeLessThan(0.1);
        expect(
          Math.hypot(
            (thin.at(-1)?.[0] ?? 0) - (places.at(-1)?.[0] ?? 0),
            (thin.at(-1)?.[1] ?? 0) - (places.at(-1)?.[1] ?? 0),
          ),
        ).toBeLessThan(0.01);
      }),
      { seed: 7, numRuns: 300 },
    );
  });

  it('leave little of a long straight way, and nothing of what lies beside the sheet', () => {
    const { strokes, elements } = recordStrokes('a', 100, 100);
    strokes.beginPath();
    strokes.moveTo(0, 50);
    for (let x = 0; x < 90; x += 0.001) strokes.lineTo(x, 50 + 0.01 * Math.sin(x));
    strokes.stroke();
    expect(elements().length).toBeLessThan(300);
    strokes.beginPath();
    strokes.moveTo(-500, 0);
    strokes.lineTo(-500, 90);
    strokes.stroke();
    expect(elements()).not.toContain('-500');
  });

  it('break words that no line holds, by whole characters', () => {
    const lines = wrapped(`a ${'\u{1F3B8}'.repeat(40)} b`, 100, 15);
    expect(lines.every((line) => [...line].length <= 11)).toBe(true);
    expect(lines.join('').replace(/ /g, '')).toBe(`a${'\u{1F3B8}'.repeat(40)}b`);
  });
});
