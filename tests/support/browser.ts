import { spawnSync } from 'node:child_process';
import { pathToFileURL } from 'node:url';
import { type Browser, chromium as engine, type Page } from 'playwright-core';

/** What a page asked for and complained of since it was opened. */
export interface Watched {
  readonly page: Page;
  readonly requests: string[];
  readonly complaints: string[];
}

/**
 * The package brings the few libraries a bare Linux lacks, but unpacks them only where it takes the machine for a
 * cloud function; so it is told that it runs in one where the system has no network security services (NSS).
 */
async function loadChromium(): Promise<typeof import('@sparticuz/chromium').default> {
  const libraries = spawnSync('/sbin/ldconfig', ['-p'], { encoding: 'utf8' }).stdout ?? '';
  if (!libraries.includes('libnss3.so')) process.env.AWS_EXECUTION_ENV ??= 'AWS_Lambda_nodejs20.x';
  return (await import('@sparticuz/chromium')).default;
}

/** Starts the bundled browser, without a window and without a sandbox (tests may run as root). */
export async function launchBrowser(): Promise<Browser> {
  const chromium = await loadChromium();
  // In a single process the first page to close would take the browser with it.
  const args = chromium.args.filter((arg) => arg !== '--single-process');
  return engine.launch({
    executablePath: await chromium.executablePath(),
    // Drawn by the processor, a canvas gives the same pixels every time.
    args: [...args, '--no-sandbox', '--disable-accelerated-2d-canvas'],
    headless: true,
  });
}

/** Opens a file as a reader would, from disk, and notes every request, console message and error. */
export async function openFile(
  browser: Browser,
  path: string,
  options: Parameters<Browser['newPage']>[0] = {},
): Promise<Watched> {
  const page = await browser.newPage({ viewport: { width: 1400, height: 1000 }, ...options });
  const requests: string[] = [];
  const complaints: string[] = [];
  page.on('request', (request) => requests.push(request.url()));
  page.on('console', (message) => complaints.push(`${message.type()}: ${message.text()}`));
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(pathToFileURL(path).href);
  return { page, requests, complaints };
}
