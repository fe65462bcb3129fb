/**
 * How low a flat-ended cutter goes over a point of the plan during one step, in closed form.
 *
 * While the disc of radius r covers the point, the step's parameter runs through one or two stretches; height never turns within a
 * step, so it is lowest at an end of a stretch. Written for the tests; the prover has its own.
 */
import type { Step } from '../machine/types.ts';

/** Lowest tip over (x, y), mm; +Infinity when the disc never covers it. */
export function lowestOver(step: Step, x: number, y: number, r: number): number {
  switch (step.shape) {
    case 'line':
      return overLine(step, x, y, r);
    case 'flat arc':
      return overFlatArc(step, x, y, r);
    case 'xz arc':
      return overUpright(step, x - step.x0, y - step.y0, r, step.x0, step.x1);
    case 'yz arc':
      return overUpright(step, y - step.y0, x - step.x0, r, step.y0, step.y1);
  }
}

function overLine(s: Step, x: number, y: number, r: number): number {
  const [dx, dy, px, py] = [s.x1 - s.x0, s.y1 - s.y0, x - s.x0, y - s.y0];
  const square = dx * dx + dy * dy;
  if (square === 0) return px * px + py * py <= r * r ? Math.min(s.z0, s.z1) : Number.POSITIVE_INFINITY;
  const cross = px * dy - py * dx;
  const room = r * r - (cross * cross) / square;
  if (room < 0) return Number.POSITIVE_INFINITY;
  const middle = (px * dx + py * dy) / square;
  const half = Math.sqrt(room / square);
  const [from, to] = [Math.max(0, middle - half), Math.min(1, middle + half)];
  if (from > to) return Number.POSITIVE_INFINITY;
  return s.z0 + (s.z1 - s.z0) * (s.z1 < s.z0 ? to : from);
}

function overFlatArc(s: Step, x: number, y: number, r: number): number {
  const [dx, dy] = [x - s.ca, y - s.cb];
  const d = Math.sqrt(dx * dx + dy * dy);
  if (Math.abs(d - s.radius) > r) return Number.POSITIVE_INFINITY;
  const cosine = d === 0 ? -1 : (s.radius * s.radius + d * d - r * r) / (2 * s.radius * d);
  const half = cosine <= -1 ? Math.PI : Math.acos(Math.min(1, cosine));
  const most = Math.abs(s.turn);
  // How far round, from the start and in the step's own sense, the point lies.
  let middle = (Math.atan2(dy, dx) - s.a0) * Math.sign(s.turn);
  middle -= 2 * Math.PI * Math.floor(middle / (2 * Math.PI));
  let lowest = Number.POSITIVE_INFINITY;
  for (const centre of [middle, middle - 2 * Math.PI]) {
    const [from, to] = [Math.max(0, centre - half), Math.min(most, centre + half)];
    if (from > to) continue;
    lowest = Math.min(lowest, s.z0 + ((s.z1 - s.z0) * (s.z1 < s.z0 ? to : from)) / most);
  }
  return lowest;
}

/** `along` and `off`: the point from the step's start, along its way in plan and across it. */
function overUpright(s: Step, along: number, off: number, r: number, u0: number, u1: number): number {
  const room = r * r - off * off;
  if (room < 0) return Number.POSITIVE_INFINITY;
  const half = Math.sqrt(room);
  const [least, most] = [Math.min(u0, u1), Math.max(u0, u1)];
  const [from, to] = [Math.max(least, u0 + along - half), Math.min(most, u0 + along + half)];
  if (from > to) return Number.POSITIVE_INFINITY;
  return Math.min(heightOn(s, from, u0, u1), heightOn(s, to, u0, u1));
}

/** Height of an upright arc at a place along its way; what its written ends miss of the circle is spread over the way. */
function heightOn(s: Step, u: number, u0: number, u1: number): number {
  if (u1 === u0) return Math.min(s.z0, s.z1);
  const t = (u - u0) / (u1 - u0);
  const side =
    Math.sin(s.a0 + s.turn / 2) * (s.shape === 'yz arc' ? 1 : 0) +
    (s.shape === 'xz arc' ? Math.cos(s.a0 + s.turn / 2) : 0);
  const circle = (w: number): number =>
    s.cb + Math.sign(side) * Math.sqrt(Math.max(0, s.radius * s.radius - (w - s.ca) ** 2));
  return circle(u) + (s.z0 - circle(u0)) * (1 - t) + (s.z1 - circle(u1)) * t;
}

/** Where the tool is at `t` from 0 to 1. */
export function placeAt(s: Step, t: number): { x: number; y: number; z: number } {
  const z = s.z0 + (s.z1 - s.z0) * t;
  if (s.shape === 'flat arc' && t > 0 && t < 1) {
    const angle = s.a0 + s.turn * t;
    return { x: s.ca + s.radius * Math.cos(angle), y: s.cb + s.radius * Math.sin(angle), z };
  }
  const [x, y] = [s.x0 + (s.x1 - s.x0) * t, s.y0 + (s.y1 - s.y0) * t];
  if (t > 0 && t < 1) {
    if (s.shape === 'xz arc') return { x, y, z: heightOn(s, x, s.x0, s.x1) };
    if (s.shape === 'yz arc') return { x, y, z: heightOn(s, y, s.y0, s.y1) };
  }
  return { x, y, z };
}

/** Length in plan. */
export function planLength(s: Step): number {
  return s.shape === 'flat arc' ? s.radius * Math.abs(s.turn) : Math.hypot(s.x1 - s.x0, s.y1 - s.y0);
}

export interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** A box in plan that holds the step, grown by `r`. A flat arc takes its whole circle's box when it passes an axis. */
export function boxOf(s: Step, r: number): Box {
  let [x0, x1] = [Math.min(s.x0, s.x1), Math.max(s.x0, s.x1)];
  let [y0, y1] = [Math.min(s.y0, s.y1), Math.max(s.y0, s.y1)];
  if (s.shape === 'flat arc') {
    const middle = placeAt(s, 0.5);
    const bulge = s.radius * (1 - Math.cos(Math.min(Math.PI, Math.abs(s.turn)) / 4));
    x0 = Math.min(x0, middle.x) - bulge;
    x1 = Math.max(x1, middle.x) + bulge;
    y0 = Math.min(y0, middle.y) - bulge;
    y1 = Math.max(y1, middle.y) + bulge;
  }
  return { x0: x0 - r, y0: y0 - r, x1: x1 + r, y1: y1 + r };
}
