/**
 * The last passes of a flat cutter over a board's radius. Each pass is level and has its inner edge on the surface: seen across
 * the board they are steps of one height, so that the ridges between them are the same everywhere. On a cone a level meets the
 * surface along a bow, y^2 = 2 R f - f^2 with R linear in x, which the pass follows in a few straight stretches outside of it.
 */
import { coneHeight, coneRadius } from '../geometry/coneSurface.ts';
import type { FinishSurfaceOperation, RouterJob } from '../machining/types.ts';
import { stepOf } from './heights.ts';
import { outside, thereAndBack } from './rows.ts';
import type { Move, Point } from './types.ts';

/** Straight stretches of a pass on a cone: its bow leaves them by a few thousandths at most. */
const STRETCHES = 8;
/** Looks between two ends of a stretch. */
const LOOKS = 8;
/** Of what ridges are aimed at: a proof that bounds them needs room, too. */
const STEP_AIM = 0.93;
/** Rows over the crest lie at most this share of the cutter's diameter apart (common practice, no source). */
const STEP_OVER = 0.45;
/** Of the cutter's edge past the crest's own step on either side. Millimetres. */
const OVER_CREST = 0.1;

/** Moves of all passes: one side from its edge up to the crest, the other side, then the crest. */
export function finishByFlatMoves(operation: FinishSurfaceOperation, job: RouterJob): Move[] {
  const levels = levelsOf(operation, job);
  const sides = ([1, -1] as const).flatMap((side) => {
    const rows = levels.flatMap((z) => passAt(operation, job, z, side));
    return rows.length === 0 ? [] : runs(withRises(rows), operation, job);
  });
  return [...sides, ...runs(crestRows(operation, job, levels), operation, job)];
}

function runs(rows: readonly (readonly Point[])[], { box }: FinishSurfaceOperation, job: RouterJob): Move[] {
  return thereAndBack(rows, outside(box, rows[0]?.[0]?.y ?? 0, job.tool.diameter / 2), job);
}

/** Heights of the passes beside the crest, lowest first, evenly spaced. */
function levelsOf(operation: FinishSurfaceOperation, job: RouterJob): number[] {
  const { box, floor } = operation;
  const edge = edgeOf(operation);
  const top = floor.crest - floor.below;
  const fall = top - Math.min(...box.x.map((x) => coneHeight(floor, x, edge)));
  const count = Math.max(1, Math.ceil(fall / stepFor(operation, job) - 1e-9));
  return Array.from({ length: count }, (_, k) => top - (fall * (count - k)) / count);
}

/** From one level to the next: what the ridges may be, less what a pass may lie too far out, as the slope at the edge turns it. */
function stepFor(operation: FinishSurfaceOperation, job: RouterJob): number {
  const { box, floor, aim } = operation;
  const edge = edgeOf(operation);
  const radius = Math.min(...box.x.map((x) => coneRadius(floor, x)));
  const slope = edge / Math.sqrt(radius * radius - edge * edge);
  const fall = floor.crest - floor.below - Math.min(...box.x.map((x) => coneHeight(floor, x, edge)));
  const out = bowOut(operation, fall) + job.tool.tolerance / 2 + stepOf(job.machine.controller);
  const step = STEP_AIM * aim - slope * out;
  if (!(step > aim / 4)) throw new Error(`steps of ${step} mm for ridges of ${aim} mm`);
  return step;
}

function edgeOf({ box }: FinishSurfaceOperation): number {
  return Math.max(...box.y.map(Math.abs));
}

/** The ends of the stretches of a pass, from beyond one end of the board to beyond the other. */
function stationsOf({ box, past, floor }: FinishSurfaceOperation): number[] {
  const [from, to] = [box.x[0] - past, box.x[1] + past];
  const count = floor.R[0] === floor.R[1] ? 1 : STRETCHES;
  return Array.from({ length: count + 1 }, (_, k) => from + ((to - from) * k) / count);
}

/** |y| where a level so far below the crest meets the surface. */
function meets({ floor }: FinishSurfaceOperation, x: number, fall: number): number {
  return Math.sqrt(Math.max(0, 2 * coneRadius(floor, x) * fall - fall * fall));
}

/** How far the bow of a level stands out from the chords between its stations. */
function bowOut(operation: FinishSurfaceOperation, fall: number): number {
  const stations = stationsOf(operation);
  const gaps = stations.slice(1).flatMap((to, i) => {
    const from = stations[i] ?? to;
    const ends = [meets(operation, from, fall), meets(operation, to, fall)] as const;
    return Array.from({ length: LOOKS - 1 }, (_, k) => {
      const share = (k + 1) / LOOKS;
      const chord = ends[0] + (ends[1] - ends[0]) * share;
      return meets(operation, from + (to - from) * share, fall) - chord;
    });
  });
  return Math.max(0, ...gaps);
}

/** One level pass on one side; none where it would run in the air beside the blank all along. */
function passAt(operation: FinishSurfaceOperation, job: RouterJob, z: number, side: 1 | -1): Point[][] {
  const fall = operation.floor.crest - operation.floor.below - z;
  const stations = stationsOf(operation);
  const inner = stations.map((x) => meets(operation, x, fall));
  const slopes = inner.slice(1).map((y, i) => {
    const [from, to] = [stations[i] ?? 0, stations[i + 1] ?? 1];
    return (y - (inner[i] ?? y)) / (to - from);
  });
  const aside =
    bowOut(operation, fall) + (job.tool.diameter / 2) * Math.hypot(1, Math.max(...slopes.map(Math.abs)));
  const points = stations.map((x, i): Point => ({ x, y: side * ((inner[i] ?? 0) + aside), z }));
  const edge = edgeOf(operation);
  const first = inner.findIndex((y, i) => Math.min(y, inner[i + 1] ?? y) < edge);
  const last = inner.findLastIndex((y, i) => Math.min(y, inner[i - 1] ?? y) < edge);
  return first < 0 || last <= first ? [] : [points.slice(first, last + 1)];
}

/** Going from a pass to the next, higher one, the tool goes up before it goes over. */
function withRises(rows: readonly (readonly Point[])[]): Point[][] {
  return rows.map((row, i) => {
    const before = rows[i - 1];
    if (before === undefined) return [...row];
    const left = i % 2 === 1 ? before.at(-1) : before[0];
    const z = row[0]?.z ?? Number.NaN;
    if (left === undefined) return [...row];
    return i % 2 === 1 ? [...row, { ...left, z }] : [{ ...left, z }, ...row];
  });
}

/** Level with the crest, as wide as its own step on both sides. */
function crestRows(operation: FinishSurfaceOperation, job: RouterJob, levels: readonly number[]): Point[][] {
  const { floor, box, past } = operation;
  const z = floor.crest - floor.below;
  const fall = z - (levels.at(-1) ?? z);
  const half = Math.max(...stationsOf(operation).map((x) => meets(operation, x, fall)));
  const { diameter, tolerance } = job.tool;
  const reach = Math.max(0, half + OVER_CREST - (diameter - tolerance) / 2);
  const count = Math.ceil((2 * reach) / (STEP_OVER * diameter) - 1e-9);
  return Array.from({ length: count + 1 }, (_, k): Point[] => {
    const y = count === 0 ? 0 : reach - (2 * reach * k) / count;
    return [
      { x: box.x[0] - past, y, z },
      { x: box.x[1] + past, y, z },
    ];
  });
}
