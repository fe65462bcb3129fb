/** Random programs for the comparison with another interpreter: built in whole units of the last written digit. */
import fc from 'fast-check';

type Plane = 'xy' | 'xz' | 'yz';

export type Step =
  | { readonly kind: 'line'; readonly rapid: boolean; readonly by: readonly (number | null)[] }
  | {
      readonly kind: 'arc';
      readonly plane: Plane;
      readonly clockwise: boolean;
      /** From the start to the centre, in units of a thousandth of the program's. */
      readonly centre: readonly [number, number];
      /** Share of a full turn; 1 is a full circle. */
      readonly share: number;
      readonly along: number;
      readonly byRadius: boolean;
    }
  | { readonly kind: 'inverse'; readonly by: readonly (number | null)[]; readonly perMinute: number }
  | { readonly kind: 'distance'; readonly absolute: boolean }
  | { readonly kind: 'units'; readonly inch: boolean }
  | { readonly kind: 'dwell'; readonly tenths: number }
  | {
      readonly kind: 'drill';
      readonly code: 81 | 82 | 83;
      readonly plane: Plane;
      readonly holes: readonly (readonly [number, number])[];
      readonly depth: number;
      readonly repeats: number;
      readonly toStart: boolean;
    };

const plane = fc.constantFrom<Plane>('xy', 'xz', 'yz');
const thousandths = fc.integer({ min: -30_000, max: 30_000 });
const by = fc.tuple(...[0, 1, 2].map(() => fc.option(thousandths, { freq: 3 })));
/** Centres at least half a unit away, so that the angle of an arc is well known. */
const offset = fc.tuple(thousandths, thousandths).filter(([a, b]) => Math.hypot(a, b) > 500);
const share = fc.oneof(
  { weight: 5, arbitrary: fc.double({ min: 0.02, max: 0.98, noNaN: true }) },
  { weight: 1, arbitrary: fc.constant(1) },
);

const step: fc.Arbitrary<Step> = fc.oneof(
  { weight: 4, arbitrary: fc.record({ kind: fc.constant('line' as const), rapid: fc.boolean(), by }) },
  {
    weight: 6,
    arbitrary: fc.record({
      kind: fc.constant('arc' as const),
      plane,
      clockwise: fc.boolean(),
      centre: offset,
      share,
      along: fc.oneof(fc.constant(0), thousandths),
      byRadius: fc.boolean(),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      kind: fc.constant('inverse' as const),
      by,
      // The other interpreter raises a feed under 0.1 to 0.1; the shortest step here is 0.001.
      perMinute: fc.integer({ min: 200, max: 5000 }),
    }),
  },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant('distance' as const), absolute: fc.boolean() }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('units' as const), inch: fc.boolean() }) },
  {
    weight: 1,
    arbitrary: fc.record({ kind: fc.constant('dwell' as const), tenths: fc.integer({ min: 1, max: 50 }) }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      kind: fc.constant('drill' as const),
      code: fc.constantFrom<81 | 82 | 83>(81, 82, 83),
      plane,
      holes: fc.array(fc.tuple(thousandths, thousandths), { minLength: 1, maxLength: 3 }),
      depth: fc.integer({ min: 1000, max: 9000 }),
      repeats: fc.integer({ min: 1, max: 3 }),
      toStart: fc.boolean(),
    }),
  },
);

export const randomSteps: fc.Arbitrary<Step[]> = fc.array(step, { minLength: 5, maxLength: 60 });

/** Digits after the point in the program: one unit is 10^-DIGITS. */
const DIGITS = 5;
const PER_UNIT = 10 ** DIGITS;
const PER_THOUSANDTH = PER_UNIT / 1000;

interface Writing {
  readonly lines: string[];
  /** Where the program is, in whole last digits of its units. */
  at: [number, number, number];
  absolute: boolean;
  inch: boolean;
}

/** Axes of a plane in the order of its words, and the axis square to it. */
const AXES = { xy: [0, 1, 2], xz: [0, 2, 1], yz: [1, 2, 0] } as const;
const PLANE_WORD = { xy: 'G17', xz: 'G18', yz: 'G19' } as const;

/** The program text of the steps. */
export function programOf(steps: readonly Step[]): string {
  const writing: Writing = { lines: [], at: [0, 0, 0], absolute: true, inch: false };
  writing.lines.push('G21 G17 G90 G94 G40 G49 G54 G61 G80', 'G0 X0 Y0 Z0', 'S900 M3', 'G1 X0 F250');
  for (const one of steps) write(one, writing);
  writing.lines.push('M5', 'M2', '');
  return writing.lines.join('\n');
}

const number = (digits: number): string => String(Number((digits / PER_UNIT).toFixed(DIGITS)));

function write(one: Step, writing: Writing): void {
  const { lines } = writing;
  switch (one.kind) {
    case 'line':
      writeLine(writing, one.rapid ? 'G0' : 'G1', one.by, '');
      return;
    case 'inverse':
      writeInverse(writing, one);
      return;
    case 'arc':
      writeArc(writing, one);
      return;
    case 'distance':
      writing.absolute = one.absolute;
      lines.push(one.absolute ? 'G90' : 'G91');
      return;
    case 'units':
      writing.inch = one.inch;
      writing.at = [100_000, 200_000, 300_000];
      lines.push(one.inch ? 'G20' : 'G21', 'G90 G0 X1 Y2 Z3', one.inch ? 'F11.5' : 'F310');
      writing.absolute = true;
      return;
    case 'dwell':
      lines.push(`G4 P${one.tenths / 10}`);
      return;
    case 'drill':
      writeDrill(writing, one);
  }
}

function axisWord(writing: Writing, axis: number, to: number): string {
  const from = writing.at[axis] as number;
  writing.at[axis] = to;
  return `${'XYZ'[axis]}${number(writing.absolute ? to : to - from)}`;
}

function writeLine(writing: Writing, word: string, steps: readonly (number | null)[], rest: string): void {
  const words = steps.flatMap((thousandth, axis) => {
    if (thousandth === null) return [];
    return [axisWord(writing, axis, (writing.at[axis] as number) + thousandth * PER_THOUSANDTH)];
  });
  if (words.length > 0) writing.lines.push([word, ...words, rest].join(' ').trim());
}

function writeInverse(writing: Writing, one: Step & { kind: 'inverse' }): void {
  writing.lines.push('G93');
  writeLine(writing, 'G1', one.by, `F${one.perMinute}`);
  writing.lines.push(writing.inch ? 'G94 F9' : 'G94 F220');
}

function writeArc(writing: Writing, one: Step & { kind: 'arc' }): void {
  const [a, b, normal] = AXES[one.plane];
  const [fromA, fromB] = [writing.at[a] as number, writing.at[b] as number];
  const [i, j] = [one.centre[0] * PER_THOUSANDTH, one.centre[1] * PER_THOUSANDTH];
  // G18 turns from Z to X, against the order of its words.
  const sense = (one.clockwise ? -1 : 1) * (one.plane === 'xz' ? -1 : 1);
  const angle = one.share === 1 ? 0 : sense * one.share * 2 * Math.PI;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const endA = Math.round(fromA + i - i * cos + j * sin);
  const endB = Math.round(fromB + j - i * sin - j * cos);
  const words = [PLANE_WORD[one.plane], one.clockwise ? 'G2' : 'G3'];
  words.push(axisWord(writing, a, endA), axisWord(writing, b, endB));
  if (one.along !== 0) {
    words.push(axisWord(writing, normal, (writing.at[normal] as number) + one.along * PER_THOUSANDTH));
  }
  const fitForRadius = one.share < 0.45 || (one.share > 0.55 && one.share < 0.95);
  if (one.byRadius && fitForRadius) {
    words.push(`R${number(Math.hypot(i, j) * (one.share > 0.5 ? -1 : 1))}`);
  } else words.push(`${'IJK'[a]}${number(i)}`, `${'IJK'[b]}${number(j)}`);
  writing.lines.push(words.join(' '));
}

/** Holes from 2 units above the level 0, in absolute numbers, in the way in which interpreters agree. */
function writeDrill(writing: Writing, one: Step & { kind: 'drill' }): void {
  const [a, b, normal] = AXES[one.plane];
  const letter = 'XYZ'[normal] as string;
  const level = 2 * PER_UNIT;
  writing.absolute = true;
  const { lines } = writing;
  lines.push(`${PLANE_WORD[one.plane]} G90 G0 ${axisWord(writing, normal, level)}`);
  // G83 pecks out to the clear level; with R at the level where it starts there is only one such level.
  const retract = one.code === 83 ? level : PER_UNIT;
  const more = { 81: '', 82: ' P0.2', 83: ' Q1.7' }[one.code];
  one.holes.forEach(([x, y], n) => {
    const across = `${axisWord(writing, a, x * PER_THOUSANDTH)} ${axisWord(writing, b, y * PER_THOUSANDTH)}`;
    const first = `${one.toStart ? 'G98' : 'G99'} G${one.code} ${across} ${letter}${number(-one.depth * PER_THOUSANDTH)} `;
    const text = n === 0 ? `${first}R${number(retract)}${more}` : across;
    lines.push(one.repeats > 1 ? `${text} L${one.repeats}` : text);
  });
  writing.at[normal] = one.toStart ? level : retract;
  lines.push('G80');
}
