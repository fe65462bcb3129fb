/** Fret slots that lean, stop in the wood, are wider than the cutter, on cones and with flat floors: cut, carved and proven. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planMoves } from '../../src/motion/planMoves.ts';
import type { Floor, Top } from '../../src/parts/types.ts';
import { type Proof, prove } from '../../src/verify/prove.ts';
import { writeProgram } from '../../src/writers/gcode/write.ts';
import { coneFloor, type HandSlot, slotJob } from '../support/boards.ts';
import { numbers } from '../support/damage.ts';
import { bytesOf } from '../support/proofSamples.ts';
import { type Written, written } from '../support/surfaced.ts';

function proofOf({ text, intent }: Written): Proof {
  return prove(bytesOf(text), intent);
}

function faults(proof: Proof): string[] {
  return [...new Set(proof.checks.filter((c) => !c.passed).map((c) => c.name))];
}

const slots = (floor: Floor): HandSlot[] => [
  {
    line: [
      [60, -23],
      [60, 23],
    ],
    runOut: [1.5, 1.5],
    floor,
  },
  {
    line: [
      [100, -24],
      [106, 24],
    ],
    runOut: [1.5, 1.5],
    floor,
  },
  {
    line: [
      [150, -24],
      [142, 24],
    ],
    runOut: [0, 0],
    floor,
  },
  {
    line: [
      [200, -24],
      [196, -2],
    ],
    runOut: [1.5, 0],
    floor,
  },
  {
    line: [
      [250, 5],
      [250, 12],
    ],
    runOut: [0, 0],
    floor,
  },
  {
    line: [
      [300, -24],
      [306, 24],
    ],
    runOut: [0, 0],
    width: 1,
    floor,
  },
  {
    line: [
      [330, 20],
      [332, 26],
    ],
    runOut: [0, 1.5],
    width: 0.9,
    floor,
  },
];
const floor = coneFloor([254, 406.4], 2);
const flatBlank: Top = { kind: 'plane', z: 0 };
const radiused: Top = { ...floor, below: 0 };

describe.each([
  ['a flat blank', floor, flatBlank],
  ['a blank that already is a cone', floor, radiused],
  ['flat floors in a radiused blank', { kind: 'plane', z: -3.4 } as const, radiused],
])('slots that lean and stop, in %s', (_name, ground, top) => {
  const program = written(slotJob(slots(ground), top));
  const proof = proofOf(program);

  it('prove', () => {
    expect(proof.refusals).toEqual([]);
    expect(faults(proof)).toEqual([]);
    expect(proof.passed).toBe(true);
  });

  it('are as deep as the surface says under every cutter place, by a search over the path alone', () => {
    // Plain sums: the path in the text, points 0.05 mm apart, each a disc of the cutter's radius with its height.
    const places = pathOf(program.text);
    const height = (x: number, y: number): number => {
      if (ground.kind === 'plane') return ground.z;
      const R = ground.R[0] + ((ground.R[1] - ground.R[0]) * (x - ground.x[0])) / (ground.x[1] - ground.x[0]);
      return Math.sqrt(R * R - y * y) - R - ground.below;
    };
    for (const { line } of slots(ground).slice(1, 6)) {
      for (let k = 1; k < 12; k += 1) {
        const x = line[0][0] + ((line[1][0] - line[0][0]) * k) / 12;
        const y = line[0][1] + ((line[1][1] - line[0][1]) * k) / 12;
        const left = Math.min(...places.filter((p) => Math.hypot(p.x - x, p.y - y) <= 0.3).map((p) => p.z));
        expect(height(x, y) - left).toBeGreaterThanOrEqual(0);
        expect(height(x, y) - left).toBeLessThanOrEqual(0.03);
      }
    }
  });
});

interface Place {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** Points along the straight feeds and, between the ends of arcs, on their chords. */
function pathOf(text: string): Place[] {
  const places: Place[] = [];
  let here = { x: 0, y: 0, z: 9 };
  for (const line of text.split('\n')) {
    const word = (letter: 'X' | 'Y' | 'Z'): number | undefined => {
      const found = new RegExp(`${letter}(-?[\\d.]+)`).exec(line.replace(/\(.*\)/, ''));
      return found === null ? undefined : Number(found[1]);
    };
    const next = { x: word('X') ?? here.x, y: word('Y') ?? here.y, z: word('Z') ?? here.z };
    const steps = Math.max(1, Math.ceil(Math.hypot(next.x - here.x, next.y - here.y) / 0.05));
    for (let k = 0; k <= steps; k += 1) {
      const share = k / steps;
      places.push({
        x: here.x + (next.x - here.x) * share,
        y: here.y + (next.y - here.y) * share,
        z: here.z + (next.z - here.z) * share,
      });
    }
    here = next;
  }
  return places.filter((p) => p.z < 0);
}

describe('chords of a leaning slot', () => {
  it('leave the true curve by no more than the sagitta allowed', () => {
    const job = slotJob([
      {
        line: [
          [100, -34],
          [112, 34],
        ],
        runOut: [1.5, 1.5],
        floor: coneFloor([184, 300], 2),
      },
    ]);
    const feeds = planMoves(job).flatMap((m) =>
      m.kind === 'feed' && m.x !== undefined && m.y !== undefined ? [m] : [],
    );
    const meant = (x: number, y: number): number => {
      const R = 184 + (116 * (x - 10)) / 440;
      const inner = Math.max(0, Math.abs(y) - 0.3);
      return Math.sqrt(R * R - inner * inner) - R - 2 - 0.01;
    };
    const onFloor = feeds.filter((m) => Math.abs((m.z ?? 0) - meant(m.x ?? 0, m.y ?? 0)) < 1e-9);
    expect(onFloor.length).toBeGreaterThan(40);
    onFloor.slice(1).forEach((to, i) => {
      const from = onFloor[i];
      if (from === undefined) return;
      const [x, y] = [((from.x ?? 0) + (to.x ?? 0)) / 2, ((from.y ?? 0) + (to.y ?? 0)) / 2];
      expect(Math.abs(((from.z ?? 0) + (to.z ?? 0)) / 2 - meant(x, y))).toBeLessThanOrEqual(0.002);
    });
  });
});

describe('the first pass of a leaning slot in a round top', () => {
  it('takes no more than one step though its chords run below the curve', () => {
    // As deep as whole steps, less a hair: without room for the chords the first pass would take their sagitta more.
    const { stepDown } = slotJob([]).feeds;
    const depth = Math.floor(2 / stepDown) * stepDown - 0.01 - 1e-6;
    const round = coneFloor([187, 187], depth);
    const program = written(
      slotJob(
        [
          {
            line: [
              [100, -14],
              [101, 14],
            ],
            runOut: [1.5, 1.5],
            floor: round,
          },
        ],
        { ...round, below: 0 },
      ),
    );
    const proof = proofOf(program);
    expect(faults(proof)).toEqual([]);
    expect(proof.passed).toBe(true);
    const bite = proof.checks.find((c) => c.name === 'bite');
    expect(bite?.value).toBeLessThanOrEqual(stepDown + 1e-4);
  });
});

describe('a damaged program of leaning and stopped slots', () => {
  const good = written(slotJob(slots(floor)));
  const damaged = (text: string): string[] => {
    const proof = prove(bytesOf(text), good.intent);
    expect(proof.passed).toBe(false);
    return faults(proof);
  };

  it('is refused when 0.05 mm too shallow, or 0.05 mm too deep', () => {
    expect(damaged(numbers('Z', (z) => (z < -1.5 ? z + 0.05 : z))(good.text))).toContain('floor shallow');
    expect(damaged(numbers('Z', (z) => (z < -1.5 ? z - 0.05 : z))(good.text))).toContain('floor deep');
  });

  it('is refused when a slot runs on past where it must stop, or stops before it', () => {
    // The third slot stops at y = 24 with its round end: its centre goes to 24 less a radius, along the line.
    const end = (24 - (0.3 * 48) / Math.hypot(8, 48)).toFixed(4).replace(/0+$/, '');
    expect(good.text).toContain(`Y${end} `);
    const moved = (by: number): string =>
      good.text.replaceAll(`Y${end} `, `Y${(Number(end) + by).toFixed(4)} `);
    expect(damaged(moved(0.1))).toContain('wall overcut');
    expect(damaged(moved(-0.1))).toContain('wall undercut');
  });

  it('is refused when it is turned or shifted', () => {
    expect(damaged(numbers('X', (x) => x + 0.02)(good.text))).toEqual(
      expect.arrayContaining(['position', 'fitted shift']),
    );
  });
});

describe('random slots on random cones', () => {
  it('prove, whatever their lean, ends, width and place', () => {
    const slot = fc.record({
      x: fc.double({ min: 40, max: 420, noNaN: true }),
      lean: fc.double({ min: -0.25, max: 0.25, noNaN: true }),
      bass: fc.double({ min: -27, max: -6, noNaN: true }),
      length: fc.double({ min: 3, max: 50, noNaN: true }),
      open: fc.tuple(fc.boolean(), fc.boolean()),
      width: fc.double({ min: 0.6, max: 1.4, noNaN: true }),
    });
    const board = fc.record({
      R: fc.tuple(
        fc.double({ min: 150, max: 900, noNaN: true }),
        fc.double({ min: 150, max: 900, noNaN: true }),
      ),
      isRadiused: fc.boolean(),
    });
    fc.assert(
      fc.property(board, slot, ({ R, isRadiused }, { x, lean, bass, length, open, width }) => {
        const ground = coneFloor(R, 2);
        const treble = Math.min(27, bass + length);
        const line = [
          [x + lean * bass, bass],
          [x + lean * treble, treble],
        ] as const;
        const runOut = [open[0] ? 1.5 : 0, open[1] ? 1.5 : 0] as const;
        const top: Top = isRadiused ? { ...ground, below: 0 } : flatBlank;
        const proof = proofOf(written(slotJob([{ line, runOut, width, floor: ground }], top)));
        expect(faults(proof)).toEqual([]);
        expect(proof.refusals).toEqual([]);
      }),
      { seed: 4, numRuns: 40 },
    );
  });
});

it('writes the same program twice', () => {
  const job = slotJob(slots(floor));
  const text = (): string =>
    writeProgram(planMoves(job), { remarks: [], controller: job.machine.controller });
  expect(text()).toBe(text());
});
