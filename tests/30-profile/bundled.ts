import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Loaded } from '../../src/profile/loaded.ts';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import { loadShop } from '../../src/profile/loadShop.ts';
import type { Instrument, Shop } from '../../src/profile/types.ts';
import type { Outcome } from '../../src/report/finding.ts';
import { renderFindings } from '../../src/report/render.ts';

export const ROOT = dirname(dirname(import.meta.dirname));

/** The text of a file of the project, by its name seen from the top folder; null when there is none. */
export const readProject = (name: string): string | null => {
  const path = join(ROOT, name);
  return existsSync(path) ? readFileSync(path, 'utf8') : null;
};

/** The same, for a file that must be there. */
export function textOf(name: string): string {
  const text = readProject(name);
  if (text === null) throw new Error(`no file ${name}`);
  return text;
}

export const profileNames = (): string[] =>
  readdirSync(join(ROOT, 'profiles'))
    .filter((name) => name.endsWith('.yaml'))
    .sort();

export const bundledInstrument = (name: string): Outcome<Loaded<Instrument>> =>
  loadInstrument(textOf(`profiles/${name}`), `profiles/${name}`);

export const bundledShop = (name: string): Outcome<Loaded<Shop>> =>
  loadShop(textOf(`profiles/${name}`), `profiles/${name}`, readProject);

/** The result of an outcome that must be one; what was found otherwise is the error's text. */
export function soundValue<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(renderFindings(outcome.findings, {}));
  return outcome.value;
}

/** A sound instrument file with some of its text replaced; a text that is not there is a mistake of the test. */
export function parlourWith(...changes: readonly (readonly [from: string, to: string])[]): string {
  return changes.reduce((text, [from, to]) => {
    if (!text.includes(from)) throw new Error(`the parlour does not say: ${from}`);
    return text.replace(from, to);
  }, textOf('profiles/tarn-parlour.yaml'));
}
