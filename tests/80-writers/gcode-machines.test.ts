/** The form of a program: what the writer makes of each capability that a shop file states. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Move } from '../../src/motion/types.ts';
import type { Controller, Plane } from '../../src/profile/types.ts';
import { readProgram } from '../../src/verify/gcode/readProgram.ts';
import type { Motion } from '../../src/verify/gcode/types.ts';
import { UNDERSTANDS_EVERYTHING } from '../../src/verify/gcode/understands.ts';
import { MOST_MISMATCH } from '../../src/writers/gcode/arc.ts';
import { type Stage, writeProgram, writeStages } from '../../src/writers/gcode/write.ts';
import { router } from '../support/instrument.ts';

const plain: Controller = { ...router.controller, exactPath: false };
const lift: Move = { kind: 'rapid', z: 5 };

function textOf(
  moves: readonly Move[],
  patch: Partial<Controller>,
  remarks: readonly string[] = [],
): string[] {
  return writeProgram(moves, { remarks, controller: { ...plain, ...patch } })
    .split('\n')
    .slice(0, -1);
}

const START = {
  units: 'mm',
  distance: 'absolute',
  plane: 'xy',
  feedMode: 'per minute',
  position: [0, 0, 0],
} as const;

function motionsOf(lines: readonly string[]): Motion[] {
  const motions: Motion[] = [];
  const bytes = new TextEncoder().encode(`${lines.join('\n')}\n`);
  const { refusals } = readProgram(bytes, START, UNDERSTANDS_EVERYTHING, (m) => motions.push({ ...m }));
  expect(refusals).toEqual([]);
  return motions;
}

describe('capabilities, one by one', () => {
  it.each<[string, Partial<Controller>, readonly Move[], readonly string[]]>([
    ['millimetres', {}, [lift], ['G21 G17 G90 G94', 'G40 G49 G54', 'G80', 'G0 Z5', 'M2']],
    [
      'inches: heights of rapids rounded up, feeds down',
      { units: 'in', decimals: 4 },
      [lift, { kind: 'feed', x: 25.4, y: -12.7, z: -1, feed: 600 }],
      ['G20 G17 G90 G94', 'G40 G49 G54', 'G80', 'G0 Z0.1969', 'G1 X1 Y-0.5 Z-0.0394 F23.62', 'M2'],
    ],
    [
      'another work offset, no word of tool length, M30',
      { workOffset: 'G57', lengthOffset: 'none', programEnd: 'M30' },
      [lift],
      ['G21 G17 G90 G94', 'G40 G57', 'G80', 'G0 Z5', 'M30'],
    ],
    [
      'no blanks between words',
      { wordSpaces: false },
      [lift, { kind: 'feed', x: 1, feed: 100 }],
      ['G21G17G90G94', 'G40G49G54', 'G80', 'G0Z5', 'G1X1F100', 'M2'],
    ],
    [
      'numbered lines between percent lines',
      { percentLines: true, lineNumbers: true, numbering: { start: 100, step: 20 } },
      [lift],
      ['%', 'N100 G21 G17 G90 G94', 'N120 G40 G49 G54', 'N140 G80', 'N160 G0 Z5', 'N180 M2', '%'],
    ],
    [
      'a pause in milliseconds',
      { dwellUnit: 'milliseconds' },
      [{ kind: 'spindle', rpm: 9000, dwell: 2.5 }],
      ['G21 G17 G90 G94', 'G40 G49 G54', 'G80', 'M3 S9000', 'G4 P2500', 'M2'],
    ],
    [
      'a beam that pierces, in seconds; its power is taken away with it',
      {},
      [{ kind: 'beam', s: 800, pierce: 0.35 }, { kind: 'beam off' }],
      ['G21 G17 G90 G94', 'G40 G49 G54', 'G80', 'M3 S800', 'G4 P0.35', 'M5 S0', 'M2'],
    ],
    [
      'a beam whose power follows the speed, with S from 0 to 1',
      { beamWord: 'M4' },
      [{ kind: 'beam', s: 0.825, pierce: 0 }, { kind: 'beam off' }],
      ['G21 G17 G90 G94', 'G40 G49 G54', 'G80', 'M4 S0.825', 'M5 S0', 'M2'],
    ],
  ])('%s', (_, patch, moves, lines) => {
    expect(textOf(moves, patch)).toEqual(lines);
  });

  it('N words begin again before they would need six digits', () => {
    const many = Array.from({ length: 30 }, (_, i): Move => ({ kind: 'feed', x: i + 1, feed: 100 }));
    const lines = textOf([lift, ...many], { lineNumbers: true, numbering: { start: 9000, step: 4000 } });
    const numbers = lines.map((l) => Number(/^N(\d+) /.exec(l)?.[1]));
    expect(Math.max(...numbers)).toBe(97_000);
    expect(numbers.slice(22, 25)).toEqual([97_000, 9000, 13_000]);
  });

  it('a drill cycle in inches keeps its pecks within the step and adds no sliver', () => {
    const hole: Move = { kind: 'drill', x: 0, y: 0, z: -7.5, retract: 0.5, peck: 1.6, feed: 100 };
    const five = textOf([lift, hole], { drillCycles: true, units: 'in', decimals: 5 });
    expect(five.find((l) => l.includes('G83'))).toBe('G98 G83 X0 Y0 Z-0.29528 R0.01969 Q0.063 F3.93');
    expect(motionsOf(five).filter((m) => m.kind === 'feed')).toHaveLength(5);
    const four = textOf([lift, hole], { drillCycles: true, units: 'in', decimals: 4 });
    const pecks = motionsOf(four).filter((m) => m.kind === 'feed');
    expect(Math.max(...pecks.map((m) => m.fromZ - m.toZ - 0.254))).toBeLessThanOrEqual(1.6 + 0.0009);
  });
});

describe('a program for several tools', () => {
  const stage = (tool: number): Stage => ({
    tool,
    remarks: [`work with ${tool}`],
    moves: [
      lift,
      { kind: 'spindle', rpm: 9000, dwell: 2 },
      { kind: 'rapid', x: tool, y: 0 },
      { kind: 'feed', z: -1, feed: 100 },
      { kind: 'rapid', z: 5 },
      { kind: 'spindle off' },
      { kind: 'rapid', x: 0, y: 0 },
    ],
  });
  const full = ['G21 G17 G90 G94', 'G40 G49 G54', 'G80'];
  const cut = (x: number, first: string): string[] => [
    ...full,
    ...(first === '' ? [] : [first]),
    'G0 Z5',
    'M3 S9000',
    'G4 P2',
    `X${x} Y0`,
    'G1 Z-1 F100',
    'G0 Z5',
    'M5',
    'X0',
  ];

  it('lifts first, and sets every mode again after each change with the spindle off', () => {
    const text = writeStages([stage(3), stage(7)], {
      remarks: ['head'],
      controller: { ...plain, toolChange: 'M6' },
    });
    expect(text.split('\n')).toEqual([
      '(head)',
      ...full,
      'M5',
      'G0 Z5',
      '(work with 3)',
      'T3 M6',
      ...cut(3, ''),
      '(work with 7)',
      'T7 M6',
      ...cut(7, ''),
      'M2',
      '',
    ]);
  });

  it('takes the length of each tool from the table where the control has one', () => {
    const text = writeStages([stage(3)], {
      remarks: [],
      controller: { ...plain, toolChange: 'M6', lengthOffset: 'G43' },
    });
    expect(text.split('\n').slice(6, -2)).toEqual(['T3 M6', ...cut(3, 'G43 H3')]);
  });
});

const units = fc.constantFrom<Partial<Controller>>(
  { units: 'mm', decimals: 3 },
  { units: 'mm', decimals: 4 },
  { units: 'mm', decimals: 5 },
  { units: 'in', decimals: 4 },
  { units: 'in', decimals: 5 },
);

describe('arcs after rounding', () => {
  const real = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
  const arcs = fc.record({
    plane: fc.constantFrom<Plane>('xy', 'xz', 'yz'),
    centre: fc.tuple(real(-300, 300), real(-300, 300)),
    radius: fc.oneof(real(0.05, 1), real(1, 30), real(150, 1200)),
    from: real(-Math.PI, Math.PI),
    sweep: fc.oneof(real(0.0005, 0.05), real(0.05, 3.1), fc.constant(Math.PI)),
    clockwise: fc.boolean(),
    patch: units,
  });
  const AXES = { xy: ['x', 'y'], xz: ['z', 'x'], yz: ['y', 'z'] } as const;

  it('have their two ends at one distance from the centre: half of what an interpreter lets pass', () => {
    let seen = 0;
    fc.assert(
      fc.property(arcs, ({ plane, centre, radius, from, sweep, clockwise, patch }) => {
        const [a, b] = AXES[plane];
        const turn = clockwise ? -sweep : sweep;
        const at = (angle: number): { x: number; y: number; z: number } => ({
          x: 1,
          y: 2,
          z: 3,
          [a]: centre[0] + radius * Math.cos(angle),
          [b]: centre[1] + radius * Math.sin(angle),
        });
        const { x, y, z } = at(from);
        const middle = { x: 1, y: 2, z: 3, [a]: centre[0], [b]: centre[1] };
        const lines = textOf(
          [
            { kind: 'rapid', x, y, z: z + 1 },
            { kind: 'feed', x, y, z, feed: 100 },
            { kind: 'arc', plane, clockwise, to: at(from + turn), centre: middle, feed: 100 },
          ],
          { ...patch, arcPlanes: ['xy', 'xz', 'yz'] },
        );
        const arc = motionsOf(lines).find((m) => m.kind === 'arc');
        if (arc === undefined) return;
        seen += 1;
        const scale = patch.units === 'in' ? 25.4 : 1;
        const step = scale * 10 ** -(patch.decimals ?? 4);
        const centreOf = { x: arc.centreX, y: arc.centreY, z: arc.centreZ };
        const ends = [
          { x: arc.fromX, y: arc.fromY, z: arc.fromZ },
          { x: arc.toX, y: arc.toY, z: arc.toZ },
        ].map((p) => Math.hypot(p[a] - centreOf[a], p[b] - centreOf[b]));
        const mismatch = Math.abs((ends[0] ?? 0) - (ends[1] ?? 0));
        expect(mismatch).toBeLessThanOrEqual(MOST_MISMATCH[patch.units ?? 'mm'] * scale + 1e-7);
        // The middle of the arc lies where it was meant to, but for the rounding of ends and centre.
        const start = Math.atan2(
          { x: arc.fromX, y: arc.fromY, z: arc.fromZ }[b] - centreOf[b],
          { x: arc.fromX, y: arc.fromY, z: arc.fromZ }[a] - centreOf[a],
        );
        const half = start + arc.sweep / 2;
        const meant = at(from + turn / 2);
        const off = Math.hypot(
          centreOf[a] + arc.radius * Math.cos(half) - meant[a],
          centreOf[b] + arc.radius * Math.sin(half) - meant[b],
        );
        expect(off).toBeLessThanOrEqual(3 * step);
      }),
      { seed: 11, numRuns: 3000 },
    );
    expect(seen).toBeGreaterThan(2500);
  });
});

describe('lines', () => {
  const controls = fc.record({
    lineLength: fc.integer({ min: 80, max: 255 }),
    lineNumbers: fc.boolean(),
    wordSpaces: fc.boolean(),
    percentLines: fc.boolean(),
    comments: fc.boolean(),
    drillCycles: fc.boolean(),
    units: fc.constantFrom<'mm' | 'in'>('mm', 'in'),
    decimals: fc.constantFrom(4, 5),
  });
  const far = fc.double({ min: -4999, max: 4999, noNaN: true });

  it('never exceed what the control takes; comments are wrapped and lose no word', () => {
    fc.assert(
      fc.property(
        controls,
        fc.string({ maxLength: 700, unit: 'binary' }),
        far,
        far,
        far,
        (control, remark, x, y, z) => {
          const moves: Move[] = [
            lift,
            { kind: 'rapid', x: 0, y: 0 },
            { kind: 'feed', x, y, z, feed: 123.456 },
            {
              kind: 'arc',
              plane: 'xy',
              clockwise: false,
              to: { x: -x, y: -y, z: z / 3 },
              centre: { x: 0, y: 0, z: 0 },
              feed: 9876.5,
            },
            { kind: 'drill', x, y, z: -17.12345, retract: 0.51234, peck: 1.23456, feed: 321.9 },
            { kind: 'comment', text: remark },
          ];
          const words = Array.from({ length: 60 }, (_, i) => `word${i}`).join(' ');
          const lines = textOf(moves, control, [words, remark]);
          for (const line of lines) {
            expect(line.length).toBeLessThanOrEqual(control.lineLength);
            expect(line).toMatch(/^[\x20-\x7e]+$/);
          }
          const inBrackets = lines.flatMap((l) => /\((.*)\)$/.exec(l)?.[1] ?? []).join(' ');
          if (control.comments) expect(inBrackets.startsWith(words)).toBe(true);
          else expect(inBrackets).toBe('');
          const arcs = motionsOf(lines).filter((m) => m.kind === 'arc');
          expect(arcs.length).toBeLessThanOrEqual(1);
        },
      ),
      { seed: 5, numRuns: 400 },
    );
  });
});
