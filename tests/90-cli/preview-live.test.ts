/** The page that follows its files, through real HTTP and in the bundled browser, on a bundled instrument. */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { copyFileSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { get, request } from 'node:http';
import { connect } from 'node:net';
import { networkInterfaces } from 'node:os';
import { join, relative } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { design } from '../../src/app/design.ts';
import { readSources } from '../../src/cli/sources.ts';
import { launchBrowser } from '../support/browser.ts';
import { emptyFolder, nutline, ROOT } from '../support/cli.ts';

/** A drawing takes a second or two; two cores may be shared by many. */
const PATIENCE = 60_000;
const folder = emptyFolder();
const profile = join(folder, 'mine.yaml');
/** What the shop file is put together from. */
const INCLUDED = ['benchtop-router.yaml', 'sheet-laser.yaml', 'hand-tools.yaml'];
const good = readFileSync(join(ROOT, 'profiles/sedge-ukulele.yaml'), 'utf8');

interface Running {
  readonly child: ChildProcess;
  readonly port: number;
  readonly said: () => string;
}

const running: ChildProcess[] = [];

/** Starts the bundled command and waits for the address it says. */
async function startLive(words: readonly string[] = []): Promise<Running> {
  const child = spawn(
    process.execPath,
    [join(ROOT, 'dist/main.js'), 'preview', profile, '--live', ...words],
    {
      cwd: folder,
    },
  );
  running.push(child);
  let said = '';
  const port = await new Promise<number>((done, failed) => {
    child.stderr.on('data', (bytes) => {
      said += String(bytes);
    });
    child.stdout.on('data', (bytes) => {
      said += String(bytes);
      const found = /http:\/\/127\.0\.0\.1:(\d+)\//.exec(said);
      if (found !== null) done(Number(found[1]));
    });
    child.once('exit', (code) => failed(new Error(`ended with ${code}: ${said}`)));
  });
  return { child, port, said: () => said };
}

interface Answer {
  readonly status: number | undefined;
  readonly type: string | undefined;
  readonly text: string;
}

function ask(port: number, path: string, host = `127.0.0.1:${port}`, method = 'GET'): Promise<Answer> {
  return new Promise((done, failed) => {
    const asked = request({ port, path, method, headers: { host } }, (response) => {
      let text = '';
      response.setEncoding('utf8');
      response.on('data', (more: string) => {
        text += more;
      });
      response.on('end', () =>
        done({ status: response.statusCode, type: response.headers['content-type'], text }),
      );
    });
    asked.once('error', failed);
    asked.end();
  });
}

let browser: Browser;
let live: Running;

beforeAll(async () => {
  writeFileSync(profile, good);
  copyFileSync(join(ROOT, 'profiles/home-shop.yaml'), join(folder, 'shop.yaml'));
  for (const part of INCLUDED) copyFileSync(join(ROOT, 'profiles', part), join(folder, part));
  [browser, live] = await Promise.all([launchBrowser(), startLive()]);
}, PATIENCE);

afterAll(async () => {
  for (const child of running) if (child.exitCode === null) child.kill('SIGKILL');
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
});

interface Opened {
  readonly page: Page;
  readonly requests: string[];
  readonly complaints: string[];
}

async function open(port: number): Promise<Opened> {
  const page = await browser.newPage({ viewport: { width: 1400, height: 1000 } });
  const requests: string[] = [];
  const complaints: string[] = [];
  page.on('request', (r) => requests.push(r.url()));
  page.on('console', (m) => complaints.push(`${m.type()}: ${m.text()}`));
  page.on('pageerror', (e) => complaints.push(e.message));
  await page.goto(`http://127.0.0.1:${port}/`);
  return { page, requests, complaints };
}

describe('nutline preview --live, asked by HTTP', () => {
  it('gives the page and its news, and nothing else', async () => {
    const page = await ask(live.port, '/');
    expect([page.status, page.type]).toEqual([200, 'text/html; charset=utf-8']);
    expect(page.text).toContain('id="news"');
    expect((await ask(live.port, '/', `localhost:${live.port}`)).status).toBe(200);
    expect((await ask(live.port, '/mine.yaml')).status).toBe(404);
    expect((await ask(live.port, '/../mine.yaml')).status).toBe(404);
    expect((await ask(live.port, '/', undefined, 'POST')).status).toBe(405);
    const head = await ask(live.port, '/', undefined, 'HEAD');
    expect([head.status, head.text]).toEqual([200, '']);
  });

  it('refuses whoever names another host, so that no page elsewhere can read it', async () => {
    for (const host of [
      'elsewhere.example',
      `elsewhere.example:${live.port}`,
      '127.0.0.1',
      `10.0.0.1:${live.port}`,
    ]) {
      for (const path of ['/', '/news']) {
        const { status, text } = await ask(live.port, path, host);
        expect([host, status]).toEqual([host, 421]);
        expect(text).not.toContain('Sedge');
      }
    }
    const socket = connect(live.port, '127.0.0.1', () => socket.end('GET / HTTP/1.0\r\n\r\n'));
    let answer = '';
    socket.on('data', (bytes) => {
      answer += String(bytes);
    });
    await once(socket, 'close');
    expect(answer).toMatch(/^HTTP\/1\.1 421 /);
  });

  it('listens on the loopback address alone', async () => {
    const others = Object.values(networkInterfaces())
      .flatMap((list) => list ?? [])
      .filter(({ internal, family }) => !internal && family === 'IPv4');
    for (const { address } of others) {
      const socket = connect(live.port, address);
      const met = await Promise.race([
        once(socket, 'connect').then(() => 'reached'),
        once(socket, 'error').then(([e]: { code?: string }[]) => e?.code),
      ]).catch((e: { code?: string }) => e.code);
      socket.destroy();
      expect(met).toBe('ECONNREFUSED');
    }
    expect((await ask(live.port, '/')).status).toBe(200);
  });

  it('tells the news of now to whoever begins to listen', async () => {
    const first = await new Promise<string>((done) => {
      const listening = get({ port: live.port, path: '/news' }, (response) => {
        let text = '';
        response.setEncoding('utf8');
        response.on('data', (more: string) => {
          text += more;
          if (!/data: .*\n\n/.test(text)) return;
          listening.destroy();
          done(text);
        });
      });
    });
    expect(first).toMatch(/^retry: \d+\n\ndata: \{"drawing":"[0-9a-f]{64}","state":"good",/);
  });
});

describe('the page that follows its files, in a browser', () => {
  it(
    'changes with the profile, keeps its place, says what is wrong and recovers',
    async () => {
      const { page, requests, complaints } = await open(live.port);
      expect(await page.textContent('h1')).toContain('Sedge');
      const sheet = page.locator('[data-program]', { hasText: 'fingerboard-slots' });
      await sheet.click();
      await page.check('input[name=unit][value=in]');
      await page.click('#nearer');
      await page.click('#crossways');
      const line = await page.inputValue('#from-x');

      // Saved as many editors do: a new file in the old one's place.
      writeFileSync(`${profile}~`, good.replace(/^name: .*$/m, 'name: "Rush <b>& Reed</b>"'));
      renameSync(`${profile}~`, profile);
      await page.locator('h1', { hasText: 'Rush <b>& Reed</b>' }).waitFor({ timeout: PATIENCE });
      await page
        .locator('[data-program][aria-current]', { hasText: 'fingerboard-slots' })
        .waitFor({ timeout: 10_000 });
      expect(await page.isChecked('input[name=unit][value=in]')).toBe(true);
      expect(await page.inputValue('#from-x')).toBe(line);
      const loads = requests.filter((url) => url.endsWith('/')).length;
      expect(loads).toBe(2);

      writeFileSync(profile, good.replace(/^(\s+length: ).*$/m, '$1twelve'));
      await page.waitForSelector('#news[data-state=wrong]', { timeout: PATIENCE });
      const news = (await page.textContent('#news')) ?? '';
      expect(news).toContain('last good drawing');
      expect(news).toMatch(/mine\.yaml:\d+:\d+/);
      expect(news).toContain('twelve');
      expect(await page.textContent('h1')).toContain('Rush');
      expect((await ask(live.port, '/')).text).toContain('data-state="wrong"');

      rmSync(profile);
      await page.locator('#news', { hasText: 'there is no such file' }).waitFor({ timeout: PATIENCE });
      writeFileSync(profile, good);
      await page.locator('h1', { hasText: 'Sedge' }).waitFor({ timeout: PATIENCE });
      expect(await page.getAttribute('#news', 'data-state')).toBe('good');
      expect(complaints).toEqual([]);
      expect(new Set(requests.map((url) => new URL(url).host))).toEqual(new Set([`127.0.0.1:${live.port}`]));
      await page.close();
    },
    4 * PATIENCE,
  );

  it(
    'ends cleanly on Ctrl-C, and the page says that it follows nothing any more',
    async () => {
      const { page } = await open(live.port);
      live.child.kill('SIGINT');
      const [code, signal] = (await once(live.child, 'exit')) as [number | null, string | null];
      expect([code, signal]).toEqual([0, null]);
      await page.waitForSelector('#news[data-state=lost]', { timeout: PATIENCE });
      expect(await page.textContent('#news')).toContain('no longer running');
      await page.close();
    },
    PATIENCE,
  );

  it(
    'follows the shop file, starts with what is wrong, and takes the port that is named',
    async () => {
      const shop = join(folder, 'shop.yaml');
      const right = readFileSync(shop, 'utf8');
      writeFileSync(profile, good);
      writeFileSync(shop, `${right}\nnonsense: 1\n`);
      const again = await startLive(['--shop', 'shop.yaml']);
      const taken = nutline(['preview', profile, '--live', '--port', String(again.port)]);
      expect([taken.code, taken.err]).toEqual([
        74,
        `nutline: Port ${again.port} cannot be had: another program has it. Choose another with --port, or leave it out.\n`,
      ]);
      const { page, complaints } = await open(again.port);
      expect(await page.textContent('h1')).toBe('There is no drawing yet');
      expect(await page.textContent('#news')).toContain('nonsense');
      writeFileSync(shop, right);
      await page.locator('h1', { hasText: 'Sedge' }).waitFor({ timeout: PATIENCE });
      expect(await page.locator('[data-program]').count()).toBeGreaterThan(3);
      const part = join(folder, 'hand-tools.yaml');
      writeFileSync(part, `${readFileSync(part, 'utf8')}\nnonsense: 1\n`);
      await page.waitForSelector('#news[data-state=wrong]', { timeout: PATIENCE });
      expect(await page.textContent('#news')).toContain('hand-tools.yaml');
      expect(complaints).toEqual([]);
      await page.close();
      again.child.kill('SIGTERM');
      expect((await once(again.child, 'exit'))[0]).toBe(0);
      const named = await startLive(['--port', String(again.port)]);
      expect(named.port).toBe(again.port);
    },
    3 * PATIENCE,
  );

  it('knows every file that the drawing is made from: included ones and drawings too', () => {
    const read: string[] = [];
    const [profile, shop] = ['tarn-left', 'home-shop'].map((name) => join(ROOT, `profiles/${name}.yaml`));
    const sources = readSources({ profile, shop }, (path) => read.push(path));
    expect(design(sources).ok).toBe(true);
    const names = ['tarn-left.yaml', 'home-shop.yaml', ...INCLUDED, 'artwork/reed.svg'];
    expect(read.map((path) => relative(join(ROOT, 'profiles'), path))).toEqual(expect.arrayContaining(names));
  });

  it.each([
    ['no port', ['--live', '--port', 'ten'], /--port ten is no port/],
    ['a port that no machine has', ['--live', '--port', '70000'], /--port 70000 is no port/],
    ['a port without a page', ['--port', '8080'], /where --live serves/],
    ['pictures besides', ['--live', '--svg'], /writes no pictures/],
  ])('refuses %s', (_what, words, said) => {
    const ran = nutline(['preview', profile, ...words]);
    expect(ran.code).toBe(64);
    expect(ran.err).toMatch(said);
  });
});
