/**
 * The checks of a surface worked down to a floor by many passes: what is too deep and how deep each pass bites are read off a
 * height field; what is left standing is bounded by `ridges.ts`.
 */
import type { Cone, Surface } from '../../intent/types.ts';
import { at } from '../removal/at.ts';
import type { Job } from '../removal/job.ts';
import { newPiece, type Piece, steepness } from '../removal/piece.ts';
import { type Box, boxesNear } from '../removal/prim.ts';
import { breach, judge, judgeRule, keep, newRule, newWorst, note, type Worst } from '../removal/proof.ts';
import { isInside, type Region } from '../removal/rings.ts';
import { heightAt, highestOf, sectionRadius, squareShare } from '../removal/surface.ts';
import { loadPiece } from '../removal/sweep.ts';
import type { SurfaceTarget } from '../removal/targets.ts';
import { endOf } from '../removal/tool.ts';
import { pieceLine, piecePlace } from '../removal/where.ts';
import { carve, type Field, fieldOver, missedBy, pitchFor } from './field.ts';
import { type Ground, ridgesOn } from './ridges.ts';
import { CHORD_SAGITTA, straightParts } from './straight.ts';
import { type End, type Stroke, strokeOf } from './stroke.ts';

/** A bite may exceed its limit by this: the rounding of heights. Millimetres. */
const BITE_SLACK = 0.001;
/** Going down steeper than this (share of the way) is a plunge; a surfacing cutter may not plunge deeper than PLUNGE. */
const STEEP = Math.SQRT1_2;
const PLUNGE = 0.05;

/** Writes `bite`, `ramped entry`, `gouge` and `ridges left` of a surface. */
export function checkSurface(job: Job, target: SurfaceTarget): void {
  const field = carveAll(job, target);
  // How deep a flat end goes is measured under its whole disc by `floor deep`, exactly; a grid adds nothing to that.
  if (job.tool.kind === 'ball') checkGouges(job, target, field);
  checkRidges(job, target);
}

/** The stock over all that the cut may touch, lowered by every cut of the program in turn. */
function carveAll(job: Job, target: SurfaceTarget): Field {
  const field = fieldOver(fieldBox(job, target), pitchFor(target.box), stockHeight(job));
  const bites = newWorst();
  const ramped = newRule(
    'ramped entry',
    `no surfacing cutter goes straight down into wood by more than ${PLUNGE} mm`,
  );
  const end = endOf(job.intent, job.tool.most);
  const piece = newPiece();
  for (let i = 0; i < job.sweep.count; i += 1) {
    if (at(job.cutting, i) === 0) continue;
    loadPiece(job.sweep, i, piece);
    const deepest = bitePast(field, end, piece);
    const line = pieceLine(job.sweep, piece);
    note(bites, deepest, piecePlace(piece, 0.5), line);
    const isPlunge = piece.z1 < piece.z0 && steepness(piece) > STEEP;
    if (isPlunge && !(deepest <= PLUNGE)) {
      breach(job.ledger, ramped, `${deepest.toFixed(3)} mm straight down`, line, piecePlace(piece, 1));
    } else keep(ramped);
  }
  judge(job.ledger, 'bite', bites, job.intent.limits.stepDown + BITE_SLACK, target.cut.id);
  judgeRule(job.ledger, ramped);
  return field;
}

function bitePast(field: Field, end: End, piece: Piece): number {
  let deepest = 0;
  for (const part of straightParts(piece))
    deepest = Math.max(deepest, carve(field, strokeOf(end, part)).deepest);
  return deepest;
}

/** Where the cut's own box and the stock overlap. */
function fieldBox({ stock }: Job, { box }: SurfaceTarget): Box {
  const both = {
    minX: Math.max(box.minX, stock.box.minX),
    maxX: Math.min(box.maxX, stock.box.maxX),
    minY: Math.max(box.minY, stock.box.minY),
    maxY: Math.min(box.maxY, stock.box.maxY),
  };
  return both.minX < both.maxX && both.minY < both.maxY ? both : box;
}

function stockHeight(job: Job): (x: number, y: number) => number {
  const { top } = job.intent.stock;
  if (fillsItsBox(job.stock)) return (x, y) => heightAt(top, x, y);
  return (x, y) => (isInside(job.stock, x, y) ? heightAt(top, x, y) : Number.NEGATIVE_INFINITY);
}

/** Four sides along the axes: asking of every point whether it is inside would only take time. */
function fillsItsBox({ edges }: Region): boolean {
  return edges.length === 4 && edges.every((e) => !e.arc && (e.x0 === e.x1 || e.y0 === e.y1));
}

/** Deepest below the floor, square to it, with what a grid may have missed. */
function checkGouges(job: Job, target: SurfaceTarget, field: Field): void {
  const worst = newWorst();
  const { floor } = target.cut;
  const missed = missedBy(job.tool.least, field.pitch) + bound(job);
  for (let j = 0; j < field.ny; j += 1) noteRow(worst, field, j, job, floor, missed);
  judge(job.ledger, 'gouge', worst, target.cut.tolerance.floorDeep, target.cut.id);
}

function noteRow(
  worst: Worst,
  field: Field,
  j: number,
  { intent }: Job,
  floor: Surface,
  missed: number,
): void {
  const y = field.y0 + j * field.pitch;
  for (let i = 0; i < field.nx; i += 1) {
    const height = at(field.z, j * field.nx + i);
    if (height === Number.NEGATIVE_INFINITY) continue;
    const x = field.x0 + i * field.pitch;
    const upright = heightAt(floor, x, y) - height;
    worst.seen += 1;
    // Square to the floor it is less than upright: only a candidate is worth the square root.
    if (upright + missed <= worst.value) continue;
    worst.seen -= 1;
    // Where the stock never reached up to the floor nothing was cut away.
    const missing = Math.max(0, heightAt(floor, x, y) - heightAt(intent.stock.top, x, y));
    note(worst, (upright - missing) * squareShare(floor, x, y) + missed, [x, y, height], 0);
  }
}

/** Arcs are taken as chords. */
function bound(job: Job): number {
  return job.sweep.bound + CHORD_SAGITTA;
}

function checkRidges(job: Job, target: SurfaceTarget): void {
  const { cut, region } = target;
  const { cusp, floorShallow } = cut.tolerance;
  const limit = cusp ?? floorShallow;
  const strokes = strokesOver(job, region.box);
  const top = highestOf(job.intent.stock.top);
  const passes = spreadOf(job, cut.floor, region.box, strokes);
  const ground = { region, floor: cut.floor, top, isSquare: cusp !== null, limit, ...passes };
  const found = ridgesOn(ground, strokes);
  const [x, y] = found.place;
  const worst = {
    value: found.value + bound(job),
    place: [x, y, heightAt(cut.floor, x, y)] as const,
    line: 0,
    seen: found.seen,
  };
  judge(job.ledger, 'ridges left', worst, limit, cut.id);
}

type Spread = Pick<Ground, 'spread' | 'knots' | 'good'>;

/** A flat end leaves steps: where a patch lies over the edge of one it is not halved until the last micrometre. */
const GOOD_STEPS = 0.98;
const GOOD_RIDGES = 0.5;

/**
 * A ball's passes along the rulings of a cone lie as far from its middle line as the offset cone is round there; level passes of a
 * flat end where it meets their level, y^2 = 2 R f - f^2. Patches that do not lie as the passes do are only halved more often.
 */
function spreadOf({ tool }: Job, floor: Surface, box: Box, strokes: readonly Stroke[]): Spread {
  const good = tool.kind === 'ball' ? GOOD_RIDGES : GOOD_STEPS;
  if (floor.kind !== 'cone') return { spread: () => 1, knots: [], good };
  if (tool.kind !== 'ball') return { ...levelSpread(floor, box, strokes), good };
  const widest = Math.max(...floor.R) + tool.usual;
  return { spread: (x) => (sectionRadius(floor, x) + tool.usual) / widest, knots: [], good };
}

/** With more stations than this the passes are of another kind. */
const MOST_KNOTS = 40;

/** Straight between the stations at which the passes bend. */
function levelSpread(floor: Cone, { minX, maxX }: Box, strokes: readonly Stroke[]): Omit<Spread, 'good'> {
  if (floor.R[0] === floor.R[1]) return { spread: () => 1, knots: [] };
  const bends = [...new Set(strokes.flatMap(({ x0, x1 }) => [x0, x1]))].filter((x) => x > minX && x < maxX);
  const knots = bends.length > MOST_KNOTS ? [] : bends.toSorted((a, b) => a - b);
  const stations = [minX, ...knots, maxX];
  const widest = Math.max(...floor.R);
  const wide = (x: number): number => Math.sqrt(sectionRadius(floor, x) / widest);
  const spread = (x: number): number => {
    const next = stations.findIndex((station, i) => i > 0 && x <= station);
    const [from, to] = [at(stations, Math.max(0, next - 1)), at(stations, Math.max(1, next))];
    return wide(from) + ((wide(to) - wide(from)) * (x - from)) / (to - from);
  };
  return { spread, knots };
}

/** By the thinnest tool: what is left is judged by what surely goes. */
function strokesOver(job: Job, box: Box): Stroke[] {
  const end = endOf(job.intent, job.tool.least);
  const strokes: Stroke[] = [];
  const piece = newPiece();
  for (let i = 0; i < job.sweep.count; i += 1) {
    if (at(job.cutting, i) === 0) continue;
    for (const part of straightParts(loadPiece(job.sweep, i, piece))) {
      const stroke = strokeOf(end, { ...part });
      if (boxesNear(stroke, box, 0)) strokes.push(stroke);
    }
  }
  return strokes;
}
