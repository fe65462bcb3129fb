/**
 * How high the cutter's centre runs over a slot, pass by pass, and by what moves.
 *
 * A flat cutter touches a falling floor with its inner edge: the centre may go as low as the surface is one cutter's radius nearer to
 * the board's middle line. So the floor of a place is finished when the cutter's edge, not its centre, has passed it.
 */
import { coneHeight, coneRadius } from '../geometry/coneSurface.ts';
import { surfaceHeight } from '../geometry/surface.ts';
import type { Vec } from '../geometry/types.ts';
import { between, distance } from '../geometry/vec.ts';
import type { RouterJob } from '../machining/types.ts';
import type { Cone, Floor, Top } from '../parts/types.ts';
import { CHORD_SAGITTA, feedOnArc, feedOnSlope } from './heights.ts';
import type { Move, Point } from './types.ts';

/** One pass of a lane: its height over any of the lane's points, and the moves that follow it from one to another. */
export interface Course {
  readonly heightAt: (p: Vec) => number;
  readonly moves: (from: Vec, to: Vec, job: RouterJob) => Move[];
}

/** Between which surfaces the passes of a lane lie, and where it runs. */
export interface Ground {
  readonly top: Floor | Top;
  readonly floor: Floor;
  /** Aimed deeper than the floor by this. */
  readonly aim: number;
  /** Radius of the cutter. */
  readonly lag: number;
  readonly from: Vec;
  readonly to: Vec;
}

/** Passes of equal share from the top (the first, cutting nothing) to the floor (the last). */
export function coursesOf(ground: Ground, passes: number): Course[] {
  const make = isSquare(ground) ? squareCourse : leaningCourse;
  return Array.from({ length: passes + 1 }, (_, k) => make(ground, k / passes));
}

/** Greatest height of the top over the floor along the lane. */
export function depthOf({ top, floor, aim, lag, from, to }: Ground): number {
  const inner = breaks(from, to, lag);
  const stops = [
    from,
    ...inner,
    to,
    ...(inner.length === 2 ? [between(at(inner, 0), at(inner, 1), 0.5)] : []),
  ];
  return Math.max(...stops.map((p) => heightOver(top, p, lag) - heightOver(floor, p, lag) + aim));
}

/** How far the first pass may run below a round top between two of its points: in chords by their sagitta, in arcs not at all. */
export function bowOf(ground: Ground, { machine }: RouterJob): number {
  const { kind } = ground.top;
  if (kind === 'plane' || kind === 'planed') return 0;
  return isSquare(ground) && machine.controller.arcPlanes.includes('yz') ? 0 : CHORD_SAGITTA;
}

function isSquare({ from, to }: Ground): boolean {
  return Math.abs(from[0] - to[0]) < 1e-9;
}

/** As low as a cutter of radius `lag` may go there; of a top that has been worked, where it has been. */
export function heightOver(surface: Floor | Top, [x, y]: Vec, lag: number): number {
  if (surface.kind === 'plane') return surface.z;
  if (surface.kind === 'planed') return surface.floor;
  return coneHeight(coneOf(surface), x, Math.max(Math.abs(y) - lag, 0));
}

function coneOf(surface: Exclude<Floor | Top, { kind: 'plane' | 'planed' }>): Cone {
  return surface.kind === 'worked' ? surface.cone : surface;
}

// ------------------------------------------------------- a lane square to the middle line: every pass is again an arc

/** z = crest + height of a board of `radius` at distance max(|y| - lag, 0) from the middle; flat when radius is null. */
interface Curve {
  readonly crest: number;
  readonly radius: number | null;
  readonly lag: number;
}

function squareCourse({ top, floor, aim, lag, from, to }: Ground, share: number): Course {
  const reach = Math.max(Math.abs(from[1]), Math.abs(to[1]), lag) - lag;
  const curve = blend(curveOf(top, from[0], 0, lag), curveOf(floor, from[0], aim, lag), share, reach);
  const heightAt = ([, y]: Vec): number => curveHeight(curve, y);
  return {
    heightAt,
    moves: (start, end, job) =>
      stretches(start, end, lag).flatMap(([a, b]): Move[] => {
        const onFlat = curve.radius === null || Math.abs((a[1] + b[1]) / 2) <= lag;
        if (onFlat || curve.radius === null) return [lineTo(a, b, heightAt, job)];
        if (job.machine.controller.arcPlanes.includes('yz')) return [arcTo(a, b, curve, curve.radius, job)];
        return chords(a, b, heightAt, bendOf(curve.radius, reach), job);
      }),
  };
}

function curveOf(surface: Floor | Top, x: number, deeper: number, lag: number): Curve {
  if (surface.kind === 'plane') return { crest: surface.z - deeper, radius: null, lag };
  if (surface.kind === 'planed') return { crest: surface.floor - deeper, radius: null, lag };
  const cone = coneOf(surface);
  return { crest: cone.crest - cone.below - deeper, radius: coneRadius(cone, x), lag };
}

/** The curve a share of the way down from one to another: again an arc, through the blended crest and ends. */
function blend(top: Curve, floor: Curve, share: number, reach: number): Curve {
  const crest = top.crest + (floor.crest - top.crest) * share;
  if (share === 1) return floor;
  const fall = fallOf(top, reach) + (fallOf(floor, reach) - fallOf(top, reach)) * share;
  const radius = fall < 1e-9 ? null : (reach * reach + fall * fall) / (2 * fall);
  return { crest, radius, lag: floor.lag };
}

/** How far a curve lies below its crest at a distance from where it starts to fall. */
function fallOf(curve: Curve, reach: number): number {
  return curve.radius === null ? 0 : -surfaceHeight(curve.radius, reach);
}

function curveHeight(curve: Curve, y: number): number {
  if (curve.radius === null) return curve.crest;
  return curve.crest + surfaceHeight(curve.radius, Math.max(Math.abs(y) - curve.lag, 0));
}

function arcTo(start: Vec, end: Vec, curve: Curve, radius: number, job: RouterJob): Move {
  const side = start[1] + end[1] > 0 ? 1 : -1;
  const to: Point = { x: end[0], y: end[1], z: curveHeight(curve, end[1]) };
  const centre: Point = { x: end[0], y: side * curve.lag, z: curve.crest - radius };
  const farthest = Math.max(Math.abs(start[1]), Math.abs(end[1])) - curve.lag;
  const feed = feedOnArc(job, farthest / radius, curveHeight(curve, start[1]) - to.z);
  // Over the hill toward +y is clockwise when looked at from +x.
  return { kind: 'arc', plane: 'yz', clockwise: end[1] > start[1], to, centre, feed };
}

// ------------------------------------------------------------------- a lane that leans: short chords at true heights

/** A slot across a cone lies on no circle, and no control has arcs in a plane that leans. */
function leaningCourse(ground: Ground, share: number): Course {
  const { top, floor, aim, lag } = ground;
  const heightAt = (p: Vec): number => {
    const above = heightOver(top, p, lag);
    return above + (heightOver(floor, p, lag) - aim - above) * share;
  };
  const bend = Math.max(...[top, floor].map((surface) => bendUnder(surface, ground)));
  return {
    heightAt,
    moves: (start, end, job) =>
      stretches(start, end, lag).flatMap(([a, b]) => {
        const onFlat = bend === 0 || Math.abs((a[1] + b[1]) / 2) <= lag;
        return onFlat ? [lineTo(a, b, heightAt, job)] : chords(a, b, heightAt, bend, job);
      }),
  };
}

/** Greatest |d2z/ds2| along a lane. What the change of radius adds to that of a circle is less than a tenth. */
function bendUnder(surface: Floor | Top, { from, to, lag }: Ground): number {
  if (surface.kind === 'plane' || surface.kind === 'planed') return 0;
  const cone = coneOf(surface);
  const radius = Math.min(coneRadius(cone, from[0]), coneRadius(cone, to[0]));
  return 1.1 * bendOf(radius, Math.max(Math.abs(from[1]), Math.abs(to[1]), lag) - lag);
}

/** |d2z/dy2| of a circle at a distance from its crest: R^2 / (R^2 - y^2)^(3/2). */
function bendOf(radius: number, y: number): number {
  return (radius * radius) / (radius * radius - y * y) ** 1.5;
}

// ------------------------------------------------------------------------------------------------------ both

/** The lane in stretches, cut where the curve turns flat over the middle of the board. */
function stretches(from: Vec, to: Vec, lag: number): (readonly [Vec, Vec])[] {
  const stops = [from, ...breaks(from, to, lag), to];
  return stops.slice(1).map((end, i) => [at(stops, i), end]);
}

/** Points of the lane at which |y| is the cutter's radius. */
function breaks(from: Vec, to: Vec, lag: number): Vec[] {
  const rise = to[1] - from[1];
  if (Math.abs(rise) < 1e-9) return [];
  return [-lag, lag]
    .map((y) => (y - from[1]) / rise)
    .filter((t) => t > 1e-9 && t < 1 - 1e-9)
    .sort((a, b) => a - b)
    .map((t) => [from[0] + (to[0] - from[0]) * t, from[1] + rise * t]);
}

function lineTo(start: Vec, end: Vec, heightAt: Course['heightAt'], job: RouterJob): Move {
  const z = heightAt(end);
  const feed = feedOnSlope(job, distance(start, end), heightAt(start) - z);
  return { kind: 'feed', x: end[0], y: end[1], z, feed };
}

/** Chords that leave a curve of second derivative `bend` by at most the sagitta allowed: s = bend c^2 / 8. */
function chords(start: Vec, end: Vec, heightAt: Course['heightAt'], bend: number, job: RouterJob): Move[] {
  const longest = Math.sqrt((8 * CHORD_SAGITTA) / bend);
  const count = Math.ceil(distance(start, end) / longest);
  const pointAt = (k: number): Vec => between(start, end, k / count);
  return Array.from({ length: count }, (_, i) => lineTo(pointAt(i), pointAt(i + 1), heightAt, job));
}

function at<T>(list: readonly T[], index: number): T {
  const item = list[index];
  if (item === undefined) throw new Error(`item ${index} of a list of ${list.length}`);
  return item;
}
