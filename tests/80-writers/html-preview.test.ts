import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { drawLayout } from '../../src/drawing/drawLayout.ts';
import { MOVES_SCRIPT } from '../../src/writers/html/client/moves.ts';
import { writeIndexPage } from '../../src/writers/html/index.ts';
import { packInteger } from '../../src/writers/html/packing.ts';
import { writePreview } from '../../src/writers/html/preview.ts';
import { type ReadMotion, recordMoves } from '../../src/writers/html/recordMoves.ts';
import type { PackedMoves, PreviewInput } from '../../src/writers/html/types.ts';
import { launchBrowser, openFile } from '../support/browser.ts';
import { sampleInstrument, sampleLayout } from '../support/drawingSamples.ts';
import { samplePreview, tape } from '../support/previewSamples.ts';

const folder = mkdtempSync(join(tmpdir(), 'preview-'));
const sample = samplePreview();
const hostile =
  '</script><script>window.broken = 1</script><img src="http://example.invalid/x" onerror="window.broken = 2">\u2028&amp;"\'<!--\u202e';

const STILL: ReadMotion = {
  line: 1,
  kind: 'feed',
  plane: 'xy',
  fromX: 0,
  fromY: 0,
  fromZ: 0,
  toX: 0,
  toY: 0,
  toZ: 0,
  centreX: 0,
  centreY: 0,
  centreZ: 0,
  radius: 0,
  sweep: 0,
  feed: 100,
  spindle: 0,
};

let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
});

function saved(name: string, html: string): string {
  const path = join(folder, name);
  writeFileSync(path, html);
  return path;
}

async function settle(page: Page): Promise<void> {
  await page.evaluate('new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))');
}

/** Share of a canvas's pixels that are not its corner's colour, and a digest of them all. */
async function inkOf(page: Page, selector: string): Promise<{ share: number; digest: number }> {
  await settle(page);
  return page.evaluate(`(() => {
    const shown = document.querySelector(${JSON.stringify(selector)});
    // Read from a copy: the page's own canvas is not made for reading.
    const canvas = document.createElement('canvas');
    canvas.width = shown.width;
    canvas.height = shown.height;
    const ctx = canvas.getContext('2d', { willReadFrequently: true });
    ctx.drawImage(shown, 0, 0);
    const pixels = new Uint32Array(ctx.getImageData(0, 0, canvas.width, canvas.height).data.buffer);
    let inked = 0;
    let digest = 0;
    for (const pixel of pixels) {
      if (pixel !== pixels[0]) inked += 1;
      digest = (Math.imul(digest, 31) + pixel) | 0;
    }
    return { share: inked / pixels.length, digest };
  })()`);
}

const textOf = (page: Page, selector: string): Promise<string | null> => page.textContent(selector);

async function openSample(options = {}): ReturnType<typeof openFile> {
  return openFile(browser, saved('preview.html', writePreview(sample)), options);
}

describe('the preview, opened from a file in a browser', () => {
  it('draws every program, asks for nothing and complains of nothing', async () => {
    const { page, requests, complaints } = await openSample();
    const digests = new Set<number>();
    for (const [i, program] of sample.programs.entries()) {
      await page.click(`[data-program="${i}"]`);
      expect(await textOf(page, '#place-move')).toBe(`0 of ${program.moves.count}`);
      await page.focus('#step');
      await page.keyboard.press('End');
      for (const id of ['#plan', '#section', '#side']) {
        const ink = await inkOf(page, id);
        expect(ink.share, `${program.path} on ${id}`).toBeGreaterThan(0.01);
        digests.add(ink.digest);
      }
      expect(await textOf(page, '[data-field="path"]')).toBe(program.path);
      expect(await textOf(page, '#place-move')).toBe(`${program.moves.count} of ${program.moves.count}`);
      expect(await textOf(page, '#proof-word')).toBe(
        program.proof.passed ? 'proven' : 'NOT PROVEN: do not cut',
      );
    }
    expect(digests.size).toBe(3 * sample.programs.length);
    expect(requests).toEqual([pathToFileURL(join(folder, 'preview.html')).href]);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('steps by slider, by key and by line, and says where the tool is', async () => {
    const { page, complaints } = await openSample();
    // It opens before the first move.
    expect(await textOf(page, '#place-how')).toBe('before the first move');
    await page.focus('#step');
    await page.keyboard.press('End');
    const whole = await inkOf(page, '#plan');
    await page.keyboard.press('Home');
    expect(await textOf(page, '#place-how')).toBe('before the first move');
    const none = await inkOf(page, '#plan');
    expect(none.digest).not.toBe(whole.digest);
    for (const key of ['ArrowRight', '.', '.']) await page.keyboard.press(key);
    await page.keyboard.press(',');
    expect(await textOf(page, '#place-move')).toBe(`2 of ${sample.programs[0]?.moves.count}`);
    const text = sample.programs[0]?.text.split('\n') ?? [];
    // The second move is the sample's third line: a rapid to the first slot.
    expect(text[2]).toContain(`X${await textOf(page, '#place-x')} Y${await textOf(page, '#place-y')} Z`);
    expect(await textOf(page, '#place-how')).toBe('rapid');
    expect(await textOf(page, '#written [aria-current]')).toBe(text[2]);
    await page.click('#line-on');
    expect(await textOf(page, '#written [aria-current]')).toBe(text[3]);
    expect(await textOf(page, '#place-how')).toBe('feed 300 mm/min');
    await page.click('#written li:nth-child(6)');
    expect(await textOf(page, '#written [aria-current]')).toBe(text[5]);
    await page.click('#line-back');
    expect(await textOf(page, '#written [aria-current]')).toBe(text[4]);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('plays to the end and stops', async () => {
    const { page } = await openSample();
    await page.selectOption('#play-time', '10');
    await page.click('[data-program="3"]');
    await page.focus('#plan');
    await page.keyboard.press(' ');
    expect(await textOf(page, '#play')).toBe('Pause');
    expect(await textOf(page, '#place-move')).toBe('0 of 6');
    await expect.poll(() => textOf(page, '#place-move'), { timeout: 8000 }).toMatch(/^[1-5] of 6$/);
    await page.click('#play');
    expect(await textOf(page, '#play')).toBe('Play');
    await page.focus('#step');
    await page.keyboard.press('End');
    await page.keyboard.press('ArrowLeft');
    await page.click('#play');
    await expect.poll(() => textOf(page, '#play'), { timeout: 8000 }).toBe('Play');
    expect(await textOf(page, '#place-move')).toBe('6 of 6');
    await page.close();
  });

  it('zooms and moves by wheel, drag, keys and buttons, and comes back to the whole', async () => {
    const { page } = await openSample();
    const whole = (await inkOf(page, '#plan')).digest;
    const seen = new Set([whole]);
    const box = await page.locator('#plan').boundingBox();
    if (box === null) throw new Error('no plan');
    await page.mouse.move(box.x + 300, box.y + 120);
    await page.mouse.wheel(0, -400);
    seen.add((await inkOf(page, '#plan')).digest);
    await page.mouse.down();
    await page.mouse.move(box.x + 360, box.y + 150, { steps: 4 });
    await page.mouse.up();
    seen.add((await inkOf(page, '#plan')).digest);
    await page.focus('#plan');
    for (const key of ['ArrowLeft', 'ArrowUp', '+', '-', '-']) {
      await page.keyboard.press(key);
      if (key !== '-') seen.add((await inkOf(page, '#plan')).digest);
    }
    expect(seen.size).toBe(6);
    await page.keyboard.press('0');
    expect((await inkOf(page, '#plan')).digest).toBe(whole);
    await page.click('#nearer');
    expect((await inkOf(page, '#plan')).digest).not.toBe(whole);
    await page.click('#whole');
    expect((await inkOf(page, '#plan')).digest).toBe(whole);
    await page.close();
  });

  it('goes to the move whose line is clicked', async () => {
    const { page } = await openSample();
    await page.click('[data-program="3"]');
    await settle(page);
    const box = await page.locator('#plan').boundingBox();
    if (box === null) throw new Error('no plan');
    const program = sample.programs[3];
    if (program === undefined) throw new Error('no beam program');
    // The middle of the far side of the plate, y 40: the page leaves 60 pixels at either side of 120 mm of stock, 76 above and
    // 96 below its 50 mm.
    const scale = Math.min((box.width - 120) / 120, (box.height - 172) / 50);
    await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2 - 10 - (40 - 25) * scale);
    expect(await textOf(page, '#place-y')).toBe('40.000');
    expect(await textOf(page, '#place-x')).toBe('10.000');
    await page.close();
  });

  it('changes to inches and back', async () => {
    const { page } = await openSample();
    await page.focus('#step');
    await page.keyboard.press('End');
    expect(await textOf(page, '#cut-width')).toBe('0.6 mm');
    await page.check('input[value="in"]');
    expect(await textOf(page, '#cut-width')).toBe('0.0236 in');
    expect(await textOf(page, '[data-program="3"] [data-mm="0.052"]')).toBe('0.0020 in');
    expect(await textOf(page, '#place-z')).toBe('0.1969');
    await page.check('input[value="mm"]');
    expect(await textOf(page, '#place-z')).toBe('5.000');
    await page.close();
  });

  it('is dark on a dark desk, and keeps within a narrow screen', async () => {
    const brightness = async (page: Page): Promise<number> =>
      page.evaluate(
        `document.getElementById('plan').getContext('2d').getImageData(1, 1, 1, 1).data.slice(0, 3).reduce((a, b) => a + b)`,
      );
    const light = await openSample({ colorScheme: 'light' });
    await settle(light.page);
    expect(await brightness(light.page)).toBeGreaterThan(600);
    const dark = await openSample({ colorScheme: 'dark', viewport: { width: 380, height: 800 } });
    await settle(dark.page);
    expect(await brightness(dark.page)).toBeLessThan(150);
    expect(await dark.page.evaluate('document.documentElement.scrollWidth <= window.innerWidth')).toBe(true);
    await light.page.close();
    await dark.page.close();
  });

  it('lays a sheet per program for the printer', async () => {
    const { page, complaints } = await openSample();
    await page.evaluate(`window.dispatchEvent(new Event('beforeprint'))`);
    expect(await page.locator('#print-sheets figure').count()).toBe(sample.programs.length);
    expect(await page.locator('#print-sheets canvas').count()).toBe(2 * sample.programs.length);
    expect((await inkOf(page, '#print-sheets figure:last-child canvas')).share).toBeGreaterThan(0.005);
    expect(await textOf(page, '#print-sheets figure:last-child figcaption')).toContain('NOT PROVEN');
    await page.evaluate(`window.dispatchEvent(new Event('afterprint'))`);
    expect(await page.locator('#print-sheets figure').count()).toBe(0);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('gives every control a name, and a picture of each canvas in words', async () => {
    const { page } = await openSample();
    const nameless = await page.evaluate(`[...document.querySelectorAll('button, select, input, canvas')]
      .filter((e) => !(e.getAttribute('aria-label') || e.textContent.trim() || (e.labels && e.labels.length > 0)))
      .map((e) => e.outerHTML)`);
    expect(nameless).toEqual([]);
    await page.keyboard.press('Tab');
    expect(await page.evaluate('document.activeElement.textContent')).toBe('To the programs');
    await page.close();
  });

  it('opens at the program named in the address', async () => {
    const path = saved('preview.html', writePreview(sample));
    const page = await browser.newPage();
    await page.goto(`${pathToFileURL(path).href}#fingerboard-outline.nc`);
    expect(await textOf(page, '[data-field="operation"]')).toBe('outline');
    await page.goto(`${pathToFileURL(path).href}#%E0%A4%A`);
    await expect.poll(() => textOf(page, '[data-field="operation"]')).toBe('fret slots');
    await page.close();
  });

  it('shows hostile names as text', async () => {
    const [first] = sample.programs;
    if (first === undefined) throw new Error('no program');
    const input: PreviewInput = {
      title: hostile,
      text: hostile,
      cautions: [hostile],
      programs: [
        {
          ...first,
          path: hostile,
          part: hostile,
          operation: hostile,
          machine: hostile,
          tool: hostile,
          workZero: hostile,
          text: `(${hostile})\n${first.text}`,
        },
      ],
    };
    const { page, requests, complaints } = await openFile(
      browser,
      saved('hostile.html', writePreview(input)),
    );
    expect(await textOf(page, 'h1')).toBe(hostile);
    expect(await textOf(page, '#programs .name')).toBe(hostile);
    for (const field of ['path', 'part', 'operation', 'machine', 'tool', 'workZero']) {
      expect(await textOf(page, `[data-field="${field}"]`)).toBe(hostile);
    }
    await page.focus('#step');
    await page.keyboard.press('Home');
    expect(await textOf(page, '#written li:first-child')).toBe(`(${hostile})`);
    expect((await inkOf(page, '#plan')).share).toBeGreaterThan(0.01);
    expect(await page.evaluate('window.broken')).toBeUndefined();
    expect(await page.locator('img').count()).toBe(0);
    expect(requests).toHaveLength(1);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('says so when there is no program', async () => {
    const { page, complaints } = await openFile(
      browser,
      saved('empty.html', writePreview({ ...sample, programs: [] })),
    );
    expect(await textOf(page, 'main')).toContain('There is no program.');
    expect(complaints).toEqual([]);
    await page.close();
  });
});

describe('packed moves', () => {
  const unpack = new Function(`${MOVES_SCRIPT}\nreturn unpackMoves;`)() as (packed: PackedMoves) => {
    count: number;
    kind: Uint8Array;
    line: Uint32Array;
    x: Float64Array;
    y: Float64Array;
    z: Float64Array;
    feed: Float64Array;
    spindle: Float64Array;
  };

  it('come back to the micrometre, with line, feed and speed', () => {
    const t = tape(437, 17250);
    t.rapid([-1.2345, 300.0004, 5]);
    t.feed([1000.1, -2000.2, -0.0006]);
    t.feed([0, 0, 0]);
    const { moves, motions } = t.finish();
    const found = unpack(moves);
    expect(found.count).toBe(motions.length);
    motions.forEach((m, i) => {
      expect(found.x[i + 1]).toBeCloseTo(m.toX, 3);
      expect(found.y[i + 1]).toBeCloseTo(m.toY, 3);
      expect(found.z[i + 1]).toBeCloseTo(m.toZ, 3);
      expect([found.line[i + 1], found.feed[i + 1], found.spindle[i + 1]]).toEqual([
        m.line,
        m.feed,
        m.spindle,
      ]);
    });
  });

  // Seen from the positive end of the third axis, a counter-clockwise arc turns the first axis to the second
  // (as G3 in G17, G18 and G19: published RS274/NGC description, section on arcs).
  it.each([
    ['xy', 'x', 'y', 'z'],
    ['xz', 'z', 'x', 'y'],
    ['yz', 'y', 'z', 'x'],
  ] as const)('keep an arc in plane %s to 0.005 mm, all its turns and its sense', (plane, a, b, along) => {
    const key = { x: 'X', y: 'Y', z: 'Z' } as const;
    const motion: ReadMotion = { ...STILL, kind: 'arc', plane, radius: 3, sweep: 4.5 * Math.PI };
    const placed = {
      ...motion,
      [`centre${key[a]}`]: 10,
      [`centre${key[b]}`]: 5,
      [`from${key[a]}`]: 13,
      [`from${key[b]}`]: 5,
      [`from${key[along]}`]: 1,
      [`to${key[a]}`]: 10,
      [`to${key[b]}`]: 8,
      [`to${key[along]}`]: -4,
    };
    const recorder = recordMoves();
    recorder.add(placed);
    const found = unpack(recorder.finish());
    let turned = 0;
    for (let i = 1; i <= found.count; i += 1) {
      const [p0, q0] = [(found[a][i - 1] ?? 0) - 10, (found[b][i - 1] ?? 0) - 5];
      const [p1, q1] = [(found[a][i] ?? 0) - 10, (found[b][i] ?? 0) - 5];
      expect(Math.abs(Math.hypot(p1, q1) - 3)).toBeLessThan(0.001);
      expect(3 - Math.hypot((p0 + p1) / 2, (q0 + q1) / 2)).toBeLessThan(0.006);
      turned += Math.atan2(p0 * q1 - q0 * p1, p0 * p1 + q0 * q1);
      expect(found[along][i]).toBeCloseTo(1 - (5 * i) / found.count, 3);
    }
    expect(turned).toBeCloseTo(4.5 * Math.PI, 2);
  });

  it('pass over a dwell, and refuse what is not a number', () => {
    const recorder = recordMoves();
    recorder.add({ ...STILL, kind: 'dwell' });
    expect(recorder.finish()).toEqual({ count: 0, start: [0, 0, 0], packed: '' });
    expect(() => recorder.add({ ...STILL, toX: Number.NaN })).toThrow('NaN');
  });

  // -16 is written hB and 16 gB: the examples of the standard's predecessor, "Source Map Revision 3".
  it('use the digits of the standard', () => {
    expect([0, 1, -1, 15, 16, -16, 1000].map(packInteger)).toEqual(['A', 'C', 'D', 'e', 'gB', 'hB', 'w+B']);
  });
});

describe('the page as bytes', () => {
  it('is the same each time and small: under twelve bytes a packed move', () => {
    const html = writePreview(sample);
    expect(writePreview(samplePreview())).toBe(html);
    for (const { moves } of sample.programs) expect(moves.packed.length / moves.count).toBeLessThan(12);
    // What the page weighs without its drawings: a whole job's page is held under 2 MB by another test.
    const drawings = /<script type="application\/json" id="data">.*?<\/script>/s.exec(html)?.[0].length ?? 0;
    expect(drawings).toBeGreaterThan(0);
    expect(html.length - drawings).toBeLessThan(120_000);
  });

  it('is the same when the program around it is bundled and minified', async () => {
    const outfile = join(folder, 'bundle.mjs');
    await build({
      stdin: {
        contents: `export { writePreview } from './src/writers/html/preview.ts';`,
        resolveDir: process.cwd(),
      },
      bundle: true,
      minify: true,
      format: 'esm',
      platform: 'node',
      outfile,
    });
    const bundle = (await import(pathToFileURL(outfile).href)) as { writePreview: typeof writePreview };
    expect(bundle.writePreview(sample)).toBe(writePreview(sample));
  });

  it('names nothing outside itself', () => {
    expect(writePreview(sample)).not.toMatch(/https?:|src=|@import|url\(/);
  });
});

describe('the page to open first', () => {
  const steps = [
    {
      heading: 'Look at every sheet',
      text: 'First this.\n\nThen that.',
      links: [{ href: 'preview.html#a b.nc', label: 'Preview' }],
    },
    { heading: hostile, text: hostile, links: [{ href: `javascript:alert(1)//${hostile}`, label: hostile }] },
  ];
  const picture = drawLayout(sampleLayout(), { ...sampleInstrument, name: hostile });

  it('lists the steps with their files, shows the picture, and runs nothing', async () => {
    const html = writeIndexPage({
      title: hostile,
      text: 'Begin.',
      cautions: ['Mind the bit.'],
      steps,
      picture,
    });
    const { page, requests, complaints } = await openFile(browser, saved('index.html', html));
    expect(await textOf(page, 'h1')).toBe(hostile);
    expect(await page.locator('ol.path > li').count()).toBe(2);
    expect(await page.locator('ol.path > li:first-child p').count()).toBe(2);
    const targets = await page.evaluate(`[...document.querySelectorAll('a')].map((a) => a.href)`);
    expect(targets).toEqual([
      pathToFileURL(join(folder, 'preview.html')).href.concat('#a%20b.nc'),
      expect.stringMatching(/^file:/),
    ]);
    expect(await page.locator('.picture svg path, .picture svg circle').count()).toBeGreaterThan(40);
    expect(await page.evaluate('window.broken')).toBeUndefined();
    expect(requests).toHaveLength(1);
    expect(complaints).toEqual([]);
    await page.close();
  });
});
