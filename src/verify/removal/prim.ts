/**
 * Lines and arcs in plan: what a tool's centre runs along and what a boundary is made of.
 *
 * Distances are closed forms, so that no chord and no grid stands between a figure and the truth. Millimetres, radians.
 */

const FULL = 2 * Math.PI;
/** Angles closer than this are one angle: 1e-9 of a turn at 1 m is a nanometre. */
const SAME_ANGLE = 1e-9;

/** A straight line, or an arc about (cx, cy) from the angle `a0` through `sweep`, counter-clockwise positive. */
export interface Prim {
  arc: boolean;
  x0: number;
  y0: number;
  x1: number;
  y1: number;
  cx: number;
  cy: number;
  radius: number;
  a0: number;
  sweep: number;
}

export interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** The straight line between two points. */
export function linePrim(x0: number, y0: number, x1: number, y1: number): Prim {
  return { arc: false, x0, y0, x1, y1, cx: 0, cy: 0, radius: 0, a0: 0, sweep: 0 };
}

/** Distance from a point to a straight line between two points. */
export function pointToLine(x: number, y: number, x0: number, y0: number, x1: number, y1: number): number {
  const dx = x1 - x0;
  const dy = y1 - y0;
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - x0) * dx + (y - y0) * dy) / square));
  return Math.hypot(x - x0 - t * dx, y - y0 - t * dy);
}

/** How far round an arc, from its start and in its own sense, an angle lies: 0 to a full turn. */
export function turnTo(p: Prim, angle: number): number {
  const turn = (angle - p.a0) * (p.sweep < 0 ? -1 : 1);
  return turn - FULL * Math.floor(turn / FULL);
}

/** Whether an arc passes through an angle. */
export function hasAngle(p: Prim, angle: number): boolean {
  const turn = turnTo(p, angle);
  return turn <= Math.abs(p.sweep) + SAME_ANGLE || turn >= FULL - SAME_ANGLE;
}

/** Distance from a point to a line or an arc. */
export function pointToPrim(x: number, y: number, p: Prim): number {
  if (!p.arc) return pointToLine(x, y, p.x0, p.y0, p.x1, p.y1);
  const dx = x - p.cx;
  const dy = y - p.cy;
  if (dx === 0 && dy === 0) return p.radius;
  if (hasAngle(p, Math.atan2(dy, dx))) return Math.abs(Math.hypot(dx, dy) - p.radius);
  return Math.min(Math.hypot(x - p.x0, y - p.y0), Math.hypot(x - p.x1, y - p.y1));
}

/** Least distance between two of them; 0 when they touch or cross. */
export function primDistance(a: Prim, b: Prim): number {
  if (meet(a, b)) return 0;
  const ends = Math.min(
    pointToPrim(a.x0, a.y0, b),
    pointToPrim(a.x1, a.y1, b),
    pointToPrim(b.x0, b.y0, a),
    pointToPrim(b.x1, b.y1, a),
  );
  if (a.arc && b.arc) return Math.min(ends, acrossCentres(a, b), acrossCentres(b, a));
  if (a.arc) return Math.min(ends, lineToArc(b, a));
  if (b.arc) return Math.min(ends, lineToArc(a, b));
  return ends;
}

/** Distance from the two points of `a` on the line of centres to `b`. */
function acrossCentres(a: Prim, b: Prim): number {
  const angle = Math.atan2(b.cy - a.cy, b.cx - a.cx);
  let least = Number.POSITIVE_INFINITY;
  for (const turned of [angle, angle + Math.PI]) {
    if (!hasAngle(a, turned)) continue;
    const x = a.cx + a.radius * Math.cos(turned);
    const y = a.cy + a.radius * Math.sin(turned);
    least = Math.min(least, pointToPrim(x, y, b));
  }
  return least;
}

/** Distance from the line's nearest point to the arc's centre, less its radius, where the arc faces it. */
function lineToArc(line: Prim, arc: Prim): number {
  const dx = line.x1 - line.x0;
  const dy = line.y1 - line.y0;
  const square = dx * dx + dy * dy;
  if (square === 0) return pointToPrim(line.x0, line.y0, arc);
  const t = ((arc.cx - line.x0) * dx + (arc.cy - line.y0) * dy) / square;
  if (t < 0 || t > 1) return Number.POSITIVE_INFINITY;
  return pointToPrim(line.x0 + t * dx, line.y0 + t * dy, arc);
}

function meet(a: Prim, b: Prim): boolean {
  if (a.arc) return b.arc ? arcsMeet(a, b) : lineMeetsArc(b, a);
  return b.arc ? lineMeetsArc(a, b) : linesMeet(a, b);
}

function linesMeet(a: Prim, b: Prim): boolean {
  const side = (p: Prim, x: number, y: number): number =>
    (p.x1 - p.x0) * (y - p.y0) - (p.y1 - p.y0) * (x - p.x0);
  return side(a, b.x0, b.y0) * side(a, b.x1, b.y1) < 0 && side(b, a.x0, a.y0) * side(b, a.x1, a.y1) < 0;
}

function lineMeetsArc(line: Prim, arc: Prim): boolean {
  const dx = line.x1 - line.x0;
  const dy = line.y1 - line.y0;
  const length = Math.hypot(dx, dy);
  if (length === 0) return false;
  const foot = ((arc.cx - line.x0) * dx + (arc.cy - line.y0) * dy) / length;
  const off = ((arc.cx - line.x0) * dy - (arc.cy - line.y0) * dx) / length;
  if (Math.abs(off) > arc.radius) return false;
  const half = Math.sqrt(arc.radius * arc.radius - off * off);
  return [foot - half, foot + half].some((s) => {
    if (s < 0 || s > length) return false;
    const x = line.x0 + (dx * s) / length;
    const y = line.y0 + (dy * s) / length;
    return hasAngle(arc, Math.atan2(y - arc.cy, x - arc.cx));
  });
}

function arcsMeet(a: Prim, b: Prim): boolean {
  const dx = b.cx - a.cx;
  const dy = b.cy - a.cy;
  const between = Math.hypot(dx, dy);
  if (between < 1e-12) return false;
  const along = (a.radius * a.radius - b.radius * b.radius + between * between) / (2 * between);
  const square = a.radius * a.radius - along * along;
  if (square < 0) return false;
  const off = Math.sqrt(square);
  return [off, -off].some((h) => {
    const x = a.cx + (along * dx - h * dy) / between;
    const y = a.cy + (along * dy + h * dx) / between;
    return hasAngle(a, Math.atan2(y - a.cy, x - a.cx)) && hasAngle(b, Math.atan2(y - b.cy, x - b.cx));
  });
}

/** Smallest upright box around it, arcs exact. */
export function boxOf(p: Prim): Box {
  let minX = Math.min(p.x0, p.x1);
  let maxX = Math.max(p.x0, p.x1);
  let minY = Math.min(p.y0, p.y1);
  let maxY = Math.max(p.y0, p.y1);
  if (p.arc) {
    if (hasAngle(p, 0)) maxX = Math.max(maxX, p.cx + p.radius);
    if (hasAngle(p, Math.PI / 2)) maxY = Math.max(maxY, p.cy + p.radius);
    if (hasAngle(p, Math.PI)) minX = Math.min(minX, p.cx - p.radius);
    if (hasAngle(p, -Math.PI / 2)) minY = Math.min(minY, p.cy - p.radius);
  }
  return { minX, minY, maxX, maxY };
}

/** The box that holds all of them. */
export function boxOfAll(prims: readonly Prim[]): Box {
  return prims.map(boxOf).reduce(joinBoxes, EMPTY_BOX);
}

const EMPTY_BOX: Box = {
  minX: Number.POSITIVE_INFINITY,
  minY: Number.POSITIVE_INFINITY,
  maxX: Number.NEGATIVE_INFINITY,
  maxY: Number.NEGATIVE_INFINITY,
};

/** The box around two boxes. */
export function joinBoxes(a: Box, b: Box): Box {
  return {
    minX: Math.min(a.minX, b.minX),
    minY: Math.min(a.minY, b.minY),
    maxX: Math.max(a.maxX, b.maxX),
    maxY: Math.max(a.maxY, b.maxY),
  };
}

/** Whether two boxes come within `gap` of each other. */
export function boxesNear(a: Box, b: Box, gap: number): boolean {
  return a.minX - gap <= b.maxX && b.minX - gap <= a.maxX && a.minY - gap <= b.maxY && b.minY - gap <= a.maxY;
}
