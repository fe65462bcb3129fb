/** What the schema complained about, as findings that point into the file. */
import type * as z from 'zod';
import { errorFinding, type FindingDetails } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import { type IssueParams, MISSING } from './schema/fields.ts';
import { didYouMean, nearestName } from './suggest.ts';
import { childOf, joinPath, parentOf } from './yaml/fieldPath.ts';
import type { YamlFile } from './yaml/readYaml.ts';

type Issue = z.core.$ZodIssue;

/**
 * Findings for all issues of one file. A missing key is not reported when a misspelt one beside it is plainly meant for
 * it, nor anything that stands behind a mistake in the YAML itself, where the reading cannot be trusted.
 */
export function findingsOfIssues(issues: readonly Issue[], yaml: YamlFile): Finding[] {
  const meant = new Set(issues.flatMap((issue) => meantKeys(issue, yaml)));
  return issues.flatMap((issue) => findingsOf(issue, yaml)).filter((finding) => isSure(finding, yaml, meant));
}

function isSure(finding: Finding, yaml: YamlFile, meant: ReadonlySet<string>): boolean {
  if (yaml.findings.some((other) => isSamePlace(other, finding))) return false;
  if (finding.code === 'missing-key' && meant.has(finding.where?.path ?? '')) return false;
  if (yaml.brokenFrom === null) return true;
  return finding.code !== 'missing-key' && (finding.where?.line ?? 0) < yaml.brokenFrom;
}

const isSamePlace = (a: Finding, b: Finding): boolean =>
  a.where?.line === b.where?.line && a.where?.column === b.where?.column;

/** Paths that misspelt keys were meant for, when the right spelling is not there too. */
function meantKeys(issue: Issue, yaml: YamlFile): string[] {
  if (issue.code !== 'unrecognized_keys') return [];
  const known = issue.message.split(', ');
  return issue.keys.flatMap((key) => {
    const nearest = nearestName(key, known);
    const path = nearest === null ? null : childOf(joinPath(issue.path), nearest);
    return path === null || yaml.has(path) ? [] : [path];
  });
}

function findingsOf(issue: Issue, yaml: YamlFile): Finding[] {
  if (issue.code === 'unrecognized_keys') return unknownKeys(issue, yaml);
  const path = joinPath(issue.path);
  return [yaml.has(path) ? wrongValue(issue, path, yaml) : missingKey(issue, path, yaml)];
}

function unknownKeys(issue: z.core.$ZodIssueUnrecognizedKeys, yaml: YamlFile): Finding[] {
  const known = issue.message.split(', ');
  const parent = joinPath(issue.path);
  return issue.keys.map((key) => {
    // Between brackets a comma separates: 0,41 becomes a 0 and a key 41.
    const remedy = /^\d/.test(key) ? 'Write a point, not a comma, for decimals.' : didYouMean(key, known);
    return errorFinding(
      'unknown-key',
      `"${key}" is not a key ${parent === '' ? 'of this file' : `of ${parent}`}.`,
      {
        where: yaml.placeOfKey(childOf(parent, key)),
        found: key,
        allowed: known.join(', '),
        ...(remedy === undefined ? {} : { remedy }),
      },
    );
  });
}

function missingKey(issue: Issue, path: string, yaml: YamlFile): Finding {
  const parent = parentOf(path);
  const key = path.slice(parent === '' ? 0 : parent.length + 1);
  const isTold =
    issue.code === 'custom' && paramsOf(issue).code === 'missing-key' && issue.message !== MISSING;
  const allowed = allowedBy(issue);
  return errorFinding(
    'missing-key',
    isTold ? issue.message : `"${key}" is missing${parent === '' ? '' : ` in ${parent}`}.`,
    {
      where: { ...yaml.placeOfKey(parent), path },
      ...(allowed === undefined ? {} : { allowed }),
      remedy: `Add "${key}:"${parent === '' ? '' : ` to ${parent}`}.`,
    },
  );
}

function wrongValue(issue: Issue, path: string, yaml: YamlFile): Finding {
  const written = yaml.written(path);
  const allowed = allowedBy(issue);
  const details: FindingDetails = {
    where: yaml.place(path),
    found: written === undefined || written === '' ? 'nothing' : cutShort(written),
    ...(allowed === undefined ? {} : { allowed }),
  };
  const { code, text, remedy } = explain(issue, written ?? '');
  return errorFinding(code, text, { ...details, ...(remedy === undefined ? {} : { remedy }) });
}

interface Explained {
  readonly code: string;
  readonly text: string;
  readonly remedy?: string | undefined;
}

function explain(issue: Issue, written: string): Explained {
  switch (issue.code) {
    case 'custom': {
      const { code, remedy } = paramsOf(issue);
      return { code, text: issue.message, remedy };
    }
    case 'invalid_value':
      return { code: 'bad-word', text: 'This word is not known here.', remedy: nearestWord(issue, written) };
    case 'invalid_union':
      return {
        code: 'bad-word',
        text: 'This word is not known here.',
        remedy: nearestOption(issue, written),
      };
    case 'invalid_type':
      return {
        code: 'wrong-type',
        text: `This must be ${typeName(issue.expected)}.`,
        remedy: typeRemedy(issue, written),
      };
    case 'too_small':
    case 'too_big':
      return { code: 'out-of-range', text: rangeText(issue) };
    default:
      return { code: 'bad-value', text: `${issue.message}.` };
  }
}

function allowedBy(issue: Issue): string | undefined {
  switch (issue.code) {
    case 'custom':
      return paramsOf(issue).allowed;
    case 'invalid_value':
      return issue.values.map(String).join(', ');
    case 'invalid_union':
      return optionsOf(issue).join(', ');
    case 'too_small':
      return `${issue.origin === 'array' ? 'a list of ' : ''}${issue.minimum} or more`;
    case 'too_big':
      return `${issue.origin === 'array' ? 'a list of ' : ''}${issue.maximum} or less`;
    case 'invalid_type':
      return typeName(issue.expected);
    default:
      return undefined;
  }
}

function paramsOf(issue: z.core.$ZodIssueCustom): IssueParams {
  const { code, allowed, remedy } = issue.params ?? {};
  if (typeof code !== 'string') throw new Error(`issue without a code: ${issue.message}`);
  return {
    code,
    ...(typeof allowed === 'string' ? { allowed } : {}),
    ...(typeof remedy === 'string' ? { remedy } : {}),
  };
}

const nearestWord = (issue: z.core.$ZodIssueInvalidValue, written: string): string | undefined =>
  didYouMean(written, issue.values.map(String));

const nearestOption = (issue: z.core.$ZodIssueInvalidUnion, written: string): string | undefined =>
  didYouMean(written, optionsOf(issue));

function optionsOf(issue: z.core.$ZodIssueInvalidUnion): string[] {
  const options: unknown = 'options' in issue ? issue.options : undefined;
  // A key that may be left out counts as an option of no word.
  return Array.isArray(options) ? options.filter((option) => option !== undefined).map(String) : [];
}

const TYPE_NAMES: Readonly<Record<string, string>> = {
  object: 'a group of keys',
  array: 'a list',
  tuple: 'a list',
  int: 'a whole number',
  number: 'a number',
  boolean: 'true or false',
  string: 'a text',
};

const typeName = (expected: string): string => TYPE_NAMES[expected] ?? expected;

function typeRemedy(issue: z.core.$ZodIssueInvalidType, written: string): string | undefined {
  if (issue.expected === 'number' && /^['"]\d/.test(written)) return 'Take it out of its quotes.';
  if (issue.expected === 'object')
    return 'Write its keys below it, one to a line, each indented by two spaces.';
  if (issue.expected === 'array' || issue.expected === 'tuple')
    return 'Write "[first, second]", or one "- item" to a line.';
  return undefined;
}

function rangeText(issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig): string {
  const isList = issue.origin === 'array';
  if (issue.code === 'too_small') return isList ? 'The list is too short.' : 'This number is too small.';
  return isList ? 'The list is too long.' : 'This number is too large.';
}

const cutShort = (written: string): string => {
  const line = written.split(/\r?\n/)[0] ?? '';
  return line.length < written.length || line.length > 60 ? `${line.slice(0, 60)} ...` : line;
};
