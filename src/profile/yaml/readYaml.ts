/**
 * Text to plain data with a place for every field.
 *
 * In: the text of one file. Out: data made of maps, lists and scalars, and where each field stands. Guaranteed: never
 * throws on any text; aliases are expanded within a limit; a key given twice counts once and is reported.
 */
import { Alias, isMap, isScalar, isSeq, LineCounter, type Node, type Pair, parseDocument } from 'yaml';
import { errorFinding } from '../../report/collect.ts';
import type { Finding, Place, Source } from '../../report/finding.ts';
import { canonical, childOf, parentOf } from './fieldPath.ts';
import { syntaxFindings, unreadableText } from './syntax.ts';

/** Most fields of a file, aliases expanded: ten times what a rich shop has. */
const MOST_FIELDS = 20_000;
/** Deepest nesting; a profile needs five. */
const DEEPEST = 20;

interface Entry {
  /** Offset to point at: the value of a scalar, the key of a map or list. */
  readonly offset: number;
  readonly keyOffset: number;
  /** The value as written. */
  readonly source: string;
}

export interface YamlFile {
  readonly file: string;
  readonly text: string;
  /** undefined when nothing could be read. */
  readonly data: unknown;
  readonly findings: readonly Finding[];
  /** Line of the first mistake in the YAML itself; what stands from there on is not to be trusted. */
  readonly brokenFrom: number | null;
  /** Where a field stands; for one that is not there, where the nearest group that holds it stands. */
  readonly place: (path: string) => Place;
  /** Where a field's key stands. */
  readonly placeOfKey: (path: string) => Place;
  readonly has: (path: string) => boolean;
  /** The value of a field as written, or undefined when it is not there. */
  readonly written: (path: string) => string | undefined;
}

/** Reads one YAML 1.2 document. */
export function readYaml(text: string, file: string, source: Source): YamlFile {
  const unreadable = unreadableText(text, { source, file });
  if (unreadable !== null) return describe({ text, file, source, findings: [unreadable] });
  const counter = new LineCounter();
  const document = parseDocument(text, {
    lineCounter: counter,
    prettyErrors: false,
    // Found in the walk instead, where the first of the two can be named.
    uniqueKeys: false,
    schema: 'core',
    stringKeys: false,
  });
  const at = (offset: number): Place => ({ source, file, ...lineAndColumn(counter, offset) });
  const syntax = syntaxFindings(document, at);
  const walk = new Map<string, Entry>();
  const findings: Finding[] = [...syntax.findings];
  const state: Walk = { text, entries: walk, findings, at, anchors: new Map(), count: 0 };
  const data = document.contents === null ? undefined : readNode(document.contents, '', 0, state);
  if (findings.some(isSizeFinding))
    return describe({ text, file, source, findings: findings.filter(isSizeFinding) });
  return describe({ text, file, source, findings, data, entries: walk, at, brokenFrom: syntax.brokenFrom });
}

function lineAndColumn(counter: LineCounter, offset: number): { line: number; column: number } {
  const { line, col } = counter.linePos(offset);
  return { line: Math.max(1, line), column: Math.max(1, col) };
}

interface Read {
  readonly text: string;
  readonly file: string;
  readonly source: Source;
  readonly findings: readonly Finding[];
  readonly data?: unknown;
  readonly entries?: ReadonlyMap<string, Entry>;
  readonly at?: (offset: number) => Place;
  readonly brokenFrom?: number | null;
}

function describe(read: Read): YamlFile {
  const entries = read.entries ?? new Map<string, Entry>();
  const start: Place = { source: read.source, file: read.file, line: 1, column: 1 };
  const at = read.at ?? (() => start);
  const find = (path: string): Entry | undefined => {
    const entry = entries.get(path);
    return entry !== undefined || path === '' ? entry : find(parentOf(path));
  };
  const locate = (path: string, pick: (entry: Entry) => number): Place => {
    const exact = canonical(path);
    const entry = find(exact);
    return { ...(entry === undefined ? start : at(pick(entry))), ...(exact === '' ? {} : { path: exact }) };
  };
  return {
    file: read.file,
    text: read.text,
    data: read.data,
    findings: read.findings,
    brokenFrom: read.brokenFrom ?? null,
    place: (path) => locate(path, (entry) => entry.offset),
    placeOfKey: (path) => locate(path, (entry) => entry.keyOffset),
    has: (path) => entries.has(canonical(path)),
    written: (path) => entries.get(canonical(path))?.source,
  };
}

interface Walk {
  readonly text: string;
  readonly entries: Map<string, Entry>;
  readonly findings: Finding[];
  readonly at: (offset: number) => Place;
  /** Filled in reading order, so that an alias gets the last anchor before it. */
  readonly anchors: Map<string, Node>;
  count: number;
}

function readNode(node: Node, path: string, depth: number, walk: Walk, keyOffset?: number): unknown {
  const offset = node.range?.[0] ?? keyOffset ?? 0;
  walk.count++;
  if (walk.count > MOST_FIELDS || depth > DEEPEST) return refuseSize(offset, walk);
  const isGroup = isMap(node) || isSeq(node);
  walk.entries.set(path, {
    offset: isGroup ? (keyOffset ?? offset) : offset,
    keyOffset: keyOffset ?? offset,
    source: isGroup ? groupName(node) : walk.text.slice(offset, node.range?.[1] ?? offset).trim(),
  });
  if (node instanceof Alias) return readAlias(node, path, depth, walk, offset);
  if (node.anchor !== undefined) walk.anchors.set(node.anchor, node);
  if (isScalar(node)) return node.value;
  if (isSeq(node)) return node.items.map((item, i) => readItem(item, childOf(path, i), depth, walk, offset));
  if (isMap(node)) return readMap(node.items, path, depth, walk);
  throw new Error(`unknown YAML node at offset ${offset}`);
}

const groupName = (node: unknown): string => (isMap(node) ? 'a group of keys' : 'a list');

function readAlias(alias: Alias, path: string, depth: number, walk: Walk, offset: number): unknown {
  const target = walk.anchors.get(alias.source);
  if (target !== undefined) return readNode(target, path, depth + 1, walk, offset);
  walk.findings.push(
    errorFinding('unknown-alias', `"*${alias.source}" refers to an anchor that is not set before it.`, {
      where: walk.at(offset),
      remedy: `Set it with "&${alias.source}" further up, or write the value out.`,
    }),
  );
  return null;
}

function readItem(item: unknown, path: string, depth: number, walk: Walk, listOffset: number): unknown {
  return isNode(item) ? readNode(item, path, depth + 1, walk) : noteEmpty(path, listOffset, walk);
}

function readMap(pairs: readonly Pair[], path: string, depth: number, walk: Walk): Record<string, unknown> {
  // Without a prototype, a key such as __proto__ is a key like any other.
  const data: Record<string, unknown> = Object.create(null);
  for (const pair of pairs) {
    const offset = (isNode(pair.key) ? pair.key.range?.[0] : undefined) ?? 0;
    const key = readKey(pair.key, offset, walk);
    if (key === null) continue;
    const child = childOf(path, key);
    if (walk.entries.has(child)) {
      walk.findings.push(duplicateKey(key, child, offset, walk));
    } else {
      data[key] = isNode(pair.value)
        ? readNode(pair.value, child, depth + 1, walk, offset)
        : noteEmpty(child, offset, walk);
    }
  }
  return data;
}

function readKey(key: unknown, offset: number, walk: Walk): string | null {
  if (isScalar(key) && key.value !== null) return String(key.value);
  walk.findings.push(
    errorFinding('bad-key', 'A key must be a plain word.', {
      where: walk.at(offset),
      remedy: 'Write "key: value", one to a line.',
    }),
  );
  return null;
}

function duplicateKey(key: string, path: string, offset: number, walk: Walk): Finding {
  const first = walk.entries.get(path);
  const line = first === undefined ? undefined : walk.at(first.keyOffset).line;
  return errorFinding('duplicate-key', `"${key}" is given twice; the first one is in line ${line}.`, {
    where: { ...walk.at(offset), path },
    remedy: 'Keep one of the two.',
  });
}

function noteEmpty(path: string, offset: number, walk: Walk): null {
  walk.entries.set(path, { offset, keyOffset: offset, source: '' });
  return null;
}

const isSizeFinding = (finding: Finding): boolean => finding.code === 'too-much';

function refuseSize(offset: number, walk: Walk): null {
  if (!walk.findings.some(isSizeFinding)) {
    walk.findings.push(
      errorFinding('too-much', 'The file nests or repeats too much to be a profile.', {
        where: walk.at(offset),
        allowed: `${MOST_FIELDS} fields after aliases are filled in, nested ${DEEPEST} deep`,
      }),
    );
  }
  return null;
}

const isNode = (value: unknown): value is Node =>
  isScalar(value) || isMap(value) || isSeq(value) || value instanceof Alias;
