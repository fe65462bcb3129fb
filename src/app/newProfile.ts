import { loadInstrument } from '../profile/loadInstrument.ts';
import { type Change, fieldAsWritten, setFields } from '../profile/yaml/setFields.ts';
import { errorFinding, hasErrors } from '../report/collect.ts';
import type { Finding, Outcome } from '../report/finding.ts';
import { drawingNames } from './drawingNames.ts';
import type { SourceText } from './types.ts';

export type { Change } from '../profile/yaml/setFields.ts';

/** One thing asked of a person who begins an instrument. */
export interface Question {
  readonly path: string;
  readonly ask: string;
  /** Why it matters, or where to get it. */
  readonly because: string;
}

/** In the order that a builder decides; see `questionsFor`. */
const QUESTIONS: readonly Question[] = [
  { path: 'name', ask: 'Name of the instrument', because: 'The output folder is named after it.' },
  {
    path: 'hand',
    ask: 'Hand that plucks, right or left',
    because: 'A left-handed instrument is the mirror image.',
  },
  {
    path: 'scale.length',
    ask: 'Scale length',
    because: 'Scale zero to twice the distance of the octave fret.',
  },
  {
    path: 'scale.bass',
    ask: 'Scale length on the bass side',
    because: 'Scale zero to twice the distance of the octave fret, along the bass line.',
  },
  {
    path: 'scale.treble',
    ask: 'Scale length on the treble side',
    because: 'The same along the treble line; what is square stays so.',
  },
  { path: 'frets.count', ask: 'Number of frets', because: 'A miscounted fret cannot be undone.' },
  { path: 'fingerboard.wood', ask: 'Wood of the fingerboard', because: 'As it is to stand in the cut list.' },
  {
    path: 'fingerboard.thickness',
    ask: 'Finished thickness of the board along the middle',
    because: 'Measure the blank: it must carry slot and radius.',
  },
  {
    path: 'fingerboard.widthAtNut',
    ask: 'Width of the board at the nut',
    because: 'Finished, at the nut face.',
  },
  {
    path: 'fingerboard.widthAt.width',
    ask: 'Width of the board at the second place',
    because: 'It fixes the taper; the fret it stands at is in the file.',
  },
  {
    path: 'fingerboard.radius',
    ask: 'Radius of the board',
    because: 'Across it; 12 to 16 in is usual for guitars.',
  },
  {
    path: 'fretWire.tangDepth',
    ask: 'Depth of the tang of your wire',
    because: 'Measure it with a caliper.',
  },
  { path: 'fretWire.tangWidth', ask: 'Thickness of the tang', because: 'Measure it between the barbs.' },
  {
    path: 'fretWire.barbWidth',
    ask: 'Width over the barbs',
    because: 'Measure it: wider than the slot, or it will not hold.',
  },
  {
    path: 'frets.slotWidth',
    ask: 'Width of the fret slots',
    because: 'Between the two; a cutter or saw must have it.',
  },
  { path: 'nut.stringSpread', ask: 'Outer strings apart at the nut', because: 'Centre to centre.' },
  { path: 'bridge.stringSpread', ask: 'Outer strings apart at the saddle', because: 'Centre to centre.' },
];

/**
 * What is asked of somebody who begins from an instrument: one with two scales has two lengths to ask for. Whatever is not asked
 * stays as it is there.
 */
export function questionsFor(base: SourceText): Question[] {
  return QUESTIONS.filter(({ path }) => valueIn(base, path) !== '');
}

/** A profile with changes made, and what its own checks say of it. */
export interface Begun {
  readonly text: string;
  readonly name: string;
  /** Files with drawings that it names, as seen from its folder. */
  readonly artwork: readonly string[];
}

/** Code of findings that speak of the command's own words, not of a file. */
export const BAD_CHANGE = 'bad-change';

/**
 * A profile begun from another one: the changes made in its text, its comments kept, and a new head. `schema` is what an
 * editor's first line should name.
 */
export function beginProfile(base: SourceText, changes: readonly Change[], schema: string): Outcome<Begun> {
  const changed = setFields(base.text, changes);
  if (!changed.ok) {
    const findings = changed.problems.map(({ path, problem }) =>
      errorFinding(BAD_CHANGE, problem, { allowed: 'PATH=VALUE, as scale.length=640', found: path }),
    );
    return { ok: false, findings };
  }
  const loaded = loadInstrument(changed.text, base.path);
  if (!loaded.ok || hasErrors(loaded.findings)) return { ok: false, findings: loaded.findings };
  const { name } = loaded.value.value;
  const old = loadInstrument(base.text, base.path);
  const oldName = old.ok ? old.value.value.name : base.path;
  return {
    ok: true,
    value: {
      text: withHead(changed.text, name, oldName, schema),
      name,
      artwork: drawingNames(loaded.value.value),
    },
    findings: loaded.findings,
  };
}

/** What is wrong with one more answer: its own errors first, then those it causes elsewhere. Null when nothing is. */
export function wrongAnswer(base: SourceText, before: readonly Change[], answer: Change): string | null {
  const changed = setFields(base.text, [...before, answer]);
  if (!changed.ok) return changed.problems.map((p) => p.problem).join(' ');
  const errors = loadInstrument(changed.text, base.path).findings.filter((f) => f.severity === 'error');
  const own = errors.filter((f) => f.where?.path === answer.path);
  // What only a later answer can put right is said at the end.
  const [first] = own;
  return first === undefined ? null : sentence(first);
}

const sentence = (finding: Finding): string =>
  [finding.text, finding.allowed === undefined ? '' : `Allowed: ${finding.allowed}.`].join(' ').trim();

/** The value of a field as the file has it, without quotes; empty when it is not there. */
export const valueIn = (base: SourceText, path: string): string =>
  (fieldAsWritten(base.text, path) ?? '').replace(/^(["'])(.*)\1$/, '$2');

/** The paragraph at the top speaks of the old instrument; it gives way to the new one's. */
function withHead(text: string, name: string, oldName: string, schema: string): string {
  const lines = text.split('\n');
  const own = lines.findIndex((line) => line.startsWith(`# ${oldName}:`));
  const rest =
    own === -1
      ? lines.filter((line) => !line.startsWith('# yaml-language-server:'))
      : afterParagraph(lines.slice(own));
  const head = [
    `# yaml-language-server: $schema=${schema}`,
    '#',
    `# ${name}: begun from ${oldName}. What was not asked for is as it was there: read it through, and measure what is marked`,
    '# MEASURE. Set-backs are those of the other instrument until you have your own; nutline strings proposes some.',
  ];
  return [...head, ...rest].join('\n');
}

/** What follows the comment paragraph that the lines begin with. */
function afterParagraph(lines: readonly string[]): string[] {
  const end = lines.findIndex((line) => !/^# *\S/.test(line));
  return end === -1 ? [] : lines.slice(end);
}
