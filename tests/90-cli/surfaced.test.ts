/** The bundled instrument in the bundled shop, its board worked to its radius by the router: the whole job. */
import { describe, expect, it } from 'vitest';
import { makeJob } from '../../src/app/make.ts';
import { textOf } from '../30-profile/bundled.ts';
import { rs274Available, runRs274 } from '../support/rs274.ts';

type Edit = (text: string) => string;

/** Files by path, of a job whose profile and shop file are changed first. */
function madeWith(editProfile: Edit, editShop: Edit): Map<string, string> {
  const made = makeJob({
    profile: { path: 'tarn-parlour.yaml', text: editProfile(textOf('profiles/tarn-parlour.yaml')) },
    shop: { path: 'home-shop.yaml', text: editShop(textOf('profiles/home-shop.yaml')) },
    readInclude: (name) => textOf(`profiles/${name}`),
  });
  if (!made.ok) throw new Error(made.findings.map((f) => f.text).join('\n'));
  const decoder = new TextDecoder();
  return new Map(made.value.files.map((f) => [f.path, decoder.decode(f.bytes)]));
}

const same: Edit = (text) => text;
const surfaced: Edit = (text) => text.replace('work:\n', 'work:\n  boardSurface: benchtop-router\n');

interface Manifest {
  readonly programs: readonly { path: string; proof: { passed: boolean } }[];
  readonly features: readonly { id: string; part: string; kind: string; madeBy: readonly string[] }[];
}

describe.each(['flat', 'radiused'])('a surfaced board, slotted when %s', (when) => {
  const files = madeWith(
    (text) => text.replace('surfaceWhenSlotted: flat', `surfaceWhenSlotted: ${when}`),
    surfaced,
  );
  const text = (path: string): string => {
    const found = files.get(path);
    if (found === undefined) throw new Error(`no ${path}`);
    return found;
  };
  const manifest = JSON.parse(text('manifest.json')) as Manifest;

  it('is proven, and its surface made once, by the finishing passes', () => {
    expect(manifest.programs.map((p) => p.path)).toContain('programs/fingerboard-surface-finish.nc');
    expect(manifest.programs.every((p) => p.proof.passed)).toBe(true);
    const feature = (id: string) => manifest.features.filter((f) => f.id === id);
    expect(feature('fingerboard-surface')).toEqual([
      {
        id: 'fingerboard-surface',
        part: 'fingerboard',
        kind: 'surface',
        madeBy: ['fingerboard-surface-finish.nc'],
      },
    ]);
    expect(feature('rough-fingerboard-surface')).toMatchObject([
      { kind: 'rough surface', madeBy: ['fingerboard-surface-rough.nc'] },
    ]);
  });

  it('reads well: order, what is left, where to clamp and to touch off', () => {
    const start = text('START-HERE.md');
    const places = ['surface-rough', 'surface-finish', 'slots', 'outline'].map((name) =>
      start.indexOf(`Run \`fingerboard-${name}.nc\``),
    );
    expect(Math.min(...places)).toBeGreaterThan(0);
    const [rough = 0, finish = 0, slots = 0, outline = 0] = places;
    expect(rough).toBeLessThan(finish);
    expect(finish).toBeLessThan(outline);
    expect(finish < slots).toBe(when === 'radiused');
    expect(start.match(/a gauge of the radius \(.*?\) stands without light/g)).toHaveLength(1);
    const notes = text('feed-notes.md');
    expect(notes).toContain('Leaves for the last passes');
    expect(notes).toContain('at most 0.020 mm high between passes');
    expect(notes).toMatch(/\d\.\d mm at each end of the blank: clamps go there/);
    expect(notes).toContain('Z0 on the flat that is left at that end, at the middle line');
    expect(text('drawings/fingerboard.dxf')).toContain(
      'Top: radius 406.4 mm about the centreline, 6 mm thick',
    );
    expect(text('preview.html')).toContain('fingerboard-surface-finish.nc');
  });

  it.skipIf(!rs274Available())('runs in the rs274 interpreter, which goes where the text says', () => {
    const program = text('programs/fingerboard-surface-finish.nc');
    const ends = runRs274(program).flatMap((m) => (m.kind === 'feed' ? [m.end] : []));
    expect(ends.length).toBeGreaterThan(150);
    // The ball's centre lies R + r from the board's axis all along: R 406.4, r 3, crest at z 0.
    for (const [, y, z] of ends.slice(2)) {
      expect(Math.hypot(y, z + 3 + 406.4) - 409.4).toBeLessThan(0.001);
      expect(Math.hypot(y, z + 3 + 406.4) - 409.4).toBeGreaterThan(-0.001);
    }
  });
});

describe('templates on the router', () => {
  const files = madeWith(same, (text) =>
    text.replaceAll('Template: sheet-laser', 'Template: benchtop-router'),
  );

  it('have their lines scribed by the vee cutter, and no step by hand for them', () => {
    const manifest = JSON.parse(files.get('manifest.json') ?? '') as Manifest;
    const given = ['slot-template', 'pin-template', 'head-template'];
    const lines = manifest.features.filter((f) => f.kind === 'line' && given.includes(f.part));
    // Slots, the templates' own lines and the centrelines of slot and head template; each stroke of a letter is a line besides.
    const plain = lines.filter((f) => !/-(number-\d+|name|instrument)-\d+$/.test(f.id));
    expect(plain.length).toBe(19 + 3 + 1);
    expect(lines.length).toBeGreaterThan(plain.length);
    for (const line of lines) expect(line.madeBy).toEqual([expect.stringMatching(/-template-lines\.nc$/)]);
    expect(files.get('feed-notes.md')).toContain('0.20 mm wide where the cutter is 0.173 mm deep');
  });
});
