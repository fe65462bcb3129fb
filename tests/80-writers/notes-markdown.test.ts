import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { code, plain, table } from '../../src/writers/notes/markdown.ts';

describe('plain text in Markdown', () => {
  it.each([
    ['*bold* _x_ `c`', '\\*bold\\* \\_x\\_ \\`c\\`'],
    ['<script>&amp;', '&lt;script&gt;&amp;amp;'],
    ['[a](http://b.c) | d', '\\[a\\](http\\://b.c) \\| d'],
    ['# head', '\\# head'],
    ['- item', '\\- item'],
    ['1. one', '1\\. one'],
    ['0.053 in', '0.053 in'],
    ['two\r\nlines\u2028x', 'two lines x'],
    ['www.x.y a@b', 'www\\.x.y a\\@b'],
    ['a \\ b', 'a \\\\ b'],
  ])('turns %j into %j', (text, safe) => {
    expect(plain(text)).toBe(safe);
  });

  it('gives back the text when read by the rules of CommonMark, and never breaks a row', () => {
    // CommonMark 0.31, 2.4 and 2.5: a backslash before ASCII punctuation is that punctuation; entities are their characters.
    const read = (safe: string): string =>
      safe.replace(/\\([!-/:-@[-`{-~])|&(lt|gt|amp);/g, (_, mark: string | undefined, name: string) =>
        mark !== undefined ? mark : ({ lt: '<', gt: '>', amp: '&' }[name] ?? ''),
      );
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        const safe = plain(text);
        expect(safe).not.toMatch(/[\r\n<]|(?<!\\)(?:\\\\)*[|`*[]/);
        expect(read(safe)).toBe(text.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, ' ').trim());
      }),
      { seed: 5, numRuns: 1000 },
    );
  });

  it('keeps code to names', () => {
    expect(code('fingerboard-slots.nc')).toBe('`fingerboard-slots.nc`');
    expect(() => code('a`b')).toThrow('not fit for code');
  });

  it('sets numbers on the right', () => {
    expect(table(['a', 'b'], [['x', '1']], [1]).split('\n')[1]).toMatch(/^\| :-+ \| -+: \|$/);
  });
});
