import type { Fault } from './types.ts';

/** One group code and its value, as written; `line` is the line of the code. */
export interface Tag {
  readonly code: number;
  readonly value: string;
  readonly line: number;
}

export interface Section {
  readonly name: string;
  readonly tags: readonly Tag[];
  readonly line: number;
}

export interface Sections {
  readonly list: readonly Section[];
  readonly tagCount: number;
  readonly faults: readonly Fault[];
}

/** The sections of a DXF text (pairs of lines, group code then value; remarks of code 999 are left out). */
export function readSections(text: string): Sections {
  const { tags, faults } = readTags(text);
  const found = divide(tags);
  return { list: found.list, tagCount: tags.length, faults: [...faults, ...found.faults] };
}

/** Tags cut into runs that each start with code 0: one run per entity, table entry or block. */
export function runs(tags: readonly Tag[]): Tag[][] {
  const list: Tag[][] = [];
  for (const tag of tags) {
    if (tag.code === 0) list.push([tag]);
    else list[list.length - 1]?.push(tag);
  }
  return list;
}

function readTags(text: string): { tags: Tag[]; faults: Fault[] } {
  const lines = text.split(/\r\n|\n/);
  if (lines[lines.length - 1] === '') lines.pop();
  const tags: Tag[] = [];
  for (let i = 0; i < lines.length; i += 2) {
    const code = lines[i] ?? '';
    const value = lines[i + 1];
    if (!/^ *\d{1,4} *$/.test(code)) return stop(tags, i + 1, `"${code.slice(0, 40)}" is not a group code`);
    if (value === undefined) return stop(tags, i + 1, `group code ${code.trim()} has no value`);
    if (Number(code) !== 999) tags.push({ code: Number(code), value, line: i + 1 });
  }
  return { tags, faults: [] };
}

// Once a code and a value are out of step, nothing after it can be trusted.
function stop(tags: Tag[], line: number, text: string): { tags: Tag[]; faults: Fault[] } {
  return { tags, faults: [{ line, text }] };
}

interface Division {
  readonly list: { readonly name: string; readonly tags: Tag[]; readonly line: number }[];
  readonly faults: Fault[];
  state: 'between' | 'inside' | 'ended';
}

function divide(tags: readonly Tag[]): Division {
  const division: Division = { list: [], faults: [], state: 'between' };
  for (const [i, tag] of tags.entries()) {
    const mark = tag.code === 0 ? tag.value : '';
    if (division.state === 'inside') readInside(division, tag, mark);
    else readBetween(division, tag, mark, sectionName(tags[i + 1]));
  }
  if (division.state !== 'ended') {
    division.faults.push({ line: tags[tags.length - 1]?.line ?? 0, text: 'the file has no end mark' });
  }
  return division;
}

function readInside(division: Division, tag: Tag, mark: string): void {
  if (mark === 'ENDSEC') division.state = 'between';
  else if (mark === 'SECTION' || mark === 'EOF')
    division.faults.push({ line: tag.line, text: `a section is not closed before ${mark}` });
  else division.list[division.list.length - 1]?.tags.push(tag);
}

function readBetween(division: Division, tag: Tag, mark: string, name: string): void {
  if (division.state === 'between' && mark === 'EOF') {
    division.state = 'ended';
  } else if (division.state === 'between' && mark === 'SECTION') {
    division.state = 'inside';
    division.list.push({ name, tags: [], line: tag.line });
  } else {
    division.faults.push({ line: tag.line, text: 'something stands outside all sections' });
  }
}

function sectionName(tag: Tag | undefined): string {
  return tag?.code === 2 ? tag.value : '';
}
