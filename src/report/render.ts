/** Findings as plain text for a person: place, sentence, the line itself with a caret, what was found and what to do. */
import { sortFindings } from './collect.ts';
import type { Finding, Place } from './finding.ts';

/** Texts of the files that findings point into, by file name. */
export type Sources = Readonly<Record<string, string>>;

/** Widest piece of a source line that is shown. */
const SHOWN_WIDTH = 100;

/**
 * All findings in the order of their places, each as a paragraph, ending with a line feed; '' when there are none.
 * Control characters that came from a file are shown as a replacement sign, never sent to a terminal.
 */
export function renderFindings(findings: readonly Finding[], sources: Sources): string {
  return sortFindings(findings)
    .map((finding) => `${renderFinding(finding, sources)}\n`)
    .join('\n');
}

/** One finding as a paragraph without a line feed at its end. */
export function renderFinding(finding: Finding, sources: Sources): string {
  const lines = [`${placeText(finding.where)}${finding.severity}: ${visible(finding.text)}`];
  lines.push(...sourceLines(finding.where, sources));
  lines.push(...detail('field', finding.where?.path));
  lines.push(...detail('found', finding.found));
  lines.push(...detail('allowed', finding.allowed));
  lines.push(...detail('do', finding.remedy));
  return lines.join('\n');
}

function placeText(where: Place | undefined): string {
  const name = where?.file ?? where?.source;
  if (name === undefined) return '';
  const numbers = [where?.line, where?.column].filter((number) => number !== undefined);
  return `${[visible(name), ...numbers].join(':')}: `;
}

function sourceLines(where: Place | undefined, sources: Sources): string[] {
  if (where?.file === undefined || where.line === undefined) return [];
  const line = sources[where.file]?.split(/\r\n|\r|\n/)[where.line - 1];
  if (line === undefined || line.trim() === '') return [];
  const column = Math.min(where.column ?? 1, line.length + 1);
  const from = column > SHOWN_WIDTH - 10 ? column - SHOWN_WIDTH / 2 : 0;
  const shown = line.slice(from, from + SHOWN_WIDTH);
  // Tabs stay tabs before the caret, so that it stands under its letter whatever the tab's width.
  const indent = shown.slice(0, column - 1 - from).replace(/[^\t]/gu, ' ');
  const number = String(where.line).padStart(4);
  return [`${number} | ${visible(shown)}`, `     | ${indent}^`];
}

function detail(label: string, text: string | undefined): string[] {
  return text === undefined ? [] : [`     ${`${label}:`.padEnd(9)}${visible(text)}`];
}

/** Control characters (a tab excepted), line separators and direction marks must not reach a terminal. */
function visible(text: string): string {
  return text.replace(/[^\P{Cc}\t]|[\p{Zl}\p{Zp}\p{Cs}\u202a-\u202e\u2066-\u2069]/gu, '\u{fffd}');
}
