/**
 * Small programs written by hand with the intents they should prove against. Everything in them is invented; the geometry
 * is worked out here by school algebra and shares nothing with the product.
 */
import type { Intent, IntentCut, IntentRing, Tolerance } from '../../src/intent/types.ts';
import { withWayIn } from './beamSamples.ts';

export interface Sample {
  readonly text: string;
  readonly intent: Intent;
}

export const LOCATED: Tolerance = {
  position: 0.002,
  wallOver: 0.01,
  wallUnder: 0.01,
  floorDeep: 0.02,
  floorShallow: 0.02,
  cusp: null,
};
export const SLOT: Tolerance = { ...LOCATED, floorDeep: 0.03, floorShallow: 0 };

export function rectangle(x0: number, y0: number, x1: number, y1: number): IntentRing {
  return [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
}

/** Two half turns, counter-clockwise. */
export function circle(x: number, y: number, radius: number): IntentRing {
  return [
    [x + radius, y, 1],
    [x - radius, y, 1],
  ];
}

/** The same ring the other way round: what lies outside it is kept. */
export function opening(x: number, y: number, radius: number): IntentRing {
  return [
    [x + radius, y, -1],
    [x - radius, y, -1],
  ];
}

export function cut(over: Partial<IntentCut> & Pick<IntentCut, 'id' | 'kind'>): IntentCut {
  return {
    feature: over.id,
    region: null,
    line: null,
    keep: null,
    beam: null,
    floor: { kind: 'plane', z: 0 },
    from: 'stockTop',
    through: false,
    mayCut: null,
    mayRemain: null,
    tabs: [],
    tolerance: LOCATED,
    ...over,
  };
}

/** An intent for a flat cutter on a small router; the caller fills in what matters. */
export function intentFor(over: Partial<Intent>): Intent {
  return {
    format: 1,
    program: 'sample.nc',
    programSha256: '0'.repeat(64),
    units: 'mm',
    order: 1,
    after: [],
    toPart: {
      matrix: [
        [1, 0, 0, 0],
        [0, 1, 0, 0],
        [0, 0, 1, 0],
      ],
      mirrored: false,
      workZero: 'lower left corner',
    },
    stock: { region: [rectangle(0, 0, 80, 60)], bottom: -6, top: { kind: 'plane', z: 0 } },
    machine: {
      envelope: { x: [-50, 300], y: [-100, 200], z: [-8, 40] },
      rapid: 'anyOrder',
      path: 'exact',
      maxFeed: { xy: 2000, z: 700 },
      spindle: [8000, 24000],
      spinUp: 3,
      understands: { arcPlanes: ['xy', 'yz'], drillCycles: true, exactPath: true, toolChange: false },
    },
    tool: flat(3.175, 0.01, 12),
    limits: {
      clearHeight: 5,
      rapidFloor: 0.5,
      zMin: -6.5,
      stepDown: 0.8,
      feed: [30, 900],
      plungeFeed: 200,
      spindle: [17000, 19000],
    },
    keepOuts: [],
    cuts: [],
    end: { spindle: 'off', position: [0, 0, 5] },
    ...over,
  };
}

export function flat(diameter: number, scatter: number, cutLength: number): Intent['tool'] {
  return {
    id: 2,
    kind: 'flat',
    diameter,
    diameterRange: [diameter - scatter, diameter + scatter],
    tipAngle: null,
    cutLength,
    shank: { diameter: 6.35, from: cutLength },
    holder: [],
    kerf: null,
  };
}

const HEAD = ['G21 G90 G94 G17 G40 G49 G54 G61', 'G0 Z5', 'M3 S18000', 'G4 P3'];
const TAIL = ['G0 Z5', 'M5', 'G0 X0 Y0', 'M2'];

function program(...lines: readonly string[]): string {
  return `${[...HEAD, ...lines, ...TAIL].join('\n')}\n`;
}

/** Four decimals, without a minus before zero. */
export function num(value: number): string {
  const text = value.toFixed(4);
  return Number(text) === 0 ? '0' : text;
}

export interface SlotOptions {
  /** Radius of the board, and half its width. */
  readonly R: number;
  readonly half: number;
  /** How far outward the floor's curve is moved: the cutter's radius, or 0 for the trap. */
  readonly lag: number;
  /** Aimed deeper than meant by this. */
  readonly aim: number;
  readonly xs?: readonly number[];
  readonly scatter?: number;
}

const SLOT_DEPTH = 2.2;
const SLOT_PASS = 0.3;

/**
 * Fret slots 0.6 mm wide across a board already worked to its radius, floor 2.2 mm below its surface all along. Eight passes, each
 * the board's own curve moved outward by `lag`, run there and back.
 */
export function slots(options: SlotOptions): Sample {
  const { R, half, xs = [30] } = options;
  const surface = { kind: 'cone' as const, x: [0, 80] as const, R: [R, R] as const, crest: 0 };
  const cuts = xs.map((x, i) =>
    cut({
      id: `slot-${i + 1}`,
      kind: 'region',
      region: [rectangle(x - 0.3, -half, x + 0.3, half)],
      floor: { ...surface, below: SLOT_DEPTH },
      mayCut: { region: [rectangle(x - 0.3, -half - 1, x + 0.3, half + 1)], why: 'run-out past the edges' },
      tolerance: SLOT,
    }),
  );
  const base = intentFor({});
  const intent = intentFor({
    stock: { region: [rectangle(0, -half, 80, half)], bottom: -8, top: { ...surface, below: 0 } },
    tool: flat(0.6, options.scatter ?? 0.01, 4),
    limits: { ...base.limits, zMin: -4.5, stepDown: SLOT_PASS },
    cuts,
  });
  return { text: program(...xs.flatMap((x) => slotLines(x, options))), intent };
}

function slotLines(x: number, { R, half, lag, aim }: SlotOptions): string[] {
  const end = half + 0.6;
  const z = (y: number, depth: number): number => {
    const u = Math.max(0, Math.abs(y) - lag);
    return Math.sqrt(R * R - u * u) - R - depth;
  };
  const passes = Math.ceil((SLOT_DEPTH + aim) / SLOT_PASS - 1e-9);
  const lines = [`G0 X${num(x)} Y${num(-end)}`, 'G0 Z0.5', `G1 Z${num(z(-end, 0))} F150`];
  for (let k = 1; k <= passes; k += 1) {
    const depth = Math.min(SLOT_DEPTH + aim, k * SLOT_PASS);
    const before = (k - 1) * SLOT_PASS;
    const side = k % 2 === 1 ? -1 : 1;
    const turn = side * (end - 4);
    lines.push(`G1 Y${num(turn)} Z${num(z(turn, (before + depth) / 2))} F400`);
    lines.push(`G1 Y${num(side * end)} Z${num(z(end, depth))}`);
    const centre = -R - depth;
    const over = side < 0 ? 'G2' : 'G3';
    const inner = side * lag;
    lines.push(
      'G19',
      `${over} Y${num(inner)} Z${num(-depth)} J${num(inner - side * end)} K${num(centre - z(end, depth))}`,
    );
    if (lag > 0) lines.push(`G1 Y${num(-inner)}`);
    lines.push(`${over} Y${num(-side * end)} Z${num(z(end, depth))} J0 K${num(-R)}`, 'G17');
  }
  return [...lines, 'G0 Z5'];
}

/** A round pocket of 6.35 mm, 2 mm deep: a helix in three turns, then a turn on the floor. */
export function pocket(): Sample {
  const text = program(
    '(round pocket)',
    'G0 X41.5875 Y10',
    'G0 Z0.5',
    'G1 Z0.1 F150',
    'G3 X41.5875 Y10 Z-0.6 I-1.5875 J0 F500',
    'G3 X41.5875 Y10 Z-1.3 I-1.5875 J0',
    'G3 X41.5875 Y10 Z-2 I-1.5875 J0',
    'G3 X41.5875 Y10 I-1.5875 J0',
    'G1 X41.4',
  );
  const round = cut({
    id: 'pocket',
    kind: 'region',
    region: [circle(40, 10, 3.175)],
    floor: { kind: 'plane', z: -2 },
  });
  return { text, intent: intentFor({ cuts: [round] }) };
}

const DRILL: Intent['tool'] = { ...flat(3, 0.01, 20), kind: 'drill', tipAngle: 118, shank: null };

function holes(text: string): Sample {
  const hole = (id: string, x: number): IntentCut =>
    cut({ id, kind: 'drill', region: [circle(x, 20, 1.5)], floor: { kind: 'plane', z: -4 } });
  const base = intentFor({});
  const intent = intentFor({
    tool: DRILL,
    limits: { ...base.limits, stepDown: 2 },
    cuts: [hole('hole-1', 20), hole('hole-2', 60)],
  });
  return { text, intent };
}

/** Two holes of 3 mm, 4 mm deep at full diameter: a 118 degree tip is 1.5/tan(59 deg) = 0.9013 mm long, so Z-4.9013. */
export function holesExpanded(): Sample {
  const one = (x: number): string[] => [
    `G0 X${x} Y20`,
    'G0 Z0.5',
    'G1 Z-1.5 F200',
    'G0 Z0.5',
    'G0 Z-1.25',
    'G1 Z-3.5',
    'G0 Z0.5',
    'G0 Z-3.25',
    'G1 Z-4.9013',
    'G0 Z5',
  ];
  return holes(program(...one(20), ...one(60)));
}

/** The same holes by a peck cycle. */
export function holesCycle(): Sample {
  return holes(program('G0 X20 Y20', 'G98 G83 X20 Y20 Z-4.9013 R0.5 Q1.9 F200', 'X60 Y20', 'G80'));
}

/**
 * A part of 60 x 40 mm cut out of a 6 mm board by a 6 mm cutter in four turns that each ramp down along the left side; two
 * tabs of 8 x 1.2 mm hold it. The cutter climbs over a tab of 8 mm from 7 mm before its middle to 7 mm after it.
 */
export function outline(): Sample {
  const turns = [-1.5, -3, -4.5, -6.3].flatMap((z) => {
    const last = z < -6;
    return [
      `G1 X7 Y45 Z${z} F600`,
      'G1 Y50',
      'G2 X10 Y53 I3 J0',
      ...(last ? ['G1 X27', 'G1 X33 Z-4.8', 'G1 X47', 'G1 X53 Z-6.3'] : []),
      'G1 X70',
      'G2 X73 Y50 I0 J-3',
      'G1 Y10',
      'G2 X70 Y7 I-3 J0',
      ...(last ? ['G1 X53', 'G1 X47 Z-4.8', 'G1 X33', 'G1 X27 Z-6.3'] : []),
      'G1 X10',
      'G2 X7 Y10 I0 J3',
      'G1 Y15',
    ];
  });
  const text = program('(part outline)', 'G0 X7 Y15', 'G0 Z0.5', 'G1 Z0 F150', ...turns, 'G1 Y45');
  const base = intentFor({});
  const part = cut({
    id: 'part-outline',
    kind: 'separate',
    keep: [rectangle(10, 10, 70, 50)],
    floor: { kind: 'plane', z: -6 },
    through: true,
    tabs: [
      { at: [40, 50], length: 8, height: 1.2 },
      { at: [40, 10], length: 8, height: 1.2 },
    ],
  });
  const intent = intentFor({
    tool: flat(6, 0.01, 20),
    limits: { ...base.limits, stepDown: 1.8 },
    cuts: [part],
  });
  return { text, intent };
}

/** On 3 mm board a line marked, an opening and an outline cut with a kerf of 0.2 mm, the path 0.1 mm into the waste. */
export function laser(): Sample {
  const text = `${[
    'G21 G90 G94 G17 G40 G49 G54',
    'M5',
    'G0 X20 Y15',
    'M3 S150',
    'G1 X20 Y35 F1800',
    'M5',
    'G0 X44.9 Y25',
    'M3 S800',
    'G2 X44.9 Y25 I-4.9 J0 F500',
    'M5',
    'G0 X30 Y9.9',
    'M3 S800',
    'G1 X60 Y9.9',
    'G3 X60.1 Y10 I0 J0.1',
    'G1 Y40',
    'G3 X60 Y40.1 I-0.1 J0',
    'G1 X10',
    'G3 X9.9 Y40 I0 J-0.1',
    'G1 Y10',
    'G3 X10 Y9.9 I0.1 J0',
    'G1 X30',
    'M5',
    'G0 X0 Y0',
    'M2',
  ].join('\n')}\n`;
  const burn = (power: number, feed: number): IntentCut['beam'] => ({ power, feed, passes: 1 });
  const through = { kind: 'separate' as const, floor: { kind: 'plane' as const, z: -3 }, through: true };
  const base = intentFor({});
  const intent = intentFor({
    stock: { region: [rectangle(0, 0, 80, 60)], bottom: -3, top: { kind: 'plane', z: 0 } },
    machine: {
      ...base.machine,
      envelope: { x: [0, 300], y: [0, 200], z: [0, 0] },
      maxFeed: { xy: 6000, z: 6000 },
      spindle: [0, 1000],
      understands: { arcPlanes: ['xy'], drillCycles: false, exactPath: false, toolChange: false },
    },
    tool: {
      id: 0,
      kind: 'beam',
      diameter: 0.2,
      diameterRange: [0.19, 0.21],
      tipAngle: null,
      cutLength: 3,
      shank: null,
      holder: [],
      kerf: 0.2,
    },
    limits: {
      clearHeight: 0,
      rapidFloor: 0,
      zMin: 0,
      stepDown: 3,
      feed: [500, 1800],
      plungeFeed: 1800,
      spindle: [150, 800],
    },
    cuts: [
      cut({
        id: 'middle-line',
        kind: 'line',
        line: [
          [20, 15],
          [20, 35],
        ],
        beam: burn(150, 1800),
      }),
      cut({ ...through, id: 'opening', keep: [opening(40, 25, 5)], beam: burn(800, 500) }),
      cut({ ...through, id: 'plate', keep: [rectangle(10, 10, 60, 40)], beam: burn(800, 500) }),
    ],
    end: { spindle: 'off', position: [0, 0, 0] },
  });
  return { text, intent };
}

export const SAMPLES = {
  slots: (): Sample => slots({ R: 406.4, half: 28, lag: 0.3, aim: 0.005, xs: [30, 45.5] }),
  pocket,
  holesExpanded,
  holesCycle,
  outline,
  laser,
  laserWayIn: (): Sample => withWayIn(laser()),
} as const;

export type SampleName = keyof typeof SAMPLES;

export function bytesOf(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}
