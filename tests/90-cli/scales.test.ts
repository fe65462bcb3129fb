/** Instruments with two scales, other divisions, courses, frets in pieces and a zero fret: the whole job, in the default shop. */
import { describe, expect, it } from 'vitest';
import { makeJob } from '../../src/app/make.ts';
import { textOf } from '../30-profile/bundled.ts';

interface Manifest {
  readonly programs: readonly { path: string; proof: { passed: boolean } }[];
  readonly features: readonly { id: string; kind: string; madeBy: readonly string[] }[];
}

function manifestOf(text: string): Manifest {
  const made = makeJob({
    profile: { path: 'instrument.yaml', text },
    shop: { path: 'home-shop.yaml', text: textOf('profiles/home-shop.yaml') },
    readInclude: (name) => textOf(`profiles/${name}`),
  });
  if (!made.ok) throw new Error(made.findings.map((f) => f.text).join('\n'));
  const file = made.value.files.find(({ path }) => path === 'manifest.json');
  if (file === undefined) throw new Error('no manifest');
  return JSON.parse(new TextDecoder().decode(file.bytes)) as Manifest;
}

const changed = (name: string, ...changes: readonly (readonly [string, string])[]): string =>
  changes.reduce(
    (text, [from, to]) => {
      if (!text.includes(from)) throw new Error(`${name} does not say: ${from}`);
      return text.replace(from, to);
    },
    textOf(`profiles/${name}`),
  );

const slotsOf = ({ features }: Manifest) => features.filter(({ id }) => /^fret-slot-/.test(id));

describe.each<[string, string, number]>([
  ['a baritone of two scales', changed('scree-baritone.yaml'), 19],
  ['a diatonic dulcimer with half frets', changed('heather-dulcimer.yaml'), 16],
  ['a guitar of nineteen steps to the octave', changed('tern-nineteen.yaml'), 27],
  [
    'a left-handed baritone with a zero fret, a short slot for two strings and a last fret for three',
    changed(
      'scree-baritone.yaml',
      ['hand: right', 'hand: left'],
      ['nut:\n  thickness: 6\n', 'nut:\n  thickness: 6\n  zeroFret: { setBack: 4 }\n'],
      ['  firstFretBass: 0.5\n  firstFretTreble: 0.35\n', ''],
      ['trussRod:\n', 'markersAsDrawn: true\ntrussRod:\n'],
      [
        '  perOctave: 12\n',
        '  perOctave: 12\n  ownPlaces: [{ fret: 1, strings: [4, 5], cents: 110 }]\n  partial: [{ fret: 19, strings: [4, 6] }]\n',
      ],
    ),
    // 19 frets, the zero fret, and two pieces more of the first.
    22,
  ],
])('%s', (_, text, slots) => {
  const manifest = manifestOf(text);

  it('is proven, and each of its slots cut once', () => {
    expect(manifest.programs.map((p) => p.path)).toContain('programs/fingerboard-slots.nc');
    expect(manifest.programs.filter((p) => !p.proof.passed)).toEqual([]);
    expect(slotsOf(manifest)).toHaveLength(slots);
    for (const { madeBy } of slotsOf(manifest)) expect(madeBy).toEqual(['fingerboard-slots.nc']);
  });
});
