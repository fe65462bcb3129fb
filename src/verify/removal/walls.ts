/**
 * How far a tool reaches sideways out of what it may cut: its largest radius less the distance from its path to the boundary,
 * exact for lines and arcs.
 */
import type { Job } from './job.ts';
import { type Piece, planLength, xAt, yAt } from './piece.ts';
import { pointToLine } from './prim.ts';
import { boundaryDistance, isInside, pointToBoundary, type Region } from './rings.ts';
import type { LineTarget, RegionTarget, SeparateTarget, SurfaceTarget, Target } from './targets.ts';
import type { Found } from './wood.ts';

/** Distances beyond this are all the same: far away. Millimetres. */
const FAR = 1000;

/** Overcut of a piece against a target; about FAR when the piece has nothing to do with it. */
export function overcut(job: Job, target: Target, piece: Piece): Found {
  switch (target.kind) {
    case 'region':
    case 'drill':
    case 'surface':
      return overRegion(job, target, piece);
    case 'separate':
      return overRing(job, target, piece);
    case 'line':
      return offLine(target, piece);
  }
}

function overRegion(job: Job, target: RegionTarget | SurfaceTarget, piece: Piece): Found {
  const radius = job.tool.most;
  const found = outOf(target.region, piece, radius);
  // The union of both: a path well inside either is well inside the union.
  return target.mayCut === null ? found : lesser(found, outOf(target.mayCut, piece, radius));
}

function lesser(a: Found, b: Found): Found {
  return b.value < a.value ? b : a;
}

/** Radius less distance to the boundary for a path inside; radius plus distance for one outside. */
function outOf(region: Region, piece: Piece, radius: number): Found {
  return beyond(region, piece, radius, true);
}

function beyond(region: Region, piece: Piece, radius: number, inside: boolean): Found {
  const within = (t: number): boolean => isInside(region, xAt(piece, t), yAt(piece, t)) === inside;
  const clear = boundaryDistance(region, piece, FAR);
  const ends = [0, 0.5, 1].map((t) => ({ t, d: pointToBoundary(region, xAt(piece, t), yAt(piece, t), FAR) }));
  if (clear > 0 && within(0.5)) {
    const nearest = ends.reduce((a, b) => (b.d < a.d ? b : a));
    return { value: radius - clear, t: nearest.t };
  }
  const outside = ends.filter(({ t }) => !within(t));
  const farthest = outside.reduce((a, b) => (b.d > a.d ? b : a), { t: 0.5, d: 0 });
  return { value: radius + farthest.d, t: farthest.t };
}

/** How far a piece reaches into a part that it does not cut round; negative is clear. */
export function intoPart(job: Job, part: SeparateTarget, piece: Piece): Found {
  return beyond(part.ring, piece, job.tool.most, false);
}

/** Against the kept ring; a path that leaves the width of one tool beside it has nothing to do with this cut. */
function overRing(job: Job, target: SeparateTarget, piece: Piece): Found {
  const { most } = job.tool;
  const waste = target.mayCut === null ? null : outOf(target.mayCut, piece, most);
  if (waste !== null && waste.value <= 0) return waste;
  const found = beyond(target.ring, piece, most, !target.keepsInside);
  const away = [0, 0.5, 1].map((t) => pointToBoundary(target.ring, xAt(piece, t), yAt(piece, t), FAR));
  const farthest = Math.max(...away);
  // At a sharp corner the path may stand off by up to a tool's width.
  if (farthest <= 2 * most || isWayIn(target, piece, away, 2 * most)) return found;
  return { value: farthest, t: away.indexOf(farthest) / 2 };
}

/** Lengths in the text are rounded by less than this. Millimetres. */
const LENGTH_SLACK = 0.02;

/** A straight way of a beam to its outline, where one is meant: no longer than that, and ending beside the outline. */
function isWayIn(target: SeparateTarget, piece: Piece, away: readonly number[], near: number): boolean {
  const { leadIn = 0 } = target.cut.beam ?? {};
  if (leadIn === 0 || piece.arc || planLength(piece) > leadIn + LENGTH_SLACK) return false;
  return (away.at(-1) ?? FAR) <= near;
}

/** How far a path is off a marked line, or beyond its ends. */
function offLine(target: LineTarget, piece: Piece): Found {
  const off = [0, 0.5, 1].map((t) => lineDistance(target, xAt(piece, t), yAt(piece, t)));
  const value = Math.max(...off);
  return { value, t: off.indexOf(value) / 2 };
}

function lineDistance(target: LineTarget, x: number, y: number): number {
  let least = FAR;
  target.points.slice(1).forEach((to, i) => {
    const from = target.points[i] ?? to;
    least = Math.min(least, pointToLine(x, y, from[0], from[1], to[0], to[1]));
  });
  return least;
}
