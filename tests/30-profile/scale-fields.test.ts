import { describe, expect, it } from 'vitest';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import type { Finding } from '../../src/report/finding.ts';
import { parlourWith, soundValue } from './bundled.ts';

type Change = readonly [string, string];

const findingsOf = (...changes: readonly Change[]): readonly Finding[] =>
  loadInstrument(parlourWith(...changes), 'test.yaml').findings;

const LENGTH = '  length: 628\n';
const STEPS = '  perOctave: 12\n';

/** [code, path] of every error. */
const errors = (...changes: readonly Change[]): (readonly [string, string | undefined])[] =>
  findingsOf(...changes)
    .filter((finding) => finding.severity === 'error')
    .map((finding) => [finding.code, finding.where?.path]);

describe('what a profile says of its scale', () => {
  it.each<[string, string, string, string]>([
    ['one and two at once', `${LENGTH}  bass: 640\n`, 'keys-do-not-agree', 'scale.bass'],
    ['two without a square fret', '  bass: 640\n  treble: 620\n', 'missing-key', 'scale.squareAt'],
    ['a treble scale alone', '  treble: 620\n  squareAt: { fret: 7 }\n', 'missing-key', 'scale.bass'],
    ['nothing', '  along: centreline\n', 'missing-key', 'scale.length'],
    [
      'two square places',
      '  bass: 640\n  treble: 630\n  squareAt: { fret: 7, distance: 200 }\n',
      'keys-do-not-agree',
      'scale.squareAt.distance',
    ],
    [
      'a square fret that is not there',
      '  bass: 640\n  treble: 636\n  squareAt: { fret: 30 }\n',
      'no-such-fret',
      'scale.squareAt.fret',
    ],
    [
      'reference lines beyond the middle',
      '  bass: 640\n  treble: 636\n  squareAt: { fret: 7 }\n  referenceLines: { fromEdgeAtNut: 22, fromEdgeAtSaddle: 5 }\n',
      'reference-lines-meet',
      'scale.referenceLines',
    ],
    [
      'a last slot that leaves the board',
      '  bass: 690\n  treble: 620\n  squareAt: { fret: 7 }\n',
      'slot-past-end',
      'fingerboard.overhang',
    ],
  ])('is refused when it is %s', (_, words, code, path) => {
    expect(errors([LENGTH, words])).toContainEqual([code, path]);
  });

  // The bass ends of the upper slots lie nearer the bridge: 70 mm of difference, square at fret 7.
  const FANNED = '  bass: 690\n  treble: 620\n  squareAt: { fret: 7 }\n';
  const partly = (strings: string, frets = '19'): Change => [
    STEPS,
    `${STEPS}  partial: [${frets
      .split(' ')
      .map((fret) => `{ fret: ${fret}, strings: [${strings}] }`)
      .join(', ')}]\n`,
  ];
  const ends = (...changes: readonly Change[]) =>
    findingsOf([LENGTH, FANNED], ...changes).filter((f) => f.code === 'slot-past-end');

  it('may let its last slot lie past the end where that slot does not reach', () => {
    expect(ends().map((f) => f.text)).toEqual([
      expect.stringMatching(/^The slot of fret 19 comes to .* on the bass edge\.$/),
    ]);
    expect(ends(partly('1, 3')).map((f) => f.text)).toEqual([
      expect.stringMatching(/^The slot of fret 19 .* bass edge/),
    ]);
    // The bass edge then ends with fret 18, and that one with 17; each a semitone farther from the board's end.
    const room = (...changes: readonly Change[]): number =>
      Number(/comes to (-?[\d.]+) mm/.exec(ends(...changes)[0]?.text ?? '')?.[1] ?? Number.NaN);
    expect(room()).toBeLessThan(-1);
    const shorter: Change = ['overhang: 9', 'overhang: 1'];
    const rooms = [room(shorter), room(shorter, partly('4, 6'))];
    // By hand, on a line some 27 mm out: a semitone up there is 1/17.8 of what is left of the scale, 12 to 13 mm.
    expect((rooms[1] ?? 0) - (rooms[0] ?? 0)).toBeGreaterThan(11.5);
    expect((rooms[1] ?? 0) - (rooms[0] ?? 0)).toBeLessThan(15);
    expect(ends(partly('4, 6'))).toEqual([]);
  });

  it('is doubted when the bass side has the shorter scale', () => {
    const codes = findingsOf([LENGTH, '  bass: 626\n  treble: 630\n  squareAt: { fret: 7 }\n']).map(
      (f) => f.code,
    );
    expect(codes).toContain('scales-swapped');
  });
});

describe('what a profile says of its frets', () => {
  it.each<[string, string, string]>([
    ['two divisions', `${STEPS}  theory: Pythagorean\n`, 'frets.theory'],
    ['cents that fall', '  cents: [200, 100, 1200]\n', 'frets.cents[1]'],
    ['ratios that fall', '  ratios: [3/2, 4/3, 2/1]\n', 'frets.ratios[1]'],
    ['a step that the division has not', `${STEPS}  fretted: [2, 4, 13]\n`, 'frets.fretted[2]'],
    ['a half fret that is whole', `${STEPS}  halfFrets: [6]\n`, 'frets.halfFrets[0]'],
    ['a half fret past the last', `${STEPS}  halfFrets: [19+]\n`, 'frets.halfFrets[0]'],
    ['a missing fret left out', `${STEPS}  leaveOut: [20]\n`, 'frets.leaveOut[0]'],
    [
      'a partial fret that is not there',
      `${STEPS}  partial: [{ fret: 6+, strings: [1, 2] }]\n`,
      'frets.partial[0].fret',
    ],
    [
      'strings the wrong way round',
      `${STEPS}  partial: [{ fret: 19, strings: [6, 4] }]\n`,
      'frets.partial[0].strings',
    ],
  ])('is refused when it has %s', (_, words, path) => {
    expect(errors([STEPS, words])).toContainEqual(['bad-fret-list', path]);
  });

  it.each<[string, string, string]>([
    ['a ratio of nothing', '  ratios: [3/0, 2/1]\n', 'bad-ratio'],
    ['a ratio in words', '  ratios: [a fifth, 2/1]\n', 'bad-ratio'],
    ['a fret in words', `${STEPS}  halfFrets: [six]\n`, 'bad-fret'],
    ['a string that is not there', `${STEPS}  partial: [{ fret: 19, strings: [4, 7] }]\n`, 'no-such-string'],
    [
      'an own place on the next fret',
      `${STEPS}  ownPlaces: [{ fret: 18, strings: [1, 2], cents: 1890 }]\n`,
      'frets-too-close',
    ],
  ])('is refused when it has %s', (_, words, code) => {
    expect(errors([STEPS, words]).map(([found]) => found)).toContain(code);
  });

  it('says what frets there are when a marker stands at one that is not', () => {
    const found = findingsOf([STEPS, `${STEPS}  leaveOut: [5]\n`]).find((f) => f.code === 'no-such-fret');
    expect(found?.allowed).toContain('3, 4, 6, 7');
  });
});

describe('courses and zero frets in a profile', () => {
  const pair: readonly Change[] = [
    ['pitch: E2,', 'pitch: E2, course: 1,'],
    ['pitch: A2,', 'pitch: A2, course: 1,'],
  ];
  const rest: readonly Change[] = [
    ['pitch: D3,', 'pitch: D3, course: 2,'],
    ['pitch: G3,', 'pitch: G3, course: 2,'],
    ['pitch: B3,', 'pitch: B3, course: 3,'],
    ['pitch: E4,', 'pitch: E4, course: 3,'],
  ];

  it('reads pairs, with room within that is shown as a default', () => {
    const loaded = soundValue(loadInstrument(parlourWith(...pair, ...rest), 'test.yaml'));
    expect(loaded.value.courses.map(({ size }) => size)).toEqual([2, 2, 2]);
    expect(loaded.defaults.map(({ path }) => path)).toContain('nut.courseGap');
  });

  it('refuses courses that only some strings have, or that skip a number', () => {
    expect(errors(...pair)).toContainEqual(['missing-key', 'strings[2].course']);
    const skipped = rest.map(([from, to]): Change => [from, to.replace('course: 3', 'course: 4')]);
    expect(errors(...pair, ...skipped)).toContainEqual(['bad-course', 'strings[4].course']);
  });

  it('refuses a nut with two places, and one on the crown of its zero fret', () => {
    expect(errors(['  setForward: 0\n', '  setForward: 0\n  zeroFret: { setBack: 4 }\n'])).toContainEqual([
      'two-nut-places',
      'nut.setForward',
    ]);
    expect(errors(['  setForward: 0\n', '  zeroFret: { setBack: 1.2 }\n'])).toContainEqual([
      'nut-on-zero-fret',
      'nut.zeroFret.setBack',
    ]);
  });
});
