import type { Move } from '../../src/motion/types.ts';

/** What a run of moves does to a block of wood, found by carving a height map: no geometry of the planner is used. */
export interface Load {
  /** Way at feed in or above the pocket, mm. */
  readonly feed: number;
  /** Of it, way at one height below the top: what is neither entry nor between heights. */
  readonly level: number;
  /** Of it, way along which less than 2 per cent of the nominal cut is taken. */
  readonly air: number;
  /** Way that lies within a hair of a given distance from the wall: the finishing pass. */
  readonly finishing: number;
  /** Most of the cutter's front half that met wood deeper than `deep`, radians, and where. */
  readonly buried: number;
  readonly buriedAt: readonly [number, number, number];
  /** Greatest height still standing above the floor inside the region's shrunk copy. */
  readonly left: (isInside: (x: number, y: number) => boolean) => number;
  readonly minutes: number;
}

export interface Block {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
  /** Size of a cell. */
  readonly cell: number;
  readonly radius: number;
  /** Area taken per mm of way by a nominal cut, mm^2. */
  readonly nominal: number;
  /** Wood standing this much above the tip counts as deep. */
  readonly deep: number;
  readonly floor: number;
  /** Whether a place of the centre belongs to the finishing pass. */
  readonly isFinish: (x: number, y: number) => boolean;
}

type Point = readonly [x: number, y: number, z: number];

const LOOKS = 48;

/** Carves the moves into a block. */
export function loadOf(moves: readonly Move[], block: Block): Load {
  const map = newMap(block);
  const total = {
    feed: 0,
    level: 0,
    air: 0,
    finishing: 0,
    minutes: 0,
    buried: 0,
    buriedAt: [0, 0, 0] as Point,
  };
  let here: Point = [0, 0, 5];
  for (const move of moves) {
    if (move.kind !== 'rapid' && move.kind !== 'feed' && move.kind !== 'arc') continue;
    const way = pointsOf(here, move);
    if (move.kind !== 'rapid') {
      for (const to of way) {
        total.minutes += Math.hypot(to[0] - here[0], to[1] - here[1], to[2] - here[2]) / move.feed;
        takeStep(total, map, block, here, to);
        here = to;
      }
    }
    here = way.at(-1) ?? here;
  }
  const left = (isInside: (x: number, y: number) => boolean): number => highest(map, block, isInside);
  return { ...total, left };
}

type Total = { -readonly [Key in keyof Omit<Load, 'left'>]: Load[Key] };

function takeStep(total: Total, map: HeightMap, block: Block, from: Point, to: Point): void {
  const sideways = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const length = Math.hypot(sideways, to[2] - from[2]);
  const isMoving = sideways > 1e-9;
  if (isMoving && !block.isFinish(to[0], to[1])) {
    const angle = frontOf(map, block, from, to);
    if (angle > total.buried) Object.assign(total, { buried: angle, buriedAt: to });
  }
  const volume = carve(map, block, to);
  total.feed += length;
  if (to[2] < 0 && Math.abs(to[2] - from[2]) < 1e-9) total.level += length;
  if (isMoving && block.isFinish(to[0], to[1]) && block.isFinish(from[0], from[1])) total.finishing += length;
  else if (volume < 0.02 * block.nominal * length) total.air += length;
}

function newMap(block: Block): {
  readonly heights: Float64Array;
  readonly columns: number;
  readonly rows: number;
} {
  const columns = Math.ceil((block.x[1] - block.x[0]) / block.cell);
  const rows = Math.ceil((block.y[1] - block.y[0]) / block.cell);
  return { heights: new Float64Array(columns * rows), columns, rows };
}

type HeightMap = ReturnType<typeof newMap>;

/** Steps of a tenth of a millimetre at most. */
function pointsOf(here: Point, move: Move & { kind: 'rapid' | 'feed' | 'arc' }): Point[] {
  if (move.kind === 'arc') return arcPoints(here, move);
  const to: Point = [move.x ?? here[0], move.y ?? here[1], move.z ?? here[2]];
  const count = Math.max(1, Math.ceil(Math.hypot(to[0] - here[0], to[1] - here[1]) / 0.1));
  return Array.from({ length: count }, (_, i) => mix(here, to, (i + 1) / count));
}

function mix(a: Point, b: Point, t: number): Point {
  return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t];
}

function arcPoints(here: Point, move: Move & { kind: 'arc' }): Point[] {
  const { centre, to } = move;
  const radius = Math.hypot(here[0] - centre.x, here[1] - centre.y);
  const start = Math.atan2(here[1] - centre.y, here[0] - centre.x);
  let sweep = Math.atan2(to.y - centre.y, to.x - centre.x) - start;
  if (move.clockwise) sweep -= 2 * Math.PI * Math.ceil((sweep - 1e-12) / (2 * Math.PI));
  else sweep -= 2 * Math.PI * Math.floor((sweep + 1e-12) / (2 * Math.PI));
  const count = Math.max(1, Math.ceil((radius * Math.abs(sweep)) / 0.1));
  const z = to.z ?? here[2];
  return Array.from({ length: count }, (_, i) => {
    const t = (i + 1) / count;
    const angle = start + sweep * t;
    return [
      centre.x + radius * Math.cos(angle),
      centre.y + radius * Math.sin(angle),
      here[2] + (z - here[2]) * t,
    ] as const;
  });
}

/** Takes away what stands under the cutter; gives the volume. */
function carve(
  { heights, columns, rows }: HeightMap,
  { x, y, cell, radius }: Block,
  [cx, cy, z]: Point,
): number {
  let volume = 0;
  const row = (v: number): number => Math.floor((v - y[0]) / cell);
  for (let j = Math.max(0, row(cy - radius)); j <= Math.min(rows - 1, row(cy + radius)); j += 1) {
    const dy = y[0] + (j + 0.5) * cell - cy;
    const half = Math.sqrt(Math.max(0, radius * radius - dy * dy));
    const from = Math.max(0, Math.ceil((cx - half - x[0]) / cell - 0.5));
    const to = Math.min(columns - 1, Math.floor((cx + half - x[0]) / cell - 0.5));
    for (let i = from; i <= to; i += 1) {
      const height = heights[j * columns + i] ?? 0;
      if (height <= z) continue;
      volume += (height - z) * cell * cell;
      heights[j * columns + i] = z;
    }
  }
  return volume;
}

/** How much of the front half of the cutter's rim has deep wood before it. */
function frontOf({ heights, columns, rows }: HeightMap, block: Block, from: Point, to: Point): number {
  const { x, y, cell, radius, deep } = block;
  const toward = Math.atan2(to[1] - from[1], to[0] - from[0]);
  let met = 0;
  for (let k = 0; k < LOOKS; k += 1) {
    const angle = toward - Math.PI / 2 + ((k + 0.5) * Math.PI) / LOOKS;
    const i = Math.floor((to[0] + radius * Math.cos(angle) - x[0]) / cell);
    const j = Math.floor((to[1] + radius * Math.sin(angle) - y[0]) / cell);
    if (i < 0 || j < 0 || i >= columns || j >= rows) continue;
    if ((heights[j * columns + i] ?? 0) - to[2] > deep) met += 1;
  }
  return (met / LOOKS) * Math.PI;
}

function highest(map: HeightMap, block: Block, isInside: (x: number, y: number) => boolean): number {
  let most = 0;
  for (let j = 0; j < map.rows; j += 1) {
    for (let i = 0; i < map.columns; i += 1) {
      const place = [block.x[0] + (i + 0.5) * block.cell, block.y[0] + (j + 0.5) * block.cell] as const;
      if (isInside(...place)) most = Math.max(most, (map.heights[j * map.columns + i] ?? 0) - block.floor);
    }
  }
  return most;
}
