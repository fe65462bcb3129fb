/** Changing values in a YAML text and nothing else: comments, order and spacing stay as they are. */
import { isMap, isScalar, isSeq, parseDocument, type Scalar, type YAMLMap, type YAMLSeq } from 'yaml';

/** A field's path, as `fingerboard.widthAt.width` or `strings[0].pitch`, and its new value as a person writes it. */
export interface Change {
  readonly path: string;
  readonly value: string;
}

/** A change that cannot be made, in a sentence. */
export interface BadChange {
  readonly path: string;
  readonly problem: string;
}

export type Changed =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly problems: readonly BadChange[] };

type Part = Scalar | YAMLMap | YAMLSeq;

/** The text with every change made, in order; a key that is not there is added to its group. */
export function setFields(text: string, changes: readonly Change[]): Changed {
  const problems: BadChange[] = [];
  let now = text;
  for (const change of changes) {
    const next = setField(now, change);
    if (next.ok) now = next.text;
    else problems.push(...next.problems);
  }
  return problems.length > 0 ? { ok: false, problems } : { ok: true, text: now };
}

function setField(text: string, { path, value }: Change): Changed {
  const bad = (problem: string): Changed => ({ ok: false, problems: [{ path, problem }] });
  const steps = stepsOf(path);
  if (steps === null) return bad(`"${path}" is not a field's path.`);
  if (/[\r\n\0]/.test(value) || value.trim() === '') return bad('A value is one line of text.');
  const document = parseDocument(text, { schema: 'core' });
  if (document.errors.length > 0 || !isMap(document.contents))
    return bad('The file to begin from is not sound YAML.');
  let node: Part = document.contents;
  for (const [i, step] of steps.entries()) {
    const child = childOf(node, step);
    const last = i === steps.length - 1;
    if (child === null) {
      if (!last || !isMap(node) || typeof step === 'number')
        return bad(`There is no ${path} in the file to begin from.`);
      return { ok: true, text: addKey(text, node, step, written(value)) };
    }
    node = child;
  }
  const range = node.range;
  if (range === undefined || range === null) return bad(`${path} has no place in the file.`);
  if (!isScalar(node) && node.flow !== true) return bad(`${path} is a group: name a field in it.`);
  return { ok: true, text: text.slice(0, range[0]) + written(value) + text.slice(range[1]) };
}

/** A field as the text has it; null when it is not there or is a group. */
export function fieldAsWritten(text: string, path: string): string | null {
  const steps = stepsOf(path);
  const document = parseDocument(text, { schema: 'core' });
  if (steps === null || !isMap(document.contents)) return null;
  let node: Part | null = document.contents;
  for (const step of steps) {
    if (node === null) return null;
    node = childOf(node, step);
  }
  if (!isScalar(node) || node.range === undefined || node.range === null) return null;
  return text.slice(node.range[0], node.range[1]);
}

/** `strings[0].pitch` and `strings.0.pitch` alike. */
function stepsOf(path: string): (string | number)[] | null {
  const parts = path.replace(/\[(\d+)\]/g, '.$1').split('.');
  if (parts.some((part) => !/^(\d{1,3}|[A-Za-z][A-Za-z0-9]*)$/.test(part))) return null;
  return parts.map((part) => (/^\d/.test(part) ? Number(part) : part));
}

function childOf(node: Part, step: string | number): Part | null {
  if (isMap(node) && typeof step === 'string') return asNode(node.get(step, true));
  if (isSeq(node) && typeof step === 'number') return asNode(node.get(step, true));
  return null;
}

function asNode(found: unknown): Part | null {
  return isScalar(found) || isMap(found) || isSeq(found) ? found : null;
}

/** What may stand bare wherever a value may, also between braces. */
const BARE = /^[-\w.½¼¾⅛⅜⅝⅞][-\w./½¼¾⅛⅜⅝⅞ "]*$/;

/** A value as it may stand in the file: as written when YAML reads it back as one value anywhere, in quotes otherwise. */
function written(value: string): string {
  const trimmed = value.trim();
  const alone = parseDocument(trimmed, { schema: 'core' });
  const sound = alone.errors.length === 0 && alone.warnings.length === 0 && alone.comment === null;
  const bare = BARE.test(trimmed) && isScalar(alone.contents);
  const closed = /^(\[.*\]|\{.*\}|".*"|'.*')$/.test(trimmed) && alone.contents?.comment == null;
  return sound && (bare || closed) ? trimmed : JSON.stringify(trimmed);
}

/** A new key after the last one of its group, in the group's own manner. */
function addKey(text: string, group: YAMLMap, key: string, value: string): string {
  const [, end] = group.range ?? [0, 0];
  if (group.flow === true) {
    const close = text.lastIndexOf('}', end);
    const comma = group.items.length === 0 ? '' : ',';
    return `${text.slice(0, close).trimEnd()}${comma} ${key}: ${value} ${text.slice(close)}`;
  }
  const first = group.items[0]?.key;
  const start = isScalar(first) ? (first.range?.[0] ?? 0) : 0;
  const indent = ' '.repeat(start - (text.lastIndexOf('\n', start - 1) + 1));
  const line = text.indexOf('\n', end - 1);
  const at = line === -1 ? text.length : line + 1;
  const before = text.slice(0, at);
  return `${before}${before.endsWith('\n') ? '' : '\n'}${indent}${key}: ${value}\n${text.slice(at)}`;
}
