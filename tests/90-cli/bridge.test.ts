import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parlourWith } from '../30-profile/bundled.ts';
import { emptyFolder, nutline } from '../support/cli.ts';

let folder = '';
beforeAll(() => {
  folder = emptyFolder();
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

function changed(name: string, ...changes: readonly (readonly [string, string])[]) {
  const path = join(folder, name);
  writeFileSync(path, parlourWith(...changes));
  return nutline(['bridge', path]);
}

describe('nutline bridge', () => {
  const ran = nutline(['bridge']);

  it('prints places, saddle, nut and pins of the default instrument without a complaint', () => {
    expect(ran.code).toBe(0);
    expect(ran.err).toBe('');
    for (const head of ['Where the strings end', 'The saddle', 'The nut', 'Pin holes'])
      expect(ran.out).toContain(head);
    // 628 and a set-back of 4.5.
    expect(ran.out).toMatch(/^1 E2 +632\.50 /m);
    expect(ran.out.split('\n').every((line) => line.length <= 110)).toBe(true);
  });

  it('says the same to a script, unrounded', () => {
    const json = nutline(['bridge', '--json']);
    const work = JSON.parse(json.out) as {
      place: { strings: { saddle: number }[] };
      pins: { advance: number }[];
    };
    expect(work.place.strings.map((s) => s.saddle)).toEqual([632.5, 631.2, 630.5, 630, 630.8, 629.6]);
    expect(work.pins).toHaveLength(6);
  });

  it('agrees with the bench sheet on every pin', () => {
    const sheet = nutline(['sheet']);
    const pinOf = (text: string, row: RegExp): string[] => text.split('\n').filter((l) => row.test(l));
    const fromSheet = pinOf(sheet.out, /^\d [A-G]\d +1\.\d\d|^\d [A-G]\d +0\.\d\d +0\.\d{3} /).map(
      (l) => l.split(/ +/)[7],
    );
    const fromBridge = pinOf(ran.out, /^\d [A-G]\d +6\d\d\.\d\d/).map((l) => l.split(/ +/)[5]);
    expect(fromBridge).toHaveLength(6);
    expect(fromSheet.slice(0, 6)).toEqual(fromBridge);
  });

  it('refuses a saddle that would stand out too little, with the place in the file', () => {
    const low = changed('low.yaml', ['  stringSpread: 56\n', '  stringSpread: 56\n  straightedge: -3\n']);
    expect(low.code).toBe(65);
    expect(low.out).toBe('');
    expect(low.err).toMatch(/low\.yaml:\d+:\d+/);
    expect(low.err).toContain('bridge.straightedge');
    expect(nutline(['check', join(folder, 'low.yaml')]).code).toBe(65);
  });

  it('refuses pins that are miscounted, thinner than the drill, or a reamer that does not go in', () => {
    const seats = (list: string): readonly [string, string] => [
      '    seat: 5.6\n',
      `    seat: 5.6\n    seats: ${list}\n`,
    ];
    expect(changed('few.yaml', seats('[5.6, 5.5]')).err).toContain(
      '2 pins are measured and there are 6 strings',
    );
    expect(changed('thin.yaml', seats('[5.6, 5.6, 4.7, 5.6, 5.6, 5.6]')).err).toContain(
      'bridge.pins.seats[2]',
    );
    const tip = changed('tip.yaml', ['    seat: 5.6\n', '    seat: 5.6\n    reamerTip: 5.2\n']);
    expect(tip.code).toBe(65);
    expect(tip.err).toContain('does not go into a hole of 4.763 mm');
  });

  it('is written by make, with charts that are well-formed and name every string', () => {
    const out = join(folder, 'out');
    expect(nutline(['make', '--out', out]).code).toBe(0);
    const job = join(out, 'tarn-parlour');
    expect(readFileSync(join(job, 'bridge.txt'), 'utf8')).toBe(ran.out);
    expect(readFileSync(join(job, 'strings.txt'), 'utf8')).toBe(nutline(['strings']).out);
    const page = readFileSync(join(job, 'index.html'), 'utf8');
    for (const id of ['cents-by-fret', 'cents-by-string', 'heights-over-frets']) {
      const svg = readFileSync(join(job, 'charts', `${id}.svg`), 'utf8');
      expect(svg).not.toMatch(/NaN|undefined|Infinity/);
      expect(svg.match(/<(?!\/|\?)/g)?.length).toBe(
        (svg.match(/<\/(?!>)/g)?.length ?? 0) + (svg.match(/\/>/g)?.length ?? 0),
      );
      expect(page).toContain(`charts/${id}.svg`);
      const names = id === 'cents-by-string' ? ['profile', 'straight', 'compensated'] : ['1 E2', '6 E4'];
      for (const name of names) expect(svg).toContain(`>${name}</text>`);
    }
  });
});
