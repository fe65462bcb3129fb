import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkJob } from '../../src/app/check.ts';
import { makeJob } from '../../src/app/make.ts';
import type { JobSources } from '../../src/app/types.ts';
import { parlourWith } from '../30-profile/bundled.ts';

const read = (path: string) => ({ path, text: readFileSync(path, 'utf8') });

function sourcesOf(...changes: readonly (readonly [from: string, to: string])[]): JobSources {
  return {
    profile: { path: 'my-parlour.yaml', text: parlourWith(...changes) },
    shop: read('profiles/home-shop.yaml'),
    readInclude: (path: string) => readFileSync(`profiles/${path.replace(/^.*\//, '')}`, 'utf8'),
  };
}

describe('what a careful builder looks at, in the files', () => {
  it('stops a job, with the line of the field to change', () => {
    const sources = sourcesOf(['stick: 24 in', 'stick: 60']);
    const { passed, findings } = checkJob(sources);
    expect(passed).toBe(false);
    const [finding] = findings;
    expect(finding?.code).toBe('fret-wire-too-short');
    const line = sources.profile.text.split('\n').findIndex((l) => l.includes('stick: 60')) + 1;
    expect(finding?.where).toMatchObject({ file: 'my-parlour.yaml', line, path: 'fretWire.stick' });
    expect(finding?.allowed).toBe('at least 66.71 mm');
    expect(finding?.remedy).toContain('coil');
    expect(makeJob(sources).ok).toBe(false);
  });

  it('lets the bundled parlour through, and says what is left out of its letters', () => {
    expect(checkJob(sourcesOf()).findings).toEqual([]);
    const large = checkJob(sourcesOf(['lettering: { height: 3 }', 'lettering: { height: 9 }']));
    expect(large.passed).toBe(true);
    expect(large.findings.map((f) => f.code)).toContain('lettering-left-out');
    expect(large.findings[0]?.where).toMatchObject({ file: 'my-parlour.yaml', path: 'jigs.lettering' });
  });

  it('writes the wire list with the rest, in the order of the frets', () => {
    const made = makeJob(sourcesOf());
    if (!made.ok) throw new Error(JSON.stringify(made.findings));
    const text = (path: string): string => {
      const file = made.value.files.find((f) => f.path === path);
      return new TextDecoder().decode(file?.bytes);
    };
    expect(text('fret-wire.csv').split('\r\n')[19]).toMatch(/^19,"19",66\.71,60\.71,60\.71,60\.66,2\.627,/);
    for (const page of ['START-HERE.md', 'index.html', 'manifest.json'])
      expect(text(page)).toContain('fret-wire.csv');
    expect(text('cut-list.csv')).toContain('2 sticks of 609.6 mm (24 in)');
    const json = JSON.parse(text('sheet.json'));
    expect(json.fretWire.pieces).toHaveLength(19);
    expect(json.fretWire.sticks.sticks.flatMap((s: { slots: string[] }) => s.slots)).toHaveLength(19);
    expect(text('sheet.txt')).toContain('Fret wire, in the order in which the frets go in');
    expect(text('drawings/slot-template.dxf')).toContain('LETTERING');
  }, 60_000);
});
