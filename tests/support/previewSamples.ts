import { bounds, flatten } from '../../src/geometry/ring.ts';
import type { Ring } from '../../src/geometry/types.ts';
import type { ReadMotion } from '../../src/writers/html/recordMoves.ts';
import { recordMoves } from '../../src/writers/html/recordMoves.ts';
import type { PreviewCut, PreviewInput, PreviewProgram, PreviewRing } from '../../src/writers/html/types.ts';
import { sampleLayout } from './drawingSamples.ts';

type Place = readonly [x: number, y: number, z: number];

/** Writes lines of a made-up program and the motions a reader would find in them. */
export function tape(feed: number, spindle: number) {
  const lines: string[] = ['G21 G90 G17', 'G0 Z5'];
  const motions: ReadMotion[] = [];
  let at: Place = [0, 0, 20];
  const push = (kind: ReadMotion['kind'], to: Place, more: Partial<ReadMotion> = {}) => {
    motions.push({
      line: lines.length,
      kind,
      plane: 'xy',
      fromX: at[0],
      fromY: at[1],
      fromZ: at[2],
      toX: to[0],
      toY: to[1],
      toZ: to[2],
      centreX: 0,
      centreY: 0,
      centreZ: 0,
      radius: 0,
      sweep: 0,
      feed: kind === 'rapid' ? 0 : feed,
      spindle: kind === 'rapid' && spindle < 2 ? 0 : spindle,
      ...more,
    });
    at = to;
  };
  push('rapid', [0, 0, 5]);
  return {
    rapid(to: Place) {
      lines.push(`G0 X${to[0].toFixed(3)} Y${to[1].toFixed(3)} Z${to[2].toFixed(3)}`);
      push('rapid', to);
    },
    feed(to: Place) {
      lines.push(`G1 X${to[0].toFixed(3)} Y${to[1].toFixed(3)} Z${to[2].toFixed(3)} F${feed}`);
      push('feed', to);
    },
    /** Counter-clockwise turns about a centre, sinking evenly. */
    helix(centre: readonly [number, number], turns: number, z: number) {
      const radius = Math.hypot(at[0] - centre[0], at[1] - centre[1]);
      lines.push(`G3 X${at[0]} Y${at[1]} Z${z} I${centre[0] - at[0]} J${centre[1] - at[1]} P${turns}`);
      push('arc', [at[0], at[1], z], {
        centreX: centre[0],
        centreY: centre[1],
        radius,
        sweep: turns * 2 * Math.PI,
      });
    },
    finish() {
      lines.push('M5', 'M2');
      const recorder = recordMoves();
      for (const motion of motions) recorder.add(motion);
      return { moves: recorder.finish(), text: `${lines.join('\n')}\n`, motions };
    },
  };
}

function plain(ring: Ring, dx: number, dy: number): PreviewRing {
  return ring.map((v) => [v.x + dx, v.y + dy, v.bulge]);
}

function proof(maxOvercut: number, passed = true): PreviewProgram['proof'] {
  return { passed, maxOvercut, maxUndercut: 0.0042, tolerance: 0.01 };
}

const layout = sampleLayout();
const box = bounds(layout.board.outline);
const dx = 10 - box.x[0];
const dy = 6 - box.y[0];
const stock = {
  x: [0, box.x[1] - box.x[0] + 20],
  y: [0, box.y[1] - box.y[0] + 12],
  z: [-7, 0],
} as const;

function boxRing({
  x,
  y,
}: {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
}): PreviewRing {
  return [
    [x[0], y[0]],
    [x[1], y[0]],
    [x[1], y[1]],
    [x[0], y[1]],
  ];
}

function flatStock<T extends Pick<PreviewProgram['stock'], 'x' | 'y' | 'z'>>(
  box: T,
): PreviewProgram['stock'] {
  return { ...box, rings: [boxRing(box)], top: { kind: 'plane', z: 0 } };
}

const END = { least: 0.3, usual: 0.3, most: 0.3, tipAngle: null } as const;

/** A cut with the figures of a proof that found next to nothing. */
export function sampleCut(
  id: string,
  ring: PreviewRing,
  z: number,
  more: Partial<PreviewCut> = {},
): PreviewCut {
  const [x, y] = ring[0] ?? [0, 0];
  return {
    id,
    kind: 'region',
    rings: [ring],
    line: null,
    floor: { kind: 'plane', z },
    through: false,
    allowed: [],
    left: [],
    tabs: [],
    wayIn: 0,
    figures: [
      { name: 'wall overcut', passed: true, value: 0.0031, limit: 0.01, place: [x, y, z], line: 4 },
      { name: 'position', passed: true, value: 0.0001, limit: 0.002, place: null, line: null },
    ],
    runs: [[4, 12]],
    ...more,
  };
}

const common = {
  figures: [],
  cautions: ['Eyes and ears', 'Small cutters break'],
  datum: { at: [dx, dy], words: ['from the nut line', 'from the centreline'] },
  part: 'fingerboard',
  machine: 'Sample router',
  cutBy: 'cutter',
  workZero: 'lower left corner of the blank, on its top',
  stock: flatStock(stock),
  centrelineY: dy,
} as const;

function slots(): PreviewProgram {
  const t = tape(300, 18000);
  for (const slot of layout.slots) {
    const half = slot.line[1][1] + 1.5;
    t.rapid([slot.x + dx, dy - half, 5]);
    for (let pass = 1; pass <= 14; pass += 1) {
      for (let k = 0; k <= 8; k += 1) {
        const y = -half + (half * k) / 4;
        const z = Math.max(
          -2.2 - (400 - Math.sqrt(400 ** 2 - y ** 2)),
          -0.2 * pass - (400 - Math.sqrt(400 ** 2 - y ** 2)),
        );
        t.feed([slot.x + dx, dy + (pass % 2 === 0 ? -y : y), z]);
      }
    }
    t.rapid([slot.x + dx, dy + half, 5]);
  }
  const walls = layout.slots.map(
    ({ x, line }): PreviewRing => [
      [x + dx - 0.3, line[0][1] + dy],
      [x + dx + 0.3, line[0][1] + dy],
      [x + dx + 0.3, line[1][1] + dy],
      [x + dx - 0.3, line[1][1] + dy],
    ],
  );
  return {
    ...common,
    ...t.finish(),
    path: 'fingerboard-slots.nc',
    operation: 'fret slots',
    tool: '0.6 mm end mill, 2 flutes',
    cutWidth: 0.6,
    minutes: 14.32,
    proof: proof(0.0031),
    end: { kind: 'flat', ...END },
    deepest: 2.2 + (400 - Math.sqrt(400 ** 2 - 30 ** 2)),
    cuts: walls.map((ring, i) => sampleCut(`slot-${i + 1}`, ring, -2.2)),
    outlines: [],
  };
}

function pockets(): PreviewProgram {
  const t = tape(500, 18000);
  for (const marker of layout.faceMarkers) {
    const [x, y] = [marker.at[0] + dx, marker.at[1] + dy];
    t.rapid([x + 1.4, y, 5]);
    t.feed([x + 1.4, y, 0.2]);
    t.helix([x, y], 5, -1.9);
    t.helix([x, y], 1, -1.9);
    t.rapid([x + 1.4, y, 5]);
  }
  return {
    ...common,
    ...t.finish(),
    path: 'fingerboard-markers.nc',
    operation: 'face markers',
    tool: '1/8 in end mill',
    cutWidth: 3.175,
    minutes: 2.05,
    proof: proof(0.0022),
    end: { ...END, kind: 'flat', least: 1.5875, usual: 1.5875, most: 1.5875 },
    deepest: 1.9,
    outlines: [],
    cuts: layout.faceMarkers.map((m, i) =>
      sampleCut(
        `marker-${i + 1}`,
        [
          [m.at[0] + dx + 3, m.at[1] + dy, 1],
          [m.at[0] + dx - 3, m.at[1] + dy, 1],
        ],
        -1.9,
      ),
    ),
  };
}

function outline(): PreviewProgram {
  const t = tape(900, 16000);
  const points = flatten(layout.board.outline, 0.02);
  const first = points[0] ?? [0, 0];
  t.rapid([first[0] + dx, first[1] + dy - 1.6, 5]);
  for (let pass = 1; pass <= 7; pass += 1) {
    for (const [x, y] of [...points, first]) {
      t.feed([x + dx + Math.sign(x - 200) * 1.6, y + dy + Math.sign(y) * 1.6, -1.05 * pass]);
    }
  }
  t.rapid([first[0] + dx, first[1] + dy - 1.6, 5]);
  return {
    ...common,
    ...t.finish(),
    path: 'fingerboard-outline.nc',
    operation: 'outline',
    tool: '1/8 in end mill',
    cutWidth: 3.175,
    minutes: 5.8,
    proof: proof(0.0012),
    end: { ...END, kind: 'flat', least: 1.5875, usual: 1.5875, most: 1.5875 },
    deepest: 7.35,
    cuts: [sampleCut('board', plain(layout.board.outline, dx, dy), -7, { kind: 'separate', through: true })],
    outlines: [plain(layout.board.outline, dx, dy)],
  };
}

function beam(): PreviewProgram {
  const t = tape(1200, 1);
  t.rapid([10, 10, 0]);
  for (const [x, y] of [
    [110, 10],
    [110, 40],
    [10, 40],
    [10, 10],
  ] as const) {
    t.feed([x, y, 0]);
  }
  return {
    ...common,
    ...t.finish(),
    path: 'plate-cut.nc',
    part: 'plate',
    operation: 'cut the plate',
    machine: 'Sample laser',
    tool: 'beam',
    cutBy: 'beam',
    cutWidth: 0.15,
    minutes: 0.4,
    proof: proof(0.052, false),
    stock: flatStock({ x: [0, 120], y: [0, 50], z: [-3, 0] }),
    centrelineY: null,
    end: { ...END, kind: 'beam', least: 0.075, usual: 0.075, most: 0.075 },
    deepest: 3,
    cuts: [
      sampleCut('plate', boxRing({ x: [10, 110], y: [10, 40] }), -3, {
        kind: 'separate',
        through: true,
        figures: [
          { name: 'wall overcut', passed: false, value: 0.052, limit: 0.01, place: [60, 10, 0], line: 4 },
        ],
      }),
      sampleCut('crease', [], 0, {
        kind: 'line',
        rings: [],
        line: [
          [20, 25],
          [100, 25],
        ],
        runs: [],
        figures: [],
      }),
    ],
    outlines: [],
  };
}

/** Four invented programs, one of them refused. */
export function samplePreview(): PreviewInput {
  return {
    title: 'Sample parlour',
    text: 'Every line on this page was drawn from the text of the program that the machine will read.\n\nLook at each sheet before cutting: the stock, the work zero, the order.',
    cautions: ['Wear eye and ear protection.', "Follow the machine's manual; let nobody run it untrained."],
    programs: [slots(), pockets(), outline(), beam()],
  };
}
