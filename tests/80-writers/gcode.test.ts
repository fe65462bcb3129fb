import { describe, expect, it } from 'vitest';
import { planMoves } from '../../src/motion/planMoves.ts';
import { commentText } from '../../src/writers/gcode/commentText.ts';
import { coordinate, rounded } from '../../src/writers/gcode/numbers.ts';
import { writeProgram } from '../../src/writers/gcode/write.ts';
import { router } from '../support/instrument.ts';
import { planOf } from '../support/job.ts';

const head = { remarks: ['a program'], controller: router.controller };

/** Start and end radius of every arc of a program, read from its text with a few lines of our own. */
function radiiIn(text: string): { line: string; from: number; to: number }[] {
  const at: Record<string, number> = { X: 0, Y: 0, Z: 0 };
  const arcs: { line: string; from: number; to: number }[] = [];
  let motion = '';
  for (const line of text.replace(/\(.*?\)/g, '').split('\n')) {
    const words = [...line.matchAll(/([A-Z])(-?[\d.]+)/g)].map((m) => [m[1] ?? '', Number(m[2])] as const);
    for (const [letter, value] of words) if (letter === 'G' && value <= 3) motion = `G${value}`;
    const start = { ...at };
    for (const [letter, value] of words) if (letter in at) at[letter] = value;
    const offsets = words.filter(([letter]) => 'IJK'.includes(letter));
    if (offsets.length === 0) continue;
    expect(motion).toMatch(/G[23]/);
    const square = (list: readonly number[]): number => Math.hypot(...list);
    const pairs = offsets.map(([letter, value]) => ({ axis: 'XYZ'['IJK'.indexOf(letter)] ?? '', value }));
    arcs.push({
      line,
      from: square(pairs.map((p) => p.value)),
      to: square(pairs.map((p) => (at[p.axis] ?? 0) - (start[p.axis] ?? 0) - p.value)),
    });
  }
  return arcs;
}

describe('numbers in programs', () => {
  it.each([
    [0.1 + 0.2, 4, '0.3'],
    [-1e-9, 4, '0'],
    [1e-7, 5, '0'],
    [12, 3, '12'],
    [-0.05, 2, '-0.05'],
    [1234567.89, 3, '1234567.89'],
    [100, 0, '100'],
  ])('writes %d with %d digits as %s', (value, decimals, text) => {
    expect(coordinate(value, decimals)).toBe(text);
    expect(Object.is(rounded(value, decimals), Number(text))).toBe(true);
  });

  it('refuses what is not a number', () => {
    expect(() => coordinate(Number.NaN, 4)).toThrow('coordinate NaN');
  });
});

describe('a written program', () => {
  const jobs = planOf().jobs;

  it.each(jobs.map((job) => [job.program, job] as const))(
    '%s keeps its arcs within 0.001 mm of a circle',
    (_name, job) => {
      const moves = planMoves(job);
      const meant = moves.filter((m) => m.kind === 'arc').length;
      for (const decimals of [3, 4, 5]) {
        const text = writeProgram(moves, { ...head, controller: { ...job.machine.controller, decimals } });
        const arcs = radiiIn(text);
        expect(arcs.length).toBeGreaterThanOrEqual(meant * 0.95);
        for (const arc of arcs)
          expect(Math.abs(arc.from - arc.to), arc.line).toBeLessThanOrEqual(0.001 + 1e-9);
        expect(Math.max(...text.split('\n').map((l) => l.length))).toBeLessThanOrEqual(255);
      }
    },
  );

  it('is the same text each time', () => {
    const write = (): string[] => planOf().jobs.map((job) => writeProgram(planMoves(job), head));
    expect(write()).toEqual(write());
  });

  it('never lets a name become a command', () => {
    const hostile = 'ok) M3 S99999\nG0 Z-50 (\u2028%\r; G1 é"#1=2';
    const text = writeProgram([{ kind: 'rapid', z: 5 }], { ...head, remarks: [hostile] });
    const [first, ...rest] = text.split('\n');
    expect(first).toMatch(/^\([^()]*\)$/);
    expect(rest).toEqual(['G21 G17 G90 G94', 'G40 G49 G54 G61', 'G80', 'G0 Z5', 'M2', '']);
    expect(commentText(hostile)).not.toMatch(/[^\x20-\x7e]|[()%;]/);
  });

  it('keeps the meaning of names as far as plain letters go, and shows where something stood', () => {
    expect(commentText('Łódź (No. 2) – 1½″')).toBe('Lodz No. 2 - 1 1/2"');
    expect(commentText('Ærø’s “Große” ±0.01 mm, 90°, F♯')).toBe(`AEro's "Grosse" +/-0.01 mm, 90 deg, F#`);
    expect(commentText('гитара two, 吉他 ギター three')).toBe('? two, ? three');
    expect(commentText('a\u200bb\u0000c')).toBe('a b c');
    expect(commentText('')).toBe('');
  });

  it('never begins a comment that a control may take for an order', () => {
    const names = ['MSG, press start', 'debug,#5220', 'PROBEOPEN , x.txt', `${'word '.repeat(50)}LOG, text`];
    for (const name of names) {
      const text = writeProgram([{ kind: 'rapid', z: 5 }], { ...head, remarks: [name] });
      const comments = text.split('\n').filter((line) => line.startsWith('('));
      expect(comments.length).toBeGreaterThan(0);
      for (const comment of comments) {
        expect(comment).not.toMatch(/^\(\s*\w+\s*,/);
        expect(comment.length).toBeLessThanOrEqual(router.controller.lineLength);
      }
    }
  });

  it('says only words the control understands', () => {
    const bare = {
      ...router.controller,
      exactPath: false,
      comments: false,
      lineNumbers: true,
      programEnd: 'M30' as const,
    };
    const text = writeProgram([{ kind: 'rapid', z: 5 }], { remarks: ['x'], controller: bare });
    expect(text).toBe('N5 G21 G17 G90 G94\nN10 G40 G49 G54\nN15 G80\nN20 G0 Z5\nN25 M30\n');
  });

  it('drops an arc whose ends round to one point, which would be read as a full circle', () => {
    const text = writeProgram(
      [
        { kind: 'rapid', x: 0, y: 0, z: 0 },
        {
          kind: 'arc',
          plane: 'xy',
          clockwise: true,
          to: { x: 1e-6, y: 1e-6, z: -1 },
          centre: { x: 5, y: 0, z: 0 },
          feed: 100,
        },
      ],
      head,
    );
    expect(text).not.toMatch(/^G2 /m);
    expect(text).toContain('G1 Z-1 F100');
  });

  it('writes a drilled hole as a cycle or in full', () => {
    const hole = { kind: 'drill', x: 10, y: 5, z: -4, retract: 0.5, peck: 2, feed: 100 } as const;
    const long = writeProgram([{ kind: 'rapid', z: 5 }, hole], { ...head, remarks: [] });
    expect(long.split('\n').slice(4, -2)).toEqual([
      'X10 Y5',
      'Z0.5',
      'G1 Z-1.5 F100',
      'G0 Z0.5',
      'Z-1.246',
      'G1 Z-3.5',
      'G0 Z0.5',
      'Z-3.246',
      'G1 Z-4',
      'G0 Z0.5',
    ]);
    const cycles = { ...router.controller, drillCycles: true };
    const short = writeProgram([{ kind: 'rapid', z: 5 }, hole], { remarks: [], controller: cycles });
    expect(short.split('\n').slice(4, -2)).toEqual([
      'X10 Y5',
      'Z0.5',
      'G98 G83 X10 Y5 Z-4 R0.5 Q2 F100',
      'G80',
    ]);
  });
});
