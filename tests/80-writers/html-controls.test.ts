/** Every control of the preview page in the bundled browser, by mouse, by keys and by fingers, on the default job's own programs. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { writePreview } from '../../src/writers/html/preview.ts';
import { launchBrowser, openFile, type Watched } from '../support/browser.ts';
import { previewOf } from '../support/previewPrograms.ts';
import { sampleCut, samplePreview } from '../support/previewSamples.ts';

const folder = mkdtempSync(join(tmpdir(), 'controls-'));
const job = previewOf();
const SLOTS = job.programs.findIndex((p) => p.path === 'fingerboard-slots.nc');
const slots = job.programs[SLOTS];
if (slots === undefined) throw new Error('no slots');
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

async function settle(page: Page): Promise<void> {
  await page.evaluate('new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))');
}

async function openSlots(options = {}): Promise<Watched> {
  const opened = await openFile(browser, path, options);
  await opened.page.click(`[data-program="${SLOTS}"]`);
  await settle(opened.page);
  return opened;
}

const textOf = async (page: Page, selector: string): Promise<string> =>
  (await page.textContent(selector)) ?? '';
const fieldOf = (page: Page, id: string): Promise<string> => page.inputValue(`#${id}`);
const lineOf = async (page: Page): Promise<number[]> =>
  (await Promise.all(['from-x', 'from-y', 'to-x', 'to-y'].map((id) => fieldOf(page, id)))).map(Number);

/** Pixels of the screen at which a place of the plan lies while the whole of it is shown: 60 beside, 76 above, 96 below the stock. */
async function onScreen(page: Page, x: number, y: number): Promise<readonly [number, number]> {
  await page.locator('#plan').scrollIntoViewIfNeeded();
  const box = await page.locator('#plan').boundingBox();
  if (box === null || slots === undefined) throw new Error('no plan');
  const { x: sx, y: sy } = slots.stock;
  const scale = Math.min((box.width - 120) / (sx[1] - sx[0]), (box.height - 172) / (sy[1] - sy[0]));
  return [
    box.x + box.width / 2 + (x - (sx[0] + sx[1]) / 2) * scale,
    box.y + box.height / 2 - 10 - (y - (sy[0] + sy[1]) / 2) * scale,
  ];
}

async function drag(
  page: Page,
  from: readonly [number, number],
  to: readonly [number, number],
): Promise<void> {
  await page.mouse.move(...from);
  await page.mouse.down();
  await page.mouse.move(...to, { steps: 5 });
  await page.mouse.up();
  await settle(page);
}

type Touch = 'touchStart' | 'touchMove' | 'touchEnd';
type Fingers = (type: Touch, points: readonly (readonly [number, number])[]) => Promise<void>;

/** Fingers on a page, each known by its place in the list; one session, or the browser forgets them between events. */
async function fingersOn(page: Page): Promise<Fingers> {
  const session = await page.context().newCDPSession(page);
  return async (type, points) => {
    await session.send('Input.dispatchTouchEvent', {
      type,
      touchPoints: points.map(([x, y], id) => ({ x, y, id })),
    });
  };
}

/** How many millimetres of the plan 100 pixels are, from the step that Shift and an arrow make. */
async function scaleOf(page: Page): Promise<number> {
  const before = await lineOf(page);
  await page.focus('#plan');
  await page.keyboard.press('Shift+ArrowUp');
  const after = await lineOf(page);
  await page.keyboard.press('Shift+ArrowDown');
  return ((after[1] ?? 0) - (before[1] ?? 0)) * 10;
}

describe('the section', () => {
  it('is laid by the mouse, by its ends and as a whole, and says the errors along it', async () => {
    const { page, complaints } = await openSlots();
    await page.check('input[name=pointer][value=section]');
    await drag(page, await onScreen(page, 100, -20), await onScreen(page, 130, 20));
    const laid = await lineOf(page);
    [100, -20, 130, 20].forEach((place, i) => {
      expect(laid[i]).toBeCloseTo(place, -0.3);
    });
    expect(await textOf(page, '#found-over')).toMatch(/^0\.00[0-9]* mm$/);
    await page.check('input[name=pointer][value=look]');
    await drag(page, await onScreen(page, 130, 20), await onScreen(page, 200, -10));
    expect((await lineOf(page))[2]).toBeCloseTo(200, -0.3);
    expect((await lineOf(page)).slice(0, 2)).toEqual(laid.slice(0, 2));
    await page.check('input[name=pointer][value=section]');
    await drag(page, await onScreen(page, 150, -15), await onScreen(page, 160, -15));
    const moved = await lineOf(page);
    expect((moved[0] ?? 0) - (laid[0] ?? 0)).toBeCloseTo(10, -0.3);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('is laid by numbers in either unit, by keys and by buttons', async () => {
    const { page } = await openSlots();
    const first = slots?.cuts[0]?.rings[0] ?? [];
    const middle = first.reduce((sum, v) => sum + v[0], 0) / first.length;
    for (const [id, value] of [
      ['from-x', middle],
      ['from-y', -40],
      ['to-x', middle],
      ['to-y', 40],
    ] as const) {
      await page.fill(`#${id}`, String(value));
      await page.locator(`#${id}`).blur();
    }
    await settle(page);
    // Along a slot: no wall but its ends, and the floor on the radius, at most 0.03 mm too deep.
    expect(Number.parseFloat(await textOf(page, '#found-deep'))).toBeGreaterThan(0.005);
    expect(Number.parseFloat(await textOf(page, '#found-deep'))).toBeLessThan(0.03);
    await page.fill('#to-x', 'nowhere');
    await page.locator('#to-x').blur();
    expect(await page.getAttribute('#to-x', 'aria-invalid')).toBe('true');
    await page.check('input[name=unit][value=in]');
    expect(Number(await fieldOf(page, 'from-y'))).toBeCloseTo(-40 / 25.4, 3);
    await page.check('input[name=unit][value=mm]');
    await page.focus('#plan');
    const before = await lineOf(page);
    await page.keyboard.press('Shift+ArrowRight');
    expect((await lineOf(page))[0]).toBeGreaterThan(before[0] ?? 0);
    await page.click('#crossways');
    const across = await lineOf(page);
    expect(across[0]).toBe(across[2]);
    await page.click('#lengthways');
    const along = await lineOf(page);
    expect(along[1]).toBe(along[3]);
    await page.close();
  });

  it('is read along its length by slider and by click, and zooms by wheel, keys and buttons', async () => {
    const { page } = await openSlots();
    await page.focus('#reading');
    await page.keyboard.press('Home');
    await settle(page);
    expect(await textOf(page, '#read-off')).toContain('beside the stock');
    const box = await page.locator('#section').boundingBox();
    if (box === null) throw new Error('no section');
    await page.locator('#section').click({ position: { x: box.width / 2, y: 100 } });
    await settle(page);
    expect(await textOf(page, '#read-off')).toMatch(/stock 0\.000, meant -?\d\.\d{3}, left -?\d\.\d{3}/);
    const digest = (): Promise<string> =>
      page.evaluate(`document.getElementById('section').toDataURL().slice(-4000)`);
    await settle(page);
    const whole = await digest();
    const seen = new Set([whole]);
    const shownNow = async (): Promise<void> => {
      await settle(page);
      seen.add(await digest());
    };
    await page.focus('#section');
    for (const key of ['+', 'ArrowLeft', 'ArrowUp', 'ArrowDown', 'ArrowRight', '-']) {
      await page.keyboard.press(key);
      await shownNow();
    }
    await page.mouse.wheel(0, -300);
    await shownNow();
    await page.click('#s-nearer');
    await shownNow();
    await page.click('#s-farther');
    await page.check('#alike');
    await shownNow();
    expect(seen.size).toBeGreaterThan(6);
    await page.uncheck('#alike');
    await page.click('#s-whole');
    await settle(page);
    expect(await digest()).toBe(whole);
    await page.close();
  });
});

describe('a feature', () => {
  it('is chosen by a click and by name, and tells its numbers and the lines that cut it', async () => {
    const { page, complaints } = await openSlots();
    const cut = slots?.cuts[4];
    const ring = cut?.rings[0] ?? [];
    const x = ring.reduce((sum, v) => sum + v[0], 0) / ring.length;
    await page.mouse.click(...(await onScreen(page, x, 8)));
    expect(await page.locator('#feature option:checked').textContent()).toBe(cut?.id);
    expect(await textOf(page, '#feature-facts')).toContain('from the nut line');
    expect(await textOf(page, '#feature-facts')).toContain('wall overcut');
    const run = cut?.runs[0] ?? [0, 0];
    await page.click('#feature-lines button');
    const text = slots?.text.split('\n')[run[0] - 1];
    expect(await textOf(page, '#written [aria-current]')).toBe(text);
    expect(await textOf(page, '#place-cut')).toBe(cut?.id);
    await page.selectOption('#feature', { label: slots?.cuts[0]?.id ?? '' });
    expect(await textOf(page, '#feature-facts')).toContain('cleared down to a floor');
    await page.click('#feature-zoom');
    await page.click('#feature-section');
    const [ax, , bx] = await lineOf(page);
    expect((bx ?? 0) - (ax ?? 0)).toBeLessThan(4);
    await page.focus('#plan');
    await page.keyboard.press('Escape');
    expect(await page.locator('#feature option:checked').textContent()).toBe('none');
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('is marked where the proof found its largest errors', async () => {
    const { page } = await openSlots();
    const row = page.locator('#worst tr', { hasText: 'wall undercut' }).first();
    const id = await row.locator('td').first().textContent();
    await row.locator('button').click();
    expect(await page.locator('#feature option:checked').textContent()).toBe(id);
    const figure = slots?.cuts.find((c) => c.id === id)?.figures.find((f) => f.name === 'wall undercut');
    const [ax = 0, ay = 0, bx = 0, by = 0] = await lineOf(page);
    expect((ax + bx) / 2).toBeCloseTo(figure?.place?.[0] ?? 0, 2);
    expect((ay + by) / 2).toBeCloseTo(figure?.place?.[1] ?? 0, 2);
    await settle(page);
    expect(Number.parseFloat(await textOf(page, '#found-under'))).toBeCloseTo(figure?.value ?? 0, 2);
    await page.close();
  });

  it('is reached from the program: a line that is clicked or stepped to shows its move', async () => {
    const { page } = await openSlots();
    await page.focus('#written');
    for (let i = 0; i < 12; i += 1) await page.keyboard.press('ArrowDown');
    const down = await textOf(page, '#place-move');
    expect(Number.parseInt(down, 10)).toBeGreaterThan(5);
    expect(await page.getAttribute('#written', 'aria-activedescendant')).toBe(
      await page.locator('#written [aria-selected=true]').getAttribute('id'),
    );
    await page.keyboard.press('ArrowUp');
    expect(await textOf(page, '#place-move')).not.toBe(down);
    await page.keyboard.press('End');
    expect(await textOf(page, '#place-time')).toMatch(/^about 38\.\d of 38\.\d min$/);
    await page.close();
  });
});

describe('measuring', () => {
  it('catches corners and middles, by mouse', async () => {
    const { page } = await openSlots();
    await page.check('input[name=pointer][value=measure]');
    const xs = [0, 5].map((k) => {
      const ring = slots?.cuts[k]?.rings[0] ?? [];
      return ring.reduce((sum, v) => sum + v[0], 0) / ring.length;
    });
    for (const x of xs) await page.mouse.click(...(await onScreen(page, x, 0.5)));
    const words = await textOf(page, '#measured');
    expect(words).toContain(`the middle of ${slots?.cuts[0]?.id} to the middle of ${slots?.cuts[5]?.id}`);
    expect(Number(/: ([\d.]+) mm straight/.exec(words)?.[1])).toBeCloseTo((xs[1] ?? 0) - (xs[0] ?? 0), 2);
    await page.click('#measure-clear');
    expect(await textOf(page, '#measured')).toContain('click two places');
    await page.close();
  });

  it('goes from one feature to another by name, from edge to edge too, in both units', async () => {
    const { page } = await openSlots();
    await page.selectOption('#measure-from', { label: slots?.cuts[0]?.id ?? '' });
    await page.selectOption('#measure-to', { label: slots?.cuts[1]?.id ?? '' });
    const words = await textOf(page, '#measured');
    const straight = Number(/: ([\d.]+) mm straight/.exec(words)?.[1]);
    const edges = Number(/, ([\d.]+) mm from edge to edge/.exec(words)?.[1]);
    expect(straight - edges).toBeCloseTo(0.6, 2);
    await page.check('input[name=unit][value=in]');
    expect(Number(/: ([\d.]+) in straight/.exec(await textOf(page, '#measured'))?.[1])).toBeCloseTo(
      straight / 25.4,
      3,
    );
    await page.selectOption('#measure-from', 'zero');
    expect(await textOf(page, '#measured')).toContain('From the zero that places are told from');
    await page.close();
  });
});

describe('fingers', () => {
  it('zoom with two, move with one, and pick with a tap', async () => {
    const { page, complaints } = await openSlots({ hasTouch: true });
    const fingers = await fingersOn(page);
    const wide = await scaleOf(page);
    const [cx, cy] = await onScreen(page, 200, 10);
    await fingers('touchStart', [
      [cx - 30, cy],
      [cx + 30, cy],
    ]);
    for (const gap of [40, 60, 90])
      await fingers('touchMove', [
        [cx - gap, cy],
        [cx + gap, cy],
      ]);
    await fingers('touchEnd', []);
    await settle(page);
    expect(wide / (await scaleOf(page))).toBeCloseTo(3, 0);
    await page.click('#whole');
    await settle(page);
    const before = await page.evaluate(`document.getElementById('plan').toDataURL().length`);
    await fingers('touchStart', [[cx, cy]]);
    await fingers('touchMove', [[cx + 60, cy + 20]]);
    await fingers('touchEnd', []);
    await settle(page);
    expect(await page.evaluate(`document.getElementById('plan').toDataURL().length`)).not.toBe(before);
    await page.click('#whole');
    const ring = slots?.cuts[3]?.rings[0] ?? [];
    const x = ring.reduce((sum, v) => sum + v[0], 0) / ring.length;
    await page.touchscreen.tap(...(await onScreen(page, x, 8)));
    expect(await page.locator('#feature option:checked').textContent()).toBe(slots?.cuts[3]?.id);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('lay a section', async () => {
    const { page } = await openSlots({ hasTouch: true });
    await page.check('input[name=pointer][value=section]');
    const fingers = await fingersOn(page);
    const [from, to] = [await onScreen(page, 150, -20), await onScreen(page, 190, 20)];
    await fingers('touchStart', [from]);
    await fingers('touchMove', [[from[0] + 20, from[1] - 5]]);
    await fingers('touchMove', [to]);
    await fingers('touchEnd', []);
    await settle(page);
    const line = await lineOf(page);
    expect(line[0]).toBeCloseTo(150, -0.3);
    expect(line[2]).toBeCloseTo(190, -0.3);
    await page.close();
  });
});

describe('the time line', () => {
  it('goes by time: halfway along is half the minutes, and the arrows go by moves', async () => {
    const { page } = await openSlots();
    await page.locator('#step').fill('5000');
    const [, done = '', whole = ''] =
      /about ([\d.]+) of ([\d.]+) min/.exec(await textOf(page, '#place-time')) ?? [];
    expect(Number(done) / Number(whole)).toBeCloseTo(0.5, 1);
    const before = Number.parseInt(await textOf(page, '#place-move'), 10);
    await page.focus('#step');
    await page.keyboard.press('ArrowRight');
    expect(Number.parseInt(await textOf(page, '#place-move'), 10)).toBe(before + 1);
    await page.close();
  });
});

describe('for everybody', () => {
  const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
  interface Fault {
    readonly id: string;
    readonly impact: string;
    readonly nodes: readonly { readonly html: string }[];
  }

  // Rules of axe-core 4 (general-purpose accessibility checker; WCAG 2.1 A and AA among them).
  it.each(['light', 'dark'] as const)('axe-core finds no serious fault, %s', async (colorScheme) => {
    const { page } = await openSlots({ colorScheme });
    await page.selectOption('#feature', '2');
    await page.evaluate(axe);
    const { violations, passes } = (await page.evaluate('axe.run(document)')) as {
      violations: Fault[];
      passes: unknown[];
    };
    expect(passes.length).toBeGreaterThan(20);
    expect(violations.map((v) => `${v.id} (${v.impact}): ${v.nodes.map((n) => n.html).join(' ')}`)).toEqual(
      [],
    );
    await page.close();
  });

  it('shows hostile names of features as text, and figures that are no numbers', async () => {
    const hostile = '</script><img src=x onerror="window.broken = 1">\u2028<!--';
    const sample = samplePreview();
    const [first] = sample.programs;
    if (first === undefined) throw new Error('no program');
    const ring = first.cuts[0]?.rings[0] ?? [];
    const cut = sampleCut(hostile, ring, -2, {
      figures: [
        { name: hostile, passed: false, value: Number.NaN, limit: 0.01, place: [10, 10, 0], line: 4 },
      ],
    });
    const page1 = join(folder, 'hostile.html');
    writeFileSync(
      page1,
      writePreview({ ...sample, programs: [{ ...first, cuts: [cut], cautions: [hostile] }] }),
    );
    const { page, complaints, requests } = await openFile(browser, page1);
    await page.selectOption('#feature', '0');
    expect(await textOf(page, '#feature-facts')).toContain('not a number');
    expect(await textOf(page, '#worst')).toContain(hostile);
    expect(await textOf(page, '#program-cautions')).toBe(hostile);
    expect(await page.evaluate('window.broken')).toBeUndefined();
    expect(await page.locator('img').count()).toBe(0);
    expect(requests).toHaveLength(1);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('is under 2 MB for the default job', () => {
    expect(Buffer.byteLength(writePreview(job))).toBeLessThan(2_000_000);
  });
});
