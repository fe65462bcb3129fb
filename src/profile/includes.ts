/** Bringing in the shop files that a shop file names. */
import { errorFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import { findingsOfIssues } from './issues.ts';
import { emptyFile, untrusted } from './loadInstrument.ts';
import { PARSE_ONCE, PLAIN_CONTEXT } from './schema/fields.ts';
import { type GivenShop, shopSchema } from './schema/shop.ts';
import type { LengthUnit } from './types.ts';
import { readYaml, type YamlFile } from './yaml/readYaml.ts';

/** The text of a named file, or null when there is no such file. */
export type ReadFile = (name: string) => string | null;

/** One shop file after its own reading. `given` is null when it holds mistakes. */
export interface ShopFile {
  readonly yaml: YamlFile;
  readonly given: GivenShop | null;
}

export interface ShopFiles {
  /** Included files before the file that includes them; the root is last. */
  readonly files: readonly ShopFile[];
  readonly findings: readonly Finding[];
}

/** Files nested deeper than this are a mistake. */
const DEEPEST = 8;

interface Gather {
  readonly read: ReadFile;
  /** One schema for each unit that a file uses: making one costs more than reading a file with it. */
  readonly schemas: Map<LengthUnit, ReturnType<typeof shopSchema>>;
  readonly done: Map<string, ShopFile>;
  readonly findings: Finding[];
}

/** Reads a shop file and, each once, all files it includes. */
export function gatherShopFiles(text: string, file: string, read: ReadFile): ShopFiles {
  const state: Gather = { read, schemas: new Map(), done: new Map(), findings: [] };
  // One spelling of the root's name, so that a file that includes it is recognised.
  gather(text, file, [resolveName(file, '') ?? file], state);
  return { files: [...state.done.values()], findings: state.findings };
}

function gather(text: string, file: string, chain: readonly string[], state: Gather): void {
  const yaml = readYaml(text, file, 'shop');
  const parsed = parseShop(yaml, state);
  state.findings.push(...yaml.findings, ...parsed.findings);
  // Names are followed even when the rest of the file is wrong, so that one run shows all mistakes of all files.
  for (const [i, name] of namesIn(yaml.data).entries()) {
    include(name, `include[${i}]`, yaml, chain, state);
  }
  state.done.set(file, { yaml, given: parsed.given });
}

function namesIn(data: unknown): string[] {
  const names: unknown = typeof data === 'object' && data !== null && 'include' in data ? data.include : [];
  return Array.isArray(names) ? names.filter((name): name is string => typeof name === 'string') : [];
}

function include(name: string, path: string, from: YamlFile, chain: readonly string[], state: Gather): void {
  const target = resolveName(name, from.file);
  if (target !== null && state.done.has(target) && !chain.includes(target)) return;
  const text = target === null ? null : state.read(target);
  const refusal = refuseInclude(target, text, chain);
  if (refusal !== null) {
    const [code, sentence, remedy] = refusal;
    state.findings.push(errorFinding(code, sentence, { where: from.place(path), found: name, remedy }));
  } else if (target !== null && text !== null) {
    gather(text, target, [...chain, target], state);
  }
}

type Refusal = readonly [code: string, text: string, remedy: string];

function refuseInclude(target: string | null, text: string | null, chain: readonly string[]): Refusal | null {
  if (target === null) {
    return [
      'include-not-relative',
      'An included file is named relative to this one.',
      'Write a name such as my-tools.yaml.',
    ];
  }
  if (chain.includes(target)) {
    const round = [...chain.slice(chain.indexOf(target)), target].join(' includes ');
    return [
      'include-cycle',
      `The files include each other in a circle: ${round}.`,
      'Remove one of the includes.',
    ];
  }
  if (chain.length > DEEPEST) {
    return ['include-too-deep', 'The files include each other too deep.', 'Bring some of them together.'];
  }
  if (text !== null) return null;
  return [
    'include-not-found',
    `There is no file ${target}.`,
    'Correct the name, or remove it from the list.',
  ];
}

/** The included file's name as seen from where the root was named; null when it is absolute or no file name. */
export function resolveName(name: string, from: string): string | null {
  if (/^[/\\~]|^[a-z]+:|[\p{Cc}\\]/iu.test(name) || name.trim() === '') return null;
  const steps = [...from.split('/').slice(0, -1), ...name.split('/')];
  const kept: string[] = [];
  for (const [i, step] of steps.entries()) {
    if (step === '.' || (step === '' && i > 0)) continue;
    const last = kept.at(-1);
    if (step === '..' && last !== undefined && last !== '..' && last !== '') kept.pop();
    else kept.push(step);
  }
  return kept.join('/');
}

interface ParsedShop {
  readonly given: GivenShop | null;
  readonly findings: readonly Finding[];
}

function parseShop(yaml: YamlFile, { schemas }: Gather): ParsedShop {
  const empty = emptyFile(yaml);
  if (empty !== null) return { given: null, findings: empty };
  const data = Object(yaml.data) as Record<string, unknown>;
  const units = data.units === 'in' ? 'in' : 'mm';
  const schema = schemas.get(units) ?? shopSchema({ ...PLAIN_CONTEXT, units });
  schemas.set(units, schema);
  const parsed = schema.safeParse(data, PARSE_ONCE);
  const broken = yaml.brokenFrom === null ? [] : [untrusted(yaml)];
  if (parsed.success) return { given: broken.length > 0 ? null : parsed.data, findings: broken };
  return { given: null, findings: [...findingsOfIssues(parsed.error.issues, yaml), ...broken] };
}
