/** What the made files say of themselves: paths that hold wherever the job was made, limits of their own, links to all drawings. */
import { readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeJob } from '../../src/app/make.ts';
import { jobsByProgram, makeProgram } from '../../src/app/programs.ts';
import { proofText } from '../../src/app/proofText.ts';
import type { OutputFile } from '../../src/app/types.ts';
import { unproven } from '../../src/app/unproven.ts';
import { prove } from '../../src/verify/prove.ts';
import { planOf } from '../support/job.ts';

const PROFILES = join(import.meta.dirname, '../../profiles');
const read = (name: string): string => readFileSync(join(PROFILES, basename(name)), 'utf8');

function filesFrom(folder: string): readonly OutputFile[] {
  const made = makeJob({
    profile: { path: `${folder}tarn-parlour.yaml`, text: read('tarn-parlour.yaml') },
    shop: { path: `${folder}home-shop.yaml`, text: read('home-shop.yaml') },
    readInclude: read,
  });
  if (!made.ok) throw new Error(JSON.stringify(made.findings));
  return made.value.files;
}

const textOf = (files: readonly OutputFile[], path: string): string =>
  new TextDecoder().decode(files.find((f) => f.path === path)?.bytes);

const here = filesFrom('');

describe('the made files', () => {
  it('are the same bytes from whatever folder the job is made', () => {
    const there = filesFrom('deep/in/profiles/');
    expect(there.map((f) => f.path)).toEqual(here.map((f) => f.path));
    for (const { path } of here) expect(textOf(there, path), path).toBe(textOf(here, path));
    const manifest = JSON.parse(textOf(there, 'manifest.json')) as {
      profile: { path: string };
      shop: { path: string; includes: { path: string }[] };
    };
    expect(manifest.profile.path).toBe('tarn-parlour.yaml');
    expect(manifest.shop.path).toBe('home-shop.yaml');
    expect(manifest.shop.includes.map((i) => i.path)).toEqual([
      'benchtop-router.yaml',
      'sheet-laser.yaml',
      'hand-tools.yaml',
    ]);
  });

  it('have a start page that leads to every drawing and program', () => {
    const page = textOf(here, 'index.html');
    const wanted = here.filter((f) => f.role === 'drawing' || f.role === 'program').map((f) => f.path);
    expect(wanted).toContain('drawings/layout.dxf');
    for (const path of wanted) expect(page, path).toContain(`href="./${path}"`);
  });

  it('print the limit of the very check that a figure comes from', () => {
    const notes = textOf(here, 'feed-notes.md');
    // Slots may be 0.03 mm too deep; their walls are proven to 0.01 mm, and that is what the line speaks of.
    expect(notes).toMatch(/mm too much \(limit 0\.010 mm\)/);
    expect(notes).not.toMatch(/\(limit 0\.030 mm\)/);
  });
});

describe('a check that saw nothing', () => {
  const [jobs] = jobsByProgram(planOf().jobs).filter(([job]) => job?.program === 'fingerboard-slots.nc');
  const good = makeProgram(jobs ?? [], 'x');
  /** The program without any cut of its last slot. */
  const lines = good.text.split('\n');
  const from = lines.findIndex((line) => line.includes('fret-slot-19'));
  const to = lines.findIndex((line, i) => i > from && line.startsWith('M5'));
  const text = [...lines.slice(0, from), ...lines.slice(to)].join('\n');
  const proof = prove(new TextEncoder().encode(text), good.intent);

  it('says what it did not find', () => {
    expect(from).toBeGreaterThan(0);
    const unseen = proof.checks.filter((c) => c.seen === 0);
    expect(unseen.map((c) => c.cut)).toContain('fret-slot-19');
    const said = proofText('slots.nc', proof);
    expect(said).toMatch(
      /FAILED wall overcut \(fret-slot-19\): failed because it found no pass in wood that works on this cut/,
    );
    expect(said).not.toMatch(/FAILED .*: 0\.0000, limit/);
    const [finding] = unproven({ ...good, proof });
    expect(finding?.code).toBe('program-not-proven');
    expect(finding?.text).toContain('found no pass in wood that works on this cut at fret-slot-19');
  });
});
