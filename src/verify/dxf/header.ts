import { runs, type Section, type Tag } from './tags.ts';
import type { Fault } from './types.ts';

/** `$INSUNITS` 4 is millimetres, `$MEASUREMENT` 1 is metric (published DXF reference, HEADER section). */
const UNITS: readonly (readonly [variable: string, value: string, words: string])[] = [
  ['$INSUNITS', '4', 'millimetres'],
  ['$MEASUREMENT', '1', 'metric'],
];

export interface LayerEntry {
  readonly name: string;
  readonly line: number;
  /** Off or frozen: a reader would not show what is on it. */
  readonly hidden: boolean;
}

/** What is wrong with the declared units: each must be stated once, and be millimetres. */
export function unitFaults(header: Section | undefined): { faults: Fault[]; seen: number } {
  const variables = headerVariables(header?.tags ?? []);
  const faults: Fault[] = [];
  let seen = 0;
  for (const [name, value, words] of UNITS) {
    const stated = variables.filter((v) => v.name === name);
    seen += stated.length;
    if (stated.length !== 1)
      faults.push({ line: header?.line ?? 0, text: `${name} is stated ${stated.length} times` });
    for (const { line, value: found } of stated)
      if (found !== value) faults.push({ line, text: `${name} is "${found}", not ${value} (${words})` });
  }
  return { faults, seen };
}

/** The layers a file declares. */
export function readLayers(tables: Section | undefined): LayerEntry[] {
  return runs(tables?.tags ?? [])
    .filter((run) => run[0]?.value === 'LAYER')
    .map((run) => ({
      name: codeValue(run, 2),
      line: run[0]?.line ?? 0,
      hidden: Number(codeValue(run, 62)) < 0 || (Number(codeValue(run, 70)) & 1) === 1,
    }));
}

function headerVariables(tags: readonly Tag[]): { name: string; value: string; line: number }[] {
  return tags.flatMap((tag, i) =>
    tag.code === 9 ? [{ name: tag.value, value: tags[i + 1]?.value.trim() ?? '', line: tag.line }] : [],
  );
}

function codeValue(run: readonly Tag[], code: number): string {
  return run.find((tag) => tag.code === code)?.value ?? '';
}
