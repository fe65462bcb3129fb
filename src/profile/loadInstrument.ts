/**
 * Reads an instrument file.
 *
 * In: its text and name. Out: the whole instrument with every default filled in, or every mistake of the file at once:
 * in its YAML, in single values, and between values, as far as the rest can be read.
 */
import { errorFinding, hasErrors } from '../report/collect.ts';
import type { Finding, Outcome } from '../report/finding.ts';
import { CONCERT_PITCH, parsePitch } from '../units/pitch.ts';
import { checkSections } from './checkInstrument.ts';
import { findingsOfIssues } from './issues.ts';
import { type Loaded, placeFindings } from './loaded.ts';
import { startFill } from './resolve/fill.ts';
import { type GivenSections, type InstrumentSections, resolveInstrument } from './resolve/instrument.ts';
import { type FileContext, PARSE_ONCE } from './schema/fields.ts';
import { type GivenInstrument, instrumentSchema } from './schema/instrument.ts';
import type { Instrument } from './types.ts';
import { readYaml, type YamlFile } from './yaml/readYaml.ts';

/** Reads, checks and completes one instrument file. */
export function loadInstrument(text: string, file: string): Outcome<Loaded<Instrument>> {
  const yaml = readYaml(text, file, 'instrument');
  const empty = emptyFile(yaml);
  if (empty !== null) return { ok: false, findings: [...yaml.findings, ...empty] };
  const { sections, findings: issues } = parseSections(yaml);
  const fill = startFill();
  const resolved = resolveInstrument(sections, fill);
  const asDrawn = sections.given.markersAsDrawn === true;
  const between = yaml.brokenFrom === null ? checkSections(resolved, asDrawn) : [untrusted(yaml)];
  const all = [...yaml.findings, ...issues, ...wrongUnits(issues, yaml), ...between];
  const findings = placeFindings(all, yaml);
  if (hasErrors(findings)) return { ok: false, findings };
  return {
    ok: true,
    value: {
      value: wholeInstrument(resolved),
      file,
      sources: [{ name: file, text }],
      place: yaml.place,
      has: yaml.has,
      defaults: fill.filled,
    },
    findings,
  };
}

/** Lengths out of range that make a wrong `units` more likely than so many slips. */
const MANY = 5;

function wrongUnits(issues: readonly Finding[], yaml: YamlFile): readonly Finding[] {
  const odd = issues.filter((finding) => finding.code === 'bad-length-size');
  if (odd.length < MANY) return [];
  const units = yaml.written('units') === 'in' ? 'inches' : 'millimetres';
  return [
    {
      code: 'units-doubtful',
      severity: 'note',
      where: yaml.place('units'),
      text: `${odd.length} lengths make no sense in ${units}; check "units" first.`,
    },
  ];
}

/** Findings when a file has nothing in it to judge, or null. */
export function emptyFile(yaml: YamlFile): readonly Finding[] | null {
  if (typeof yaml.data === 'object' && yaml.data !== null && !Array.isArray(yaml.data)) return null;
  if (yaml.findings.length > 0) return [];
  const isEmpty = yaml.data === undefined || yaml.data === null;
  return [
    errorFinding(
      isEmpty ? 'empty-file' : 'wrong-type',
      isEmpty
        ? 'The file is empty.'
        : `The file holds ${Array.isArray(yaml.data) ? 'a list' : 'a single text'}, not keys and values.`,
      { where: { ...yaml.place(''), line: 1, column: 1 }, allowed: 'lines such as "name: My first parlour"' },
    ),
  ];
}

/** Said when the YAML is broken, because checks over guessed values would mislead. */
export function untrusted(yaml: YamlFile): Finding {
  return {
    code: 'not-judged',
    severity: 'note',
    where: { ...yaml.place(''), line: yaml.brokenFrom ?? 1, column: 1 },
    text: 'From this line on the file could not be judged; mend it and look again.',
  };
}

interface Parsed {
  readonly sections: GivenSections;
  readonly findings: readonly Finding[];
}

function parseSections(yaml: YamlFile): Parsed {
  const data = Object(yaml.data) as Record<string, unknown>;
  const schema = instrumentSchema(contextOf(data));
  const parsed = schema.safeParse(data, PARSE_ONCE);
  if (parsed.success) return { sections: { given: parsed.data, failed: new Set() }, findings: [] };
  const given: Record<string, unknown> = {};
  const failed = new Set<string>();
  for (const [key, section] of Object.entries(schema.shape)) {
    const part = section.safeParse(data[key], PARSE_ONCE);
    if (part.success) given[key] = part.data;
    else failed.add(key);
  }
  return {
    sections: { given: given as Partial<GivenInstrument>, failed },
    findings: findingsOfIssues(parsed.error.issues, yaml),
  };
}

/** What the file says about its own units and pitch, read ahead of the rest; a wrong word is reported by the schema. */
function contextOf(data: Record<string, unknown>): FileContext {
  const { units, concertPitch } = data;
  return {
    units: units === 'in' ? 'in' : 'mm',
    concertPitch: typeof concertPitch === 'number' ? concertPitch : hertzOf(concertPitch),
  };
}

function hertzOf(written: unknown): number {
  const parsed = typeof written === 'string' ? parsePitch(written) : null;
  return parsed?.ok ? parsed.value : CONCERT_PITCH;
}

function wholeInstrument(sections: InstrumentSections): Instrument {
  const absent = Object.entries(sections).filter(([, section]) => section === undefined);
  if (absent.length > 0) throw new Error(`sections not resolved: ${absent.map(([key]) => key).join(', ')}`);
  return sections as Instrument;
}
