import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import { loadShop } from '../../src/profile/loadShop.ts';
import { countFindings, hasErrors } from '../../src/report/collect.ts';
import type { Finding } from '../../src/report/finding.ts';
import { renderFindings } from '../../src/report/render.ts';

/** Each broken file has beside it, as .txt, the whole answer that a person gets. A case is added by adding the two. */
const FOLDER = join(import.meta.dirname, 'broken');
// The folder has a formatter setting of its own too, so that the broken files stay broken.
const files = readdirSync(FOLDER)
  .filter((name) => name !== 'biome.json')
  .sort();
const cases = files.filter((name) => name.endsWith('.yaml'));

const readBeside = (name: string): string | null => {
  const path = join(FOLDER, name);
  return existsSync(path) ? readFileSync(path, 'utf8') : null;
};

function findingsIn(name: string, text: string): readonly Finding[] {
  const outcome = name.startsWith('shop-') ? loadShop(text, name, readBeside) : loadInstrument(text, name);
  expect(outcome.ok).toBe(false);
  return outcome.findings;
}

describe('broken files', () => {
  it('are at least fifteen, each with its answer and no answer without its file', () => {
    expect(cases.length).toBeGreaterThanOrEqual(15);
    const answers = files
      .filter((name) => name.endsWith('.txt'))
      .map((name) => `${basename(name, '.txt')}.yaml`);
    expect(answers).toEqual(cases);
    expect(files.length).toBe(2 * cases.length);
  });

  it.each(cases)('%s', (name) => {
    const text = readFileSync(join(FOLDER, name), 'utf8');
    const findings = findingsIn(name, text);
    const answer = `${renderFindings(findings, { [name]: text })}\n${countFindings(findings)}\n`;
    expect(answer).toBe(readFileSync(join(FOLDER, `${basename(name, '.yaml')}.txt`), 'utf8'));
    expect(hasErrors(findings)).toBe(true);
  });

  it.each(cases)(
    '%s: every finding stands in its file, has a code and says what is wrong in a sentence',
    (name) => {
      const text = readFileSync(join(FOLDER, name), 'utf8');
      const lines = text.split('\n');
      for (const finding of findingsIn(name, text)) {
        expect(finding.code).toMatch(/^[a-z0-9-]+$/);
        expect(finding.text).toMatch(/^[^a-z].*[.]$/);
        expect(finding.where?.file).toBe(name);
        expect(finding.where?.line).toBeGreaterThan(0);
        expect(finding.where?.line).toBeLessThanOrEqual(lines.length);
        expect(finding.where?.column).toBeLessThanOrEqual(
          (lines[(finding.where?.line ?? 1) - 1] ?? '').length + 1,
        );
      }
    },
  );
});
