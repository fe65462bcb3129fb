// The preview page in the bundled browser: the first drawing, as a ratio to a bare page, and frames a second while the time
// line is dragged; for the default job and for a program of a million moves.
import { spawnSync } from 'node:child_process';
import { readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { load, root } from './bundle.mjs';
import { median, repeat, round, runNode } from './measure.mjs';

const RUNS = 3;
const MOVES = 1_000_000;
const ROWS = 1000;
/** Places of the time line that one measurement runs through. */
const FRAMES = 30;
const BARE = '<!doctype html><html lang="en"><title>bare</title><canvas></canvas></html>';

export async function measurePreview(folder) {
  const pages = {
    'bare page': save(folder, 'bare.html', BARE),
    'default job': defaultPage(folder),
    [`${MOVES} moves`]: await longPage(folder),
  };
  const browser = await launch();
  try {
    const rows = [];
    for (const [name, path] of Object.entries(pages)) rows.push(await rowOf(browser, name, path));
    const bare = rows[0].firstDrawingMs;
    return {
      title: `median of ${RUNS} openings from disk; ${FRAMES} places of the time line`,
      notes: ['First drawing: from the start of loading to the frame after everything is drawn.'],
      rows: rows.map((row) => ({ ...row, timesBarePage: round(row.firstDrawingMs / bare, 1) })),
    };
  } finally {
    await browser.close();
  }
}

function save(folder, name, text) {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

function defaultPage(folder) {
  const out = join(folder, 'for-preview');
  const { status } = runNode([join(root, 'dist/main.js'), 'make', '--out', out]);
  if (status !== 0) throw new Error(`the default job ended with ${status}`);
  return join(out, readdirSync(out)[0], 'preview.html');
}

/** Text of a program that works a dome over a board with a ball, to and fro in rows of short lines. */
function domeProgram() {
  const lines = ['G21 G17 G90 G94', 'G0 Z5', 'M3 S18000', 'G0 X-160 Y-160'];
  for (let row = 0; row < ROWS; row += 1) {
    const y = -160 + (320 * row) / (ROWS - 1);
    for (let k = 0; k < MOVES / ROWS; k += 1) {
      const along = -160 + (320 * k) / (MOVES / ROWS - 1);
      const x = row % 2 === 0 ? along : -along;
      const z = -0.5 - (x * x + y * y) / 2 / 8000;
      lines.push(`G1 X${x.toFixed(3)} Y${y.toFixed(3)} Z${z.toFixed(4)}${k + row === 0 ? ' F900' : ''}`);
    }
  }
  lines.push('G0 Z5', 'M5', 'M2');
  return `${lines.join('\n')}\n`;
}

/** A page with that one program, as the tool would write it. */
async function longPage(folder) {
  const { pageOf } = await load(
    folder,
    'pageOf.mjs',
    `import { readProgram } from './src/verify/gcode/readProgram.ts';
     import { writePreview } from './src/writers/html/preview.ts';
     import { recordMoves } from './src/writers/html/recordMoves.ts';
     const START = { units: 'mm', distance: 'absolute', plane: 'xy', feedMode: 'per minute', position: [0, 0, 5] };
     const UNDERSTANDS = { arcPlanes: ['xy', 'xz', 'yz'], drillCycles: false, exactPath: true, toolChange: false };
     export function pageOf(bytes) {
       const recorder = recordMoves();
       readProgram(bytes, START, UNDERSTANDS, (motion) => recorder.add(motion));
       const side = [-170, 170];
       const board = [[-160, -160], [160, -160], [160, 160], [-160, 160]];
       return writePreview({ title: 'A long program', text: '', cautions: [], programs: [{
         path: 'long.nc', part: 'board', operation: 'a long program', machine: 'router', tool: '6 mm ball', cutWidth: 6, cutBy: 'cutter',
         end: { kind: 'ball', least: 3, usual: 3, most: 3, tipAngle: null }, deepest: 3, figures: [], cautions: [],
         cuts: [{ id: 'board', kind: 'surface', rings: [board], line: null, floor: { kind: 'plane', z: -4 }, through: false,
           allowed: [], left: [], tabs: [], wayIn: 0, figures: [], runs: [[1, ${MOVES}]] }],
         datum: { at: [0, 0], words: ['along x', 'along y'] }, workZero: 'middle', minutes: 600,
         proof: { passed: true, maxOvercut: 0, maxUndercut: 0, tolerance: 0.01 },
         stock: { x: side, y: side, z: [-6, 0], rings: [[[-170, -170], [170, -170], [170, 170], [-170, 170]]], top: { kind: 'plane', z: 0 } },
         moves: recorder.finish(), outlines: [], centrelineY: null, text: new TextDecoder().decode(bytes) }] });
     }`,
  );
  return save(folder, 'long.html', pageOf(new TextEncoder().encode(domeProgram())));
}

async function launch() {
  const { chromium: engine } = await import('playwright-core');
  const libraries = spawnSync('/sbin/ldconfig', ['-p'], { encoding: 'utf8' }).stdout ?? '';
  // The package unpacks the libraries a bare Linux lacks only where it takes the machine for a cloud function.
  if (!libraries.includes('libnss3.so')) process.env.AWS_EXECUTION_ENV ??= 'AWS_Lambda_nodejs20.x';
  const { default: chromium } = await import('@sparticuz/chromium');
  return engine.launch({
    executablePath: await chromium.executablePath(),
    // Without a graphics card an accelerated canvas is only imitated, and slower than one that the processor draws.
    args: [
      ...chromium.args.filter((arg) => arg !== '--single-process'),
      '--no-sandbox',
      '--disable-accelerated-2d-canvas',
    ],
    headless: true,
  });
}

async function rowOf(browser, name, path) {
  const first = [];
  for (let i = 0; i < RUNS; i += 1) first.push(await firstDrawing(browser, path));
  const frames = name === 'bare page' ? null : await scrubbed(browser, path);
  return {
    page: name,
    kilobytes: Math.round(statSync(path).size / 1000),
    firstDrawingMs: Math.round(median(first)),
    framesASecond: frames,
  };
}

const TWO_FRAMES =
  'new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now()))))';

async function firstDrawing(browser, path) {
  const page = await browser.newPage({ viewport: { width: 1400, height: 1000 } });
  await page.goto(pathToFileURL(path).href);
  const ms = await page.evaluate(TWO_FRAMES);
  await page.close();
  return ms;
}

/** Frames a second while the time line is dragged to and fro through the whole program; the median of several runs. */
async function scrubbed(browser, path) {
  const page = await browser.newPage({ viewport: { width: 1400, height: 1000 } });
  await page.goto(pathToFileURL(path).href);
  // The program with the most moves of the page.
  await page.evaluate(`(() => {
    const { programs } = JSON.parse(document.getElementById('data').textContent);
    const most = programs.reduce((best, p, i) => (p.moves.count > programs[best].moves.count ? i : best), 0);
    document.querySelector('[data-program="' + most + '"]').click();
  })()`);
  await page.evaluate(TWO_FRAMES);
  const rates = [];
  for (const _ of repeat(3, () => 0)) {
    rates.push(
      await page.evaluate(`new Promise((done) => {
      const slider = document.getElementById('step');
      const start = performance.now();
      let k = 0;
      requestAnimationFrame(function next() {
        if (k === ${FRAMES}) return done((1000 * ${FRAMES}) / (performance.now() - start));
        slider.value = String(5000 + Math.round(4900 * Math.sin(k / 7)));
        slider.dispatchEvent(new Event('input'));
        k += 1;
        requestAnimationFrame(next);
      });
    })`),
    );
  }
  await page.close();
  return round(median(rates), 0);
}
