import { createHash } from 'node:crypto';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { LIVE_PAGE_SCRIPT, PREVIEW_SCRIPT } from '../../src/writers/html/client/script.ts';
import { LIVE_HASH, SCRIPT_HASH, STYLE_HASH } from '../../src/writers/html/hashes.ts';
import { PAGE_STYLE } from '../../src/writers/html/style.ts';

function hashOf(text: string): string {
  return `sha256-${createHash('sha256').update(text).digest('base64')}`;
}

/** What TypeScript says of scripts that run in a page, one list for each. */
function faultsIn(...scripts: string[]): string[][] {
  const options: ts.CompilerOptions = {
    allowJs: true,
    checkJs: true,
    noEmit: true,
    strictNullChecks: false,
    noUnusedLocals: true,
    noUnusedParameters: true,
    skipLibCheck: true,
    target: ts.ScriptTarget.ES2022,
    lib: ['lib.es2022.d.ts', 'lib.dom.d.ts', 'lib.dom.iterable.d.ts'],
    types: [],
  };
  const files = new Map(scripts.map((script, i) => [`/page${i}.js`, script]));
  const host = ts.createCompilerHost(options);
  const read = host.getSourceFile.bind(host);
  host.getSourceFile = (file, version) => {
    const script = files.get(file);
    return script === undefined ? read(file, version) : ts.createSourceFile(file, script, version);
  };
  const program = ts.createProgram([...files.keys()], options, host);
  const faults = ts.getPreEmitDiagnostics(program);
  return [...files.keys()].map((name) =>
    faults
      .filter((fault) => fault.file === undefined || fault.file.fileName === name)
      .map((fault) => {
        const line = fault.file?.getLineAndCharacterOfPosition(fault.start ?? 0).line ?? -1;
        return `${line + 1}: ${ts.flattenDiagnosticMessageText(fault.messageText, ' ')}`;
      }),
  );
}

describe("the page's script and style", () => {
  it('are the ones whose hashes the page allows (put the received values into hashes.ts)', () => {
    expect({ STYLE_HASH, SCRIPT_HASH, LIVE_HASH }).toEqual({
      STYLE_HASH: hashOf(PAGE_STYLE),
      SCRIPT_HASH: hashOf(PREVIEW_SCRIPT),
      LIVE_HASH: hashOf(LIVE_PAGE_SCRIPT),
    });
  });

  it('hold nothing that would end their element', () => {
    for (const text of [PREVIEW_SCRIPT, LIVE_PAGE_SCRIPT, PAGE_STYLE]) expect(text).not.toMatch(/<\/|<!--/);
  });

  it('is JavaScript that TypeScript finds no fault in: no misspelt name, no call with wrong arguments', () => {
    const [found, live, planted] = faultsIn(
      PREVIEW_SCRIPT,
      LIVE_PAGE_SCRIPT,
      `${PREVIEW_SCRIPT}\nundeclared(1);`,
    );
    expect([found, live]).toEqual([[], []]);
    expect(planted).toEqual([expect.stringContaining("Cannot find name 'undeclared'")]);
  });
});
