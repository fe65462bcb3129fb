import { rmSync } from 'node:fs';
import { join } from 'node:path';
import DxfParser from 'dxf-parser';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readProgram } from '../../src/verify/gcode/readProgram.ts';
import { UNDERSTANDS_EVERYTHING } from '../../src/verify/gcode/understands.ts';
import { launchBrowser, openFile } from '../support/browser.ts';
import { emptyFolder, filesIn, nutline } from '../support/cli.ts';
import { rs274Available, runRs274 } from '../support/rs274.ts';

let folder = '';
let files: Map<string, string>;

beforeAll(() => {
  folder = emptyFolder();
  expect(nutline(['make', '--out', folder]).code).toBe(0);
  files = filesIn(join(folder, 'tarn-parlour'));
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

interface Sheet {
  frets: { n: number; fromScaleZero: number; line: [[number, number], [number, number]] }[];
  markers: { fret: number; at: [number, number]; size: number }[];
  holes: { id: string; at: [number, number]; diameter: number }[];
}

describe('the default job before outside judges', () => {
  const title = 'every program runs in the rs274 interpreter with the same end points as our reader';
  it.skipIf(!rs274Available())(
    rs274Available() ? title : `${title} (SKIPPED: rs274 is not installed)`,
    () => {
      const programs = [...files].filter(([path]) => path.endsWith('.nc'));
      expect(programs).toHaveLength(32);
      for (const [path, text] of programs) {
        // The first motion of a panel's walk round goes to X0 Y0, where both readers begin: none to ours.
        const theirs = runRs274(text)
          .filter((m) => m.kind !== 'dwell')
          .filter((m, i, all) => {
            const before = i === 1 ? all[0] : undefined;
            return (
              before === undefined ||
              m.kind !== 'rapid' ||
              Math.hypot(...m.end.map((v, k) => v - (before.end[k] ?? 0))) > 0
            );
          });
        const ours: [string, number, number, number][] = [];
        const start = {
          units: 'mm',
          distance: 'absolute',
          plane: 'xy',
          feedMode: 'per minute',
          position: [0, 0, 0],
        } as const;
        const read = readProgram(new TextEncoder().encode(text), start, UNDERSTANDS_EVERYTHING, (m) => {
          if (m.kind !== 'dwell') ours.push([m.kind, m.toX, m.toY, m.toZ]);
        });
        expect(read.refusals, path).toEqual([]);
        expect(ours.length, path).toBe(theirs.length);
        // The shortest program drills three holes. A walk round goes to four corners and home; of a panel, whose zero is a corner, it begins and ends at home.
        const round = /(headstock|head-veneer|bridge|bridge-plate)-walk/.test(path) ? 4 : 6;
        expect(ours.length, path).toBeGreaterThan(path.includes('walk-round') ? round : 10);
        ours.forEach(([kind, x, y, z], i) => {
          const their = theirs[i];
          if (their === undefined) throw new Error('no such motion');
          expect(their.kind, `${path} motion ${i}`).toBe(kind);
          const apart = Math.hypot(their.end[0] - x, their.end[1] - y, their.end[2] - z);
          expect(apart, `${path} motion ${i}`).toBeLessThan(0.001);
        });
      }
    },
  );

  it('slots, markers and holes in the drawing, read by dxf-parser, are those of sheet --json within 0.001 mm', () => {
    const sheet = JSON.parse(nutline(['sheet', '--json']).out) as Sheet;
    const dxf = new DxfParser().parseSync(files.get('drawings/fingerboard.dxf') ?? '');
    if (dxf === null) throw new Error('not read');
    const of = (layer: string): typeof dxf.entities => dxf.entities.filter((e) => e.layer === layer);
    const slots = of('FRET_SLOTS') as unknown as { vertices: { x: number; y: number }[] }[];
    expect(slots).toHaveLength(sheet.frets.length);
    sheet.frets.forEach((fret, i) => {
      fret.line.forEach(([x, y], k) => {
        const found = slots[i]?.vertices[k];
        expect(Math.hypot((found?.x ?? Number.NaN) - x, (found?.y ?? Number.NaN) - y)).toBeLessThan(0.001);
      });
    });
    const circles = dxf.entities.filter((e) => e.type === 'CIRCLE') as unknown as {
      center: { x: number; y: number };
      radius: number;
    }[];
    const places = [
      ...sheet.markers.map((m) => m.at),
      ...sheet.holes.filter((h) => h.id.startsWith('index-pin')).map((h) => h.at),
    ];
    expect(places.length).toBeGreaterThanOrEqual(10);
    for (const [x, y] of places) {
      const nearest = Math.min(...circles.map((c) => Math.hypot(c.center.x - x, c.center.y - y)));
      expect(nearest).toBeLessThan(0.001);
    }
    expect(circles).toHaveLength(places.length);
  });

  it('the preview draws every program in a real browser, asks for nothing and complains of nothing', async () => {
    const browser = await launchBrowser();
    try {
      const path = join(folder, 'tarn-parlour/preview.html');
      const { page, requests, complaints } = await openFile(browser, path);
      const links = page.locator(
        'nav[aria-label="Programs in cutting order"] a, nav[aria-label="Programs in cutting order"] button',
      );
      expect(await links.count()).toBe(32);
      const seen = new Set<string>();
      for (let i = 0; i < 32; i += 1) {
        await links.nth(i).click();
        // Drawing waits for the browser's next frame.
        await page.waitForTimeout(100);
        const drawn = await page.evaluate(() => {
          const canvas = (
            globalThis as unknown as {
              document: { querySelector(s: string): { toDataURL(): string } | null };
            }
          ).document.querySelector('canvas');
          return canvas === null ? '' : canvas.toDataURL();
        });
        expect(drawn.length).toBeGreaterThan(5000);
        seen.add(drawn);
      }
      expect(seen.size).toBe(32);
      expect(complaints).toEqual([]);
      expect(requests).toHaveLength(1);
    } finally {
      await browser.close();
    }
  });
});
