import { createHash } from 'node:crypto';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { PREVIEW_SCRIPT } from '../../src/writers/html/client/script.ts';
import { SCRIPT_HASH, STYLE_HASH } from '../../src/writers/html/hashes.ts';
import { PAGE_STYLE } from '../../src/writers/html/style.ts';

function hashOf(text: string): string {
  return `sha256-${createHash('sha256').update(text).digest('base64')}`;
}

/** What TypeScript says of a script that runs in a page. */
function faultsIn(script: string): string[] {
  const name = '/page.js';
  const options: ts.CompilerOptions = {
    allowJs: true,
    checkJs: true,
    noEmit: true,
    strictNullChecks: false,
    noUnusedLocals: true,
    noUnusedParameters: true,
    target: ts.ScriptTarget.ES2022,
    lib: ['lib.es2022.d.ts', 'lib.dom.d.ts', 'lib.dom.iterable.d.ts'],
    types: [],
  };
  const host = ts.createCompilerHost(options);
  const read = host.getSourceFile.bind(host);
  host.getSourceFile = (file, version) =>
    file === name ? ts.createSourceFile(file, script, version) : read(file, version);
  return ts.getPreEmitDiagnostics(ts.createProgram([name], options, host)).map((d) => {
    const line = d.file ? d.file.getLineAndCharacterOfPosition(d.start ?? 0).line + 1 : 0;
    return `${line}: ${ts.flattenDiagnosticMessageText(d.messageText, ' ')}`;
  });
}

describe("the page's script and style", () => {
  it('are the ones whose hashes the page allows (put the received values into hashes.ts)', () => {
    expect({ STYLE_HASH, SCRIPT_HASH }).toEqual({
      STYLE_HASH: hashOf(PAGE_STYLE),
      SCRIPT_HASH: hashOf(PREVIEW_SCRIPT),
    });
  });

  it('hold nothing that would end their element', () => {
    for (const text of [PREVIEW_SCRIPT, PAGE_STYLE]) expect(text).not.toMatch(/<\/|<!--/);
  });

  it('is JavaScript that TypeScript finds no fault in: no misspelt name, no call with wrong arguments', () => {
    expect(faultsIn(`${PREVIEW_SCRIPT}\nundeclared(1);`)).toHaveLength(1);
    expect(faultsIn(PREVIEW_SCRIPT)).toEqual([]);
  });
});
