// Makes docs/*.png from the bundled instrument with the bundled browser: what a reader of the README sees first. Pictures
// are kept small: grey and few colours are all that these pages have.
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium as engine } from 'playwright-core';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const docs = join(root, 'docs');
/** Bytes. */
const MOST = 200_000;
const VIEW = { width: 1280, height: 900 };

function nutline(...words) {
  const { status, stderr } = spawnSync(process.execPath, [join(root, 'dist/main.js'), ...words], {
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(`nutline ${words.join(' ')} ended with ${status}: ${stderr}`);
}

async function launch() {
  const libraries = spawnSync('/sbin/ldconfig', ['-p'], { encoding: 'utf8' }).stdout ?? '';
  // The package unpacks the libraries a bare Linux lacks only where it takes the machine for a cloud function.
  if (!libraries.includes('libnss3.so')) process.env.AWS_EXECUTION_ENV ??= 'AWS_Lambda_nodejs20.x';
  const { default: chromium } = await import('@sparticuz/chromium');
  return engine.launch({
    executablePath: await chromium.executablePath(),
    args: [...chromium.args.filter((arg) => arg !== '--single-process'), '--no-sandbox'],
    headless: true,
  });
}

/** Slots, seen from above and cut crossways through two of them. */
async function showSection(page) {
  await page.locator('[data-program]', { hasText: 'fret slots' }).first().click();
  for (const [id, value] of [
    ['from-x', '30'],
    ['from-y', '0'],
    ['to-x', '120'],
    ['to-y', '0'],
  ]) {
    await page.fill(`#${id}`, value);
    await page.locator(`#${id}`).blur();
  }
  await page.evaluate(
    "document.getElementById('step').value = '6000'; document.getElementById('step').dispatchEvent(new Event('input'))",
  );
  await page.evaluate("document.querySelector('.work').scrollIntoView()");
}

const PAGES = [
  { name: 'preview-light', file: 'preview.html', colorScheme: 'light', act: showSection },
  { name: 'preview-dark', file: 'preview.html', colorScheme: 'dark', act: showSection },
  { name: 'start-page', file: 'index.html', colorScheme: 'light', height: 680 },
  { name: 'bench-sheets', file: 'bench-sheets.html', colorScheme: 'light' },
  { name: 'order-of-work', file: 'order-of-work.html', colorScheme: 'light' },
];

async function shoot(browser, folder, { name, file, colorScheme, act, height = VIEW.height }) {
  const page = await browser.newPage({ viewport: { ...VIEW, height }, colorScheme });
  await page.goto(pathToFileURL(join(folder, file)).href);
  await act?.(page);
  // Two frames: one that draws, one that shows it.
  await page.evaluate('new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))');
  await page.waitForTimeout(300);
  await page.screenshot({ path: join(docs, `${name}.png`) });
  await page.close();
}

/** The first sheet of the head's template, through poppler where there is one: else the same drawing in one piece. */
async function shootTemplate(browser, folder) {
  const page = await browser.newPage({ viewport: VIEW, colorScheme: 'light' });
  const target = join(docs, 'template.png');
  const made = spawnSync('pdftoppm', [
    '-png',
    '-r',
    '72',
    '-gray',
    '-f',
    '1',
    '-l',
    '1',
    '-singlefile',
    join(folder, 'headstock.pdf'),
    target.replace(/\.png$/, ''),
  ]);
  if (made.status !== 0) {
    await page.goto(pathToFileURL(join(folder, 'headstock.svg')).href);
    await page.screenshot({ path: target });
  }
  await page.close();
}

const work = mkdtempSync(join(tmpdir(), 'nutline-docs-'));
const browser = await launch();
try {
  mkdirSync(docs, { recursive: true });
  nutline('make', '--out', work);
  // On A3 the head is one sheet, so that no cross for joining lies over its notes.
  nutline('templates', '--out', work, '--paper', 'a3');
  const [job, templates] = readdirSync(work).sort();
  for (const page of PAGES) await shoot(browser, join(work, job), page);
  await shootTemplate(browser, join(work, templates));
  for (const name of readdirSync(docs).filter((file) => file.endsWith('.png'))) {
    const { size } = statSync(join(docs, name));
    process.stdout.write(`docs/${name}  ${Math.round(size / 1000)} kB\n`);
    if (size > MOST) throw new Error(`docs/${name} is larger than ${MOST / 1000} kB`);
  }
} finally {
  await browser.close();
  rmSync(work, { recursive: true, force: true });
}
