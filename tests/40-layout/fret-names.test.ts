import { describe, expect, it } from 'vitest';
import { design } from '../../src/app/design.ts';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import type { Outcome } from '../../src/report/finding.ts';
import { benchSheet } from '../../src/sheet/benchSheet.ts';
import { readProject, soundValue, textOf } from '../30-profile/bundled.ts';

/** A mountain dulcimer: its frets are named 1 to 14, with 6+ between 6 and 7 and 13+ between 13 and 14. */
const DULCIMER = textOf('profiles/heather-dulcimer.yaml');
const SCALE = 26 * 25.4;
const ROUND =
  '<svg xmlns="http://www.w3.org/2000/svg" width="8mm" height="8mm"><circle cx="4" cy="4" r="3"/></svg>';

type Change = readonly [string, string];

function changed(changes: readonly Change[]): string {
  return changes.reduce((text, [from, to]) => {
    if (!text.includes(from)) throw new Error(`the dulcimer does not say ${from}`);
    return text.replace(from, to);
  }, DULCIMER);
}

function made(...changes: readonly Change[]) {
  return design({
    profile: { path: 'dulcimer.yaml', text: changed(changes) },
    shop: { path: 'profiles/home-shop.yaml', text: textOf('profiles/home-shop.yaml') },
    readInclude: readProject,
    readBeside: (name) => (name === 'round.svg' ? ROUND : null),
  });
}

const MARKERS = 'at:\n    - { fret: 3, diameter: 5 }';

const texts = (outcome: Outcome<unknown>): string[] => outcome.findings.map((f) => f.text);
const load = (...changes: readonly Change[]) => loadInstrument(changed(changes), 'dulcimer.yaml');

/** x of a fret that stands so many equal semitones up: S (1 - 2^(-n/12)). */
const slotAt = (semitones: number): number => SCALE * (1 - 2 ** (-semitones / 12));

describe('a half fret’s name', () => {
  it('places a marker between that half fret and the fret before it', () => {
    const { layout } = soundValue(made([MARKERS, `${MARKERS}\n    - { fret: 6+, diameter: 3 }`]));
    // Fret 6 is ten semitones up, 6+ eleven: typed from the steps in the profile.
    const middle = (slotAt(10) + slotAt(11)) / 2;
    expect(layout.faceMarkers.map(({ at }) => at[0])).toContainEqual(expect.closeTo(middle, 9));
  });

  it('places side markers, index pins and artwork too', () => {
    const outcome = made(
      ['faceMarkers:\n', 'faceMarkers:\n  artwork:\n    - { file: round.svg, fret: 13+, width: 6 }\n'],
      ['indexPins:\n', 'sideMarkers:\n  at:\n    - { fret: 6+ }\n\nindexPins:\n'],
      ['frets: [2, 13]', 'frets: [2, 13+]'],
    );
    const { layout } = soundValue(outcome);
    expect(layout.sideMarkers.map(({ x }) => x)).toEqual([expect.closeTo((slotAt(10) + slotAt(11)) / 2, 9)]);
    // An octave higher: fret 13 is 22 semitones up, 13+ is 23.
    expect(layout.indexPins[1]?.at[0]).toBeCloseTo(slotAt(23), 9);
    const drawn = layout.faceMarkers.find(({ id }) => id.includes('artwork'));
    // Outlines are rounded to about 1e-5 mm when their corners are.
    expect(drawn?.at[0]).toBeCloseTo((slotAt(22) + slotAt(23)) / 2, 4);
  });

  it('stands on the bench sheet between the slots by their names', () => {
    const value = soundValue(made([MARKERS, `${MARKERS}\n    - { fret: 6+, diameter: 3 }`]));
    const sheet = benchSheet(value.layout, value.instrument.value);
    expect(sheet.markers.map(({ fret }) => fret)).toContain(6.5);
  });

  it.each([
    ['a marker', [MARKERS, `${MARKERS}\n    - { fret: 5+, diameter: 3 }`]],
    ['an index pin', ['frets: [2, 13]', 'frets: [2, 12+]']],
    [
      'artwork',
      ['faceMarkers:\n', 'faceMarkers:\n  artwork:\n    - { file: round.svg, fret: 1+, width: 6 }\n'],
    ],
  ] as const)('of a fret that the board has not is refused for %s, with those it has', (_, change) => {
    const outcome = load(change);
    expect(outcome.ok).toBe(false);
    const [finding] = outcome.findings.filter(({ code }) => code === 'no-such-fret');
    expect(finding?.text).toContain('There is no fret of that name on this board.');
    expect(finding?.allowed).toBe('1, 2, 3, 4, 5, 6, 6+, 7, 8, 9, 10, 11, 12, 13, 13+, 14');
  });

  it('is refused on a board that has whole frets alone', () => {
    const outcome = loadInstrument(
      textOf('profiles/tarn-parlour.yaml').replace(/(sideMarkers:[\s\S]*?fret: )3/, '$13+'),
      'p.yaml',
    );
    expect(outcome.findings.filter(({ code }) => code === 'no-such-fret').map(({ text }) => text)).toEqual([
      'There is no fret of that name on this board.',
    ]);
  });
});

describe('a finding on a board with half frets', () => {
  it('names the fret by its name', () => {
    // Fret 7 is the eighth in the list, 10 the eleventh.
    const wide = load(['{ fret: 10, diameter: 5 }', '{ fret: 10, diameter: 25 }']);
    expect(texts(wide)).toContain('A marker of 25 mm does not fit between the slots at fret 10.');
    expect(texts(wide).join(' ')).not.toContain('fret 11');
    const half = load([MARKERS, `${MARKERS}\n    - { fret: 6+, diameter: 24 }`]);
    expect(texts(half)).toContainEqual(expect.stringContaining('at fret 6+'));
  });

  it('names the slot that artwork runs into by its name', () => {
    const outcome = made([
      'faceMarkers:\n',
      'faceMarkers:\n  artwork:\n    - { file: round.svg, fret: 7, width: 24 }\n',
    ]);
    expect(outcome.ok).toBe(false);
    const slots = texts(outcome).filter((text) => text.includes('runs into the slot of fret'));
    expect(slots.map((text) => /slot of fret (\S+),/.exec(text)?.[1]).sort()).toEqual(['6+', '7']);
  });

  it('places the neck’s joint by the fret’s name', () => {
    const joint =
      'neckJoint:\n  fret: 10\n  domeRadius: 8000\n  heelDepth: 60\n  heelWidthAtTop: 50\n  heelWidthAtCap: 30\n\nbridge:\n';
    const { value } = soundValue(load(['bridge:\n', joint]));
    expect(value.frets.list[(value.neckJoint?.fret ?? 0) - 1]?.label).toBe('10');
  });
});
