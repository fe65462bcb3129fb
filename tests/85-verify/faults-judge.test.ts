/** The judge of harm is itself held against a stamped grid, against the product's reader, and against figures set by hand. */
import { describe, expect, it } from 'vitest';
import { readProgram } from '../../src/verify/gcode/readProgram.ts';
import { UNDERSTANDS_EVERYTHING } from '../../src/verify/gcode/understands.ts';
import { carve, type Plot } from '../support/carve.ts';
import { line, numbers } from '../support/damage.ts';
import { corpus } from '../support/damages/corpus.ts';
import { goodOf, harmOf, harmOfGood } from '../support/harm/judge.ts';
import type { Harm } from '../support/harm/types.ts';
import { cutTo, cuttingOf } from '../support/harm/wood.ts';
import { runProgram } from '../support/machine/run.ts';
import { TIDY } from '../support/machine/types.ts';
import { bytesOf, outline, pocket, SAMPLES, type SampleName, slots } from '../support/proofSamples.ts';
import { FAULTS } from './faultTable.ts';

/** Faults that the prover refuses, rightly, and that by luck touch no kept wood: they ran beside the board, or in the waste. */
const LUCKY = new Set([
  'slots: retract left out',
  'slots: first feed down times ten',
  'slots: rapid down into wood',
  'pocket: rapid instead of the last arc',
  'laserWayIn: a way in half as long',
  'laserWayIn: no way in',
  'laserWayIn: out to the waste and back in the middle of an outline',
  'laserWayIn: the way in run at the end instead',
  'laserWayIn: the stretch past the start left out',
  'laserWayIn: the stretch past the start run backward',
]);

const START = { ...TIDY, dwell: 1, at: [0, 0, 20] as const };

describe('the machine that the judge runs', () => {
  it.each(corpus(undefined, ['as bundled', 'plain router']))(
    'goes where the product’s reader says: $name',
    ({ text }) => {
      const { steps, stopped } = runProgram(text, START);
      expect(stopped).toBeNull();
      const ends = new Map<number, number[]>();
      const state = {
        units: 'mm',
        distance: 'absolute',
        plane: 'xy',
        feedMode: 'per minute',
        position: START.at,
      } as const;
      let [feeds, length] = [0, 0];
      readProgram(bytesOf(text), state, UNDERSTANDS_EVERYTHING, (m) => {
        if (m.kind === 'dwell') return;
        ends.set(m.line, [m.toX, m.toY, m.toZ, m.feed, m.spindleOn ? m.spindle : 0]);
        feeds += m.feed;
        length +=
          m.kind === 'arc' ? Math.abs(m.sweep) * m.radius : Math.hypot(m.toX - m.fromX, m.toY - m.fromY);
      });
      const own = new Map(steps.map((s) => [s.line, [s.x1, s.y1, s.z1, s.feed, s.speed]]));
      expect([...own.keys()]).toEqual([...ends.keys()]);
      // The two add up an increment each in its own order: the last bits may differ.
      for (const [number, end] of ends) {
        const there = own.get(number) ?? [];
        expect(there).toHaveLength(end.length);
        end.forEach((value, k) => {
          expect(Math.abs(value - (there[k] ?? Number.NaN)), `line ${number}`).toBeLessThan(1e-9);
        });
      }
      const ownLength = steps.reduce(
        (sum, s) =>
          sum + (s.shape === 'line' ? Math.hypot(s.x1 - s.x0, s.y1 - s.y0) : Math.abs(s.turn) * s.radius),
        0,
      );
      expect(feeds).toBeGreaterThan(0);
      expect(Math.abs(ownLength - length)).toBeLessThan(1e-6 * length);
    },
  );

  it('stops at what a control would stop at', () => {
    const head = 'G21 G90 G94 G17 G40 G49 G54 G61\nG0 Z5\nX0 Y0\nF100\n';
    for (const wrong of [
      'G1 X1.2.3',
      'G1 X1 X2',
      'G1',
      'G2 X10 Y0 I4 J0',
      'G2 X10 Y0',
      'G1 G0 X1',
      'G28 X0',
      'Q',
      '(open',
      'G93\nG1 X1',
      'G1 X1 F0',
      'G43 X1',
    ])
      expect([wrong, runProgram(`${head}${wrong}\nM2\n`, START).stopped]).not.toEqual([wrong, null]);
    expect(runProgram(`${head}G2 X10 Y0 I5 J0\nM2\n`, START)).toMatchObject({ stopped: null, ended: true });
  });
});

describe('heights by closed forms against a stamped grid', () => {
  const cases: readonly (readonly [string, string, number, Plot])[] = [
    ['a pocket', pocket().text, 3.175, { x: [36, 44], y: [6, 14], step: 0.04, top: () => 0 }],
    [
      'a slot under a radius',
      slots({ R: 305, half: 28, lag: 0.3, aim: 0 }).text,
      0.6,
      { x: [29.5, 30.5], y: [-28, 28], step: 0.05, top: () => 0 },
    ],
    ['an outline with tabs', outline().text, 6, { x: [0, 80], y: [0, 60], step: 0.2, top: () => 0 }],
  ];

  it.each(cases)('%s', (_, text, diameter, plot) => {
    const carved = carve(text, diameter, plot);
    const cutting = cuttingOf(runProgram(text, START).steps, diameter / 2, 0, false);
    const height = (x: number, y: number): number => Math.min(0, cutTo(cutting, x, y, cutting.steps.length));
    let worst = 0;
    let cells = 0;
    for (let i = 1; i < carved.nx - 1; i += 2) {
      for (let j = 1; j < carved.ny - 1; j += 2) {
        const [x, y] = [carved.x(i), carved.y(j)];
        // At a wall the grid knows the height only to a cell: what lies about the cell must hold it.
        const about = [-1, 0, 1].flatMap((a) =>
          [-1, 0, 1].map((b) => height(x + a * plot.step, y + b * plot.step)),
        );
        const grid = carved.heightAt(i, j);
        worst = Math.max(worst, Math.min(...about) - grid, grid - Math.max(...about));
        cells += 1;
      }
    }
    expect(cells).toBeGreaterThan(1000);
    expect(worst).toBeLessThan(0.001);
  });
});

describe('what does harm', () => {
  it.each(Object.keys(SAMPLES))('nothing in %s as it is', (name) => {
    const { text, intent } = SAMPLES[name as SampleName]();
    expect(harmOfGood(goodOf(text, intent))).toBeNull();
  });

  it.each(FAULTS.map((f) => ({ ...f, title: `${f.sample}: ${f.name}` })))(
    '$title',
    ({ sample, damage, title }) => {
      const { text, intent } = SAMPLES[sample]();
      const harm = harmOf(goodOf(text, intent), damage(text));
      expect([title, harm === null]).toEqual([title, LUCKY.has(title)]);
    },
  );

  /** The pocket's last turns wider by so much, or moved; its walls are met within 0.01, its place within 0.002 mm. */
  const inPocket = (dx: number, dr: number): Harm | null => {
    const { text, intent } = pocket();
    const damaged = numbers('XI', (v, letter) => {
      if (letter === 'I') return Math.sign(v) * (Math.abs(v) + (Math.abs(v) === 1.5875 ? dr : 0));
      return v === 41.5875 ? v + dx + dr : v === 0 ? 0 : v + dx;
    })(text);
    return harmOf(goodOf(text, intent), damaged);
  };

  it.each([
    [0.003, 0, false],
    [0.0045, 0, true],
    [-0.003, 0, false],
    [-0.0045, 0, true],
    [0, 0.011, false],
    [0, 0.013, true],
    [0, -0.013, true],
  ])('a pocket moved by %s and wider by %s: %s', (dx, dr, harmful) => {
    expect(inPocket(dx, dr) !== null).toBe(harmful);
  });

  it.each([
    [0.031, false],
    [0.034, true],
    [-0.0015, false],
    [-0.003, true],
  ])('a slot deeper by %s than meant: %s', (aim, harmful) => {
    const sample = slots({ R: 305, half: 28, lag: 0.3, aim: 0.01 });
    const other = slots({ R: 305, half: 28, lag: 0.3, aim });
    expect(harmOf(goodOf(sample.text, sample.intent), other.text) !== null).toBe(harmful);
  });

  it('a bite that is too deep, though the shape comes out the same', () => {
    const { text, intent } = pocket();
    const harm = harmOf(goodOf(text, intent), line('G3 X41.5875 Y10 Z-1.3 I-1.5875 J0', null)(text));
    expect(harm?.kind).toBe('process');
    expect(harm?.what).toContain('a bite of');
  });
});
