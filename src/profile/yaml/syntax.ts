/** Mistakes in the YAML itself, in words for somebody who does not know YAML. */
import type { Document, YAMLError } from 'yaml';
import { errorFinding } from '../../report/collect.ts';
import type { Finding, Place } from '../../report/finding.ts';

/** Largest file that is read: a hundred times a rich profile. */
const MOST_LETTERS = 1_000_000;
/** Further mistakes of a broken file are mostly echoes of the first. */
const MOST_MISTAKES = 10;

const WORDS: Readonly<Record<string, readonly [text: string, remedy: string]>> = {
  TAB_AS_INDENT: ['A tab is used to indent.', 'Indent with spaces.'],
  BAD_INDENT: ['The indentation does not fit the lines above.', 'Line up the keys of one group.'],
  MISSING_CHAR: ['A quote, bracket, comma or colon is missing here or before.', 'Close what was opened.'],
  BLOCK_AS_IMPLICIT_KEY: [
    'There are two colons with a blank behind them in one line.',
    'Put a text that holds ": " in quotes.',
  ],
  MULTILINE_IMPLICIT_KEY: ['A key runs over several lines.', 'Is a colon or a quote missing?'],
  BAD_SCALAR_START: ['A value begins with a sign that YAML keeps for itself.', 'Put the text in quotes.'],
  MULTIPLE_DOCS: ['The file holds a second document after "---".', 'Keep one document in a file.'],
  BAD_DQ_ESCAPE: ['A backslash in double quotes starts no known escape.', 'Use single quotes.'],
  UNEXPECTED_TOKEN: ['Something stands where a key or value was expected.', 'Look at the signs before it.'],
  TAG_RESOLVE_FAILED: ['A tag (a word that begins with "!") means nothing here.', 'Remove it.'],
};

/** Findings that need no grammar: nothing to read, far too much, or bytes that are not text; null when there are none. */
export function unreadableText(text: string, where: Place): Finding | null {
  if (text.length > MOST_LETTERS) {
    return errorFinding('too-much', `The file has ${text.length} letters; that is not a profile.`, {
      where: { ...where, line: 1, column: 1 },
      allowed: `at most ${MOST_LETTERS} letters`,
    });
  }
  const stray = /[^\P{Cc}\t\n\r\u0085]/u.exec(text);
  if (stray === null) return null;
  const before = text.slice(0, stray.index).split(/\r\n|\r|\n/);
  const number = stray[0].charCodeAt(0).toString(16).toUpperCase().padStart(4, '0');
  return errorFinding(
    'not-text',
    `The file holds a control character (U+${number}), so it is not plain text.`,
    {
      where: { ...where, line: before.length, column: (before.at(-1) ?? '').length + 1 },
      allowed: 'plain UTF-8 text',
      remedy: 'Remove the character; if there are many, this is not a text file.',
    },
  );
}

export interface SyntaxFindings {
  readonly findings: readonly Finding[];
  readonly brokenFrom: number | null;
}

/** What the YAML reader complained about. */
export function syntaxFindings(document: Document, at: (offset: number) => Place): SyntaxFindings {
  const findings = withoutEchoes(document, at)
    .slice(0, MOST_MISTAKES)
    .map((mistake) => syntaxFinding(mistake, at));
  const lines = document.errors.map((mistake) => at(mistake.pos[0]).line ?? 1);
  if (document.directives?.yaml.version === '1.1') {
    findings.push(
      errorFinding(
        'yaml-version',
        'The file asks for YAML 1.1, where 1:20 is a time and "no" is a truth value.',
        {
          where: at(0),
          remedy: 'Remove the %YAML line.',
        },
      ),
    );
  }
  return { findings, brokenFrom: lines.length === 0 ? null : Math.min(...lines) };
}

/** The first mistake of each line; a tab upsets all that follows, so then the tabs alone. */
function withoutEchoes(document: Document, at: (offset: number) => Place): YAMLError[] {
  const all: YAMLError[] = [...document.errors, ...document.warnings];
  const tabs = all.filter((mistake) => mistake.code === 'TAB_AS_INDENT');
  const kept = tabs.length > 0 ? tabs : all;
  const lines = kept.map((mistake) => at(mistake.pos[0]).line);
  return kept.filter((_, i) => lines.indexOf(lines[i]) === i);
}

function syntaxFinding(mistake: YAMLError, at: (offset: number) => Place): Finding {
  const [text, remedy] = WORDS[mistake.code] ?? [`This is not YAML: ${mistake.message}.`, undefined];
  return errorFinding('yaml-syntax', text, {
    where: at(mistake.pos[0]),
    ...(remedy === undefined ? {} : { remedy }),
  });
}
