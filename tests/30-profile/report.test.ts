import { describe, expect, it } from 'vitest';
import {
  countFindings,
  errorFinding,
  hasErrors,
  noteFinding,
  outcomeOf,
  sortFindings,
  warningFinding,
} from '../../src/report/collect.ts';
import { renderFindings } from '../../src/report/render.ts';

const at = (line: number, column: number, file = 'a.yaml') => ({ file, line, column });

describe('findings', () => {
  it('are shown in the order of their places, those without one last', () => {
    const findings = [
      noteFinding('e', 'Fifth.'),
      warningFinding('d', 'Fourth.', { where: at(1, 1, 'b.yaml') }),
      warningFinding('b', 'Second.', { where: at(2, 5) }),
      errorFinding('c', 'Third.', { where: at(10, 1) }),
      errorFinding('a', 'First.', { where: at(2, 5) }),
    ];
    expect(sortFindings(findings).map(({ code }) => code)).toEqual(['a', 'b', 'c', 'd', 'e']);
    expect(findings[0]?.code).toBe('e');
  });

  it('are counted in words', () => {
    const error = errorFinding('a', 'A.');
    expect(countFindings([])).toBe('nothing found');
    expect(countFindings([error])).toBe('1 error');
    expect(countFindings([noteFinding('n', 'N.'), error, error, warningFinding('w', 'W.')])).toBe(
      '2 errors, 1 warning, 1 note',
    );
  });

  it('decide whether there is a result', () => {
    const note = noteFinding('n', 'N.');
    expect(outcomeOf(1, [note])).toEqual({ ok: true, value: 1, findings: [note] });
    expect(outcomeOf(1, [errorFinding('a', 'A.')]).ok).toBe(false);
    expect(hasErrors([warningFinding('w', 'W.')])).toBe(false);
  });
});

describe('rendering', () => {
  it('shows place, line, caret, and what to do', () => {
    const finding = errorFinding('x', 'The radius is wrong.', {
      where: { ...at(2, 11), path: 'fingerboard.radius' },
      found: '16 m',
      allowed: '50 mm to 3000 mm',
      remedy: 'Correct it.',
    });
    expect(renderFindings([finding], { 'a.yaml': 'name: A\n  radius: 16 m\n' })).toBe(
      [
        'a.yaml:2:11: error: The radius is wrong.',
        '   2 |   radius: 16 m',
        '     |           ^',
        '     field:   fingerboard.radius',
        '     found:   16 m',
        '     allowed: 50 mm to 3000 mm',
        '     do:      Correct it.',
        '',
      ].join('\n'),
    );
  });

  it('does without a file, a line or a source', () => {
    expect(renderFindings([], {})).toBe('');
    expect(renderFindings([noteFinding('n', 'Said.')], {})).toBe('note: Said.\n');
    expect(
      renderFindings([errorFinding('e', 'Bad.', { where: { source: 'shop', path: 'tools' } })], {}),
    ).toBe('shop: error: Bad.\n     field:   tools\n');
    expect(renderFindings([errorFinding('e', 'Bad.', { where: at(9, 1) })], { 'a.yaml': 'one line' })).toBe(
      'a.yaml:9:1: error: Bad.\n',
    );
  });

  it('keeps the caret under its letter behind tabs and in long lines', () => {
    const tab = renderFindings([errorFinding('e', 'Bad.', { where: at(1, 4) })], { 'a.yaml': '\ta: b' });
    expect(tab.split('\n').slice(1, 3)).toEqual(['   1 | \ta: b', '     | \t  ^']);
    const line = `${'x'.repeat(300)}HERE${'y'.repeat(300)}`;
    const [, shown = '', caret = ''] = renderFindings([errorFinding('e', 'Bad.', { where: at(1, 301) })], {
      'a.yaml': line,
    }).split('\n');
    expect(shown.length).toBeLessThan(120);
    expect(shown.slice(caret.indexOf('^'), caret.indexOf('^') + 4)).toBe('HERE');
  });

  it('lets no control character of a file reach a terminal', () => {
    const text = renderFindings(
      [
        errorFinding('e', 'Bad \u001b[31m.', {
          where: { ...at(1, 1, 'a\u0007.yaml'), path: 'p\u009b' },
          found: '\u202eevil\r',
        }),
      ],
      { 'a\u0007.yaml': 'x\u001b]0;title\u0007' },
    );
    expect(text).not.toMatch(/[^\P{Cc}\n\t]|\u202e/u);
    expect(text).toContain('\u{fffd}[31m');
  });
});
