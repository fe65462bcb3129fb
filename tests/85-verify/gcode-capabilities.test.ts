/** The reader takes what a control is stated to understand, and refuses the rest by name. */
import { describe, expect, it } from 'vitest';
import { UNDERSTANDS_EVERYTHING, type Understands } from '../../src/verify/gcode/understands.ts';
import { PLAIN_START, read } from './gcode-support.ts';

function rulesOf(text: string, more: Partial<Understands>): string[] {
  return read(text, PLAIN_START, { ...UNDERSTANDS_EVERYTHING, ...more }).refusals.map((r) => r.rule);
}

const program = (offset: string, ...lines: readonly string[]): string =>
  ['G21 G17 G90 G94 G98', `G40 G49 ${offset}`, 'G0 Z5', 'X0 Y0', ...lines, 'M2', ''].join('\n');

describe('work offsets', () => {
  it.each([
    ['G54', {}, []],
    ['G55', {}, ['other-offset', 'mode-not-set']],
    ['G55', { workOffset: 'G55' }, []],
    ['G59', { workOffset: 'G59' }, []],
    ['G54', { workOffset: 'G55' }, ['other-offset', 'mode-not-set']],
    ['G59.1', { workOffset: 'G59' }, ['other-offset', 'mode-not-set']],
  ] as const)('%s on a control with %o', (offset, more, rules) => {
    expect(rulesOf(program(offset), more)).toEqual(rules);
  });
});

describe('the length of a tool', () => {
  it.each([
    ['G49 by default', 'G49', {}, []],
    ['G43 by default', 'G43 H1', {}, ['tool-table', 'mode-not-set']],
    ['G49 where there is no word for it', 'G49', { lengthOffset: 'none' }, ['not-understood']],
    ['nothing where there is no word for it', '', { lengthOffset: 'none' }, []],
    ['nothing where there is one', '', {}, ['mode-not-set']],
    ['H alone', 'G49 H1', { lengthOffset: 'G43' }, ['tool-table']],
  ] as const)('%s', (_, words, more, rules) => {
    const text = ['G21 G17 G90 G94', `G40 ${words} G54`, 'G0 Z5', 'M2', ''].join('\n');
    expect(rulesOf(text, more)).toEqual(rules);
  });

  it.each([
    ['of the tool in the spindle', ['T3 M6', 'G43 H3', 'G0 Z5'], []],
    ['of another tool', ['T3 M6', 'G43 H2', 'G0 Z5'], ['tool-table']],
    ['without a number', ['T3 M6', 'G43', 'G0 Z5'], ['tool-table']],
    ['turned off with a tool in the spindle', ['T3 M6', 'G43 H3', 'G49', 'G0 Z5'], ['mode-not-set']],
    ['with no tool yet', ['G43 H3', 'G0 Z5'], ['tool-table']],
  ] as const)('taken from the table, %s', (_, lines, rules) => {
    const text = ['G21 G17 G90 G94', 'G40 G49 G54', ...lines, 'M2', ''].join('\n');
    expect(rulesOf(text, { lengthOffset: 'G43' })).toEqual(rules);
  });
});

describe('pauses', () => {
  it('count seconds, or thousandths of one', () => {
    const text = program('G54', 'G4 P1500');
    const seconds = (more: Partial<Understands>): number | undefined =>
      read(text, PLAIN_START, { ...UNDERSTANDS_EVERYTHING, ...more }).moves.find((m) => m.kind === 'dwell')
        ?.seconds;
    expect(seconds({})).toBe(1500);
    expect(seconds({ dwellUnit: 'seconds' })).toBe(1500);
    expect(seconds({ dwellUnit: 'milliseconds' })).toBe(1.5);
  });

  it('at the bottom of a hole too', () => {
    const text = program('G54', 'G82 X1 Y1 Z-1 R1 P250 F100', 'G80');
    const moves = read(text, PLAIN_START, { ...UNDERSTANDS_EVERYTHING, dwellUnit: 'milliseconds' }).moves;
    expect(moves.find((m) => m.kind === 'dwell')?.seconds).toBe(0.25);
  });
});

describe('the form of the text', () => {
  it('comments are refused where they are not skipped', () => {
    expect(rulesOf(program('G54', 'G1 X1 F100 (aside)', '; more'), {})).toEqual([]);
    expect(rulesOf(program('G54', 'G0 X1 (aside)', '; more'), { comments: false })).toEqual([
      'not-understood',
      'not-understood',
    ]);
  });

  it('percent lines are refused when they are missing where they must stand', () => {
    const text = program('G54');
    expect(rulesOf(text, { percentLines: true })).toEqual(['percent']);
    expect(rulesOf(`%\n${text}%\n`, { percentLines: true })).toEqual([]);
    expect(rulesOf(`%\n${text}%\n`, {})).toEqual([]);
    expect(rulesOf(`%\n${text}`, { percentLines: true })).toEqual(['percent']);
  });

  it('lines longer than the control takes are refused', () => {
    const line = `G0 X1 (${'a'.repeat(73)})`;
    expect(line.length).toBe(81);
    expect(rulesOf(program('G54', line), { lineLength: 80 })).toEqual(['line-length']);
    expect(rulesOf(program('G54', line), { lineLength: 81 })).toEqual([]);
  });
});

describe('after a change of tools, read afresh', () => {
  const change = ['M5', 'T3 M6'];
  const full = ['G21 G17 G90 G94', 'G40 G49 G54', 'G80', 'G0 Z5'];

  it('everything must be said again, and is then the same from anywhere', () => {
    const afresh = { afreshAfterTool: true } as const;
    expect(rulesOf(program('G54', ...change, ...full, 'X1 Y1', 'G1 Z-1 F100'), afresh)).toEqual([]);
    expect(rulesOf(program('G54', ...change, 'G0 Z5'), {})).toEqual([]);
    expect(new Set(rulesOf(program('G54', ...change, 'G0 Z5'), afresh))).toEqual(new Set(['mode-not-set']));
    expect(rulesOf(program('G54', ...change, ...full, 'G1 Z-1 F100'), afresh)).toEqual([
      'position-not-set',
      'position-not-set',
    ]);
    expect(rulesOf(program('G54', 'M5', 'T3', 'M6', ...full), afresh)).toEqual([]);
  });

  it('tells every change, its tool and whether the spindle still turned', () => {
    const text = program('G54', 'M3 S9000', 'T3 M6', 'M3', 'M5', 'T4 M6');
    expect(read(text).toolChanges).toEqual([
      { line: 6, tool: 3, spindleOn: true },
      { line: 9, tool: 4, spindleOn: false },
    ]);
  });
});
