/**
 * One stretch of a tool's path that can be reckoned with in closed form.
 *
 * In plan it is a line or an arc of at most half a turn. Its height runs evenly with the way, or, for an arc that stands upright
 * in the XZ or YZ plane, follows a circle; height never turns within a piece. `t` runs from 0 to 1. Millimetres.
 */
import { type Prim, turnTo } from './prim.ts';

export interface Piece extends Prim {
  z0: number;
  z1: number;
  /** An upright arc: a line in plan, a circle in height. */
  upright: boolean;
  /** The upright arc lies in the XZ plane (else YZ). */
  alongX: boolean;
  /** Centre of the upright arc along its plan axis, and its height. */
  uc: number;
  uz: number;
  /** +1 over its centre, -1 under it. */
  side: number;
  /** Number of the motion on the tape that it belongs to. */
  motion: number;
}

/** A piece to be filled in. */
export function newPiece(): Piece {
  return {
    arc: false,
    x0: 0,
    y0: 0,
    x1: 0,
    y1: 0,
    cx: 0,
    cy: 0,
    radius: 0,
    a0: 0,
    sweep: 0,
    z0: 0,
    z1: 0,
    upright: false,
    alongX: false,
    uc: 0,
    uz: 0,
    side: 1,
    motion: 0,
  };
}

/** x of the tool's centre at `t`. */
export function xAt(p: Piece, t: number): number {
  return p.arc && t > 0 && t < 1 ? p.cx + p.radius * Math.cos(p.a0 + p.sweep * t) : p.x0 + (p.x1 - p.x0) * t;
}

/** y of the tool's centre at `t`. */
export function yAt(p: Piece, t: number): number {
  return p.arc && t > 0 && t < 1 ? p.cy + p.radius * Math.sin(p.a0 + p.sweep * t) : p.y0 + (p.y1 - p.y0) * t;
}

/** Height of the tool's tip at `t`. */
export function zAt(p: Piece, t: number): number {
  const even = p.z0 + (p.z1 - p.z0) * t;
  if (!p.upright || t <= 0 || t >= 1) return even;
  // The written ends may miss the circle by their rounding; that is spread evenly over the arc.
  const missed = (p.z0 - circleHeight(p, 0)) * (1 - t) + (p.z1 - circleHeight(p, 1)) * t;
  return circleHeight(p, t) + missed;
}

function circleHeight(p: Piece, t: number): number {
  const u = (p.alongX ? xAt(p, t) : yAt(p, t)) - p.uc;
  return p.uz + p.side * Math.sqrt(Math.max(0, p.radius * p.radius - u * u));
}

/** Length in plan. */
export function planLength(p: Piece): number {
  return p.arc ? p.radius * Math.abs(p.sweep) : Math.hypot(p.x1 - p.x0, p.y1 - p.y0);
}

/** Length of the way in space. */
export function spaceLength(p: Piece): number {
  const plan = planLength(p);
  if (!p.upright) return Math.hypot(plan, p.z1 - p.z0);
  const chord = Math.hypot(plan, p.z1 - p.z0);
  return 2 * p.radius * Math.asin(Math.min(1, chord / (2 * p.radius)));
}

/** Steepest share of the way that goes up or down: 0 level, 1 upright. */
export function steepness(p: Piece): number {
  if (p.upright) {
    const ends = p.alongX ? [p.x0, p.x1] : [p.y0, p.y1];
    return Math.min(1, Math.max(...ends.map((u) => Math.abs(u - p.uc))) / p.radius);
  }
  const length = spaceLength(p);
  return length === 0 ? 0 : Math.abs(p.z1 - p.z0) / length;
}

/** The part of a piece between two values of `t`. */
export function partOf(p: Piece, from: number, to: number): Piece {
  return {
    ...p,
    x0: xAt(p, from),
    y0: yAt(p, from),
    z0: zAt(p, from),
    x1: xAt(p, to),
    y1: yAt(p, to),
    z1: zAt(p, to),
    a0: p.a0 + p.sweep * from,
    sweep: p.sweep * (to - from),
  };
}

/** Stretches of `t` in which the centre is within `r` of a point: up to two, as [from, to, from, to]. */
export interface Span {
  count: number;
  readonly at: Float64Array;
}

/** A span to be filled in. */
export function newSpan(): Span {
  return { count: 0, at: new Float64Array(4) };
}

/** Fills in where a piece's centre is within `r` of a point of the plan. */
export function spanNear(p: Piece, x: number, y: number, r: number, span: Span): void {
  span.count = 0;
  if (p.arc) arcSpan(p, x, y, r, span);
  else lineSpan(p, x, y, r, span);
}

function push(span: Span, from: number, to: number): void {
  span.at[2 * span.count] = from;
  span.at[2 * span.count + 1] = to;
  span.count += 1;
}

function lineSpan(p: Piece, x: number, y: number, r: number, span: Span): void {
  const dx = p.x1 - p.x0;
  const dy = p.y1 - p.y0;
  const px = x - p.x0;
  const py = y - p.y0;
  const square = dx * dx + dy * dy;
  if (square === 0) {
    if (px * px + py * py <= r * r) push(span, 0, 1);
    return;
  }
  const middle = (px * dx + py * dy) / square;
  const off = px * dy - py * dx;
  const left = r * r - (off * off) / square;
  if (left < 0) return;
  const half = Math.sqrt(left / square);
  const from = Math.max(0, middle - half);
  const to = Math.min(1, middle + half);
  if (from <= to) push(span, from, to);
}

function arcSpan(p: Piece, x: number, y: number, r: number, span: Span): void {
  const d = Math.hypot(x - p.cx, y - p.cy);
  const turn = Math.abs(p.sweep);
  const cosine = (p.radius * p.radius + d * d - r * r) / (2 * p.radius * d);
  if (cosine > 1) return;
  if (d === 0 || cosine <= -1) {
    if (d === 0 && p.radius > r) return;
    push(span, 0, 1);
    return;
  }
  const middle = turnTo(p, Math.atan2(y - p.cy, x - p.cx));
  const half = Math.acos(cosine);
  pushTurns(span, turn, middle - half, middle + half);
  pushTurns(span, turn, middle - half - 2 * Math.PI, middle + half - 2 * Math.PI);
}

function pushTurns(span: Span, turn: number, first: number, last: number): void {
  const from = Math.max(0, first);
  const to = Math.min(turn, last);
  if (from <= to) push(span, from / turn, to / turn);
}

/** Lowest tip of the piece while its disc of radius `r` covers a point; +Infinity when it never does. */
export function lowestOver(p: Piece, x: number, y: number, r: number, span: Span): number {
  spanNear(p, x, y, r, span);
  let lowest = Number.POSITIVE_INFINITY;
  for (let k = 0; k < 2 * span.count; k += 1) lowest = Math.min(lowest, zAt(p, span.at[k] ?? 0));
  return lowest;
}
