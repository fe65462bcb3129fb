import Flatbush from 'flatbush';
import type { IntentRegion, IntentRing, IntentVertex } from '../../intent/types.ts';
import { at } from './at.ts';
import {
  type Box,
  boxesNear,
  boxOf,
  boxOfAll,
  linePrim,
  type Prim,
  pointToPrim,
  primDistance,
} from './prim.ts';

/** A region of the plan as its boundary: sides as they were written, arcs as arcs. */
export interface Region {
  readonly edges: readonly Prim[];
  /** The same boundary in pieces that only rise or only fall. */
  readonly steps: readonly Prim[];
  readonly box: Box;
  readonly boxes: readonly Box[];
  /** One ring that bulges outward everywhere. */
  readonly convex: boolean;
  /** The circle, when the region is a disc. */
  readonly circle: { readonly x: number; readonly y: number; readonly radius: number } | null;
  /** Present when there are many sides. */
  readonly index: Flatbush | null;
}

/** Below this many sides a plain look at each is quicker than a search. */
const FEW = 24;

/** Reads a region of an intent file. */
export function regionOf(rings: IntentRegion): Region {
  const loops = rings.map(edgesOf);
  const edges = loops.flat();
  const boxes = edges.map(boxOf);
  const only = loops.length === 1 ? at(loops, 0) : null;
  return {
    edges,
    steps: edges.flatMap(monotone),
    box: boxOfAll(edges),
    boxes,
    convex: only !== null && isConvex(only),
    circle: only === null ? null : circleOf(only),
    index: edges.length > FEW ? indexOf(boxes) : null,
  };
}

/** Sides of a ring. b = tan(a quarter of the arc's angle). */
export function edgesOf(ring: IntentRing): Prim[] {
  return ring.map((from, i) => edge(from, at(ring, (i + 1) % ring.length)));
}

function edge(from: IntentVertex, to: IntentVertex): Prim {
  const [x0, y0, bulge = 0] = from;
  const [x1, y1] = to;
  if (bulge === 0) return linePrim(x0, y0, x1, y1);
  const offset = (1 - bulge * bulge) / (4 * bulge);
  const cx = (x0 + x1) / 2 - (y1 - y0) * offset;
  const cy = (y0 + y1) / 2 + (x1 - x0) * offset;
  return {
    arc: true,
    x0,
    y0,
    x1,
    y1,
    cx,
    cy,
    radius: Math.hypot(x0 - cx, y0 - cy),
    a0: Math.atan2(y0 - cy, x0 - cx),
    sweep: 4 * Math.atan(bulge),
  };
}

function indexOf(boxes: readonly Box[]): Flatbush {
  const index = new Flatbush(boxes.length);
  for (const b of boxes) index.add(b.minX, b.minY, b.maxX, b.maxY);
  index.finish();
  return index;
}

/** An arc cut where it turns from rising to falling. */
function monotone(p: Prim): Prim[] {
  if (!p.arc) return [p];
  const sense = Math.sign(p.sweep);
  const cuts: number[] = [];
  for (let k = -4; k <= 4; k += 1) {
    const turn = (Math.PI / 2 + k * Math.PI - p.a0) * sense;
    if (turn > 1e-12 && turn < Math.abs(p.sweep) - 1e-12) cuts.push(turn);
  }
  const stops = [0, ...cuts.sort((a, b) => a - b), Math.abs(p.sweep)];
  return stops.slice(1).map((end, i) => arcPart(p, at(stops, i) * sense, end * sense));
}

function arcPart(p: Prim, from: number, to: number): Prim {
  const start = from === 0 ? [p.x0, p.y0] : pointOnArc(p, from);
  const end = to === p.sweep ? [p.x1, p.y1] : pointOnArc(p, to);
  const [x0 = 0, y0 = 0] = start;
  const [x1 = 0, y1 = 0] = end;
  return { ...p, x0, y0, x1, y1, a0: p.a0 + from, sweep: to - from };
}

function pointOnArc(p: Prim, turn: number): [number, number] {
  return [p.cx + p.radius * Math.cos(p.a0 + turn), p.cy + p.radius * Math.sin(p.a0 + turn)];
}

function isConvex(loop: readonly Prim[]): boolean {
  return loop.every((side, i) => {
    if (side.arc && side.sweep < 0) return false;
    const [ax, ay] = direction(side, true);
    const [bx, by] = direction(at(loop, (i + 1) % loop.length), false);
    return ax * by - ay * bx >= -1e-9;
  });
}

/** Unit direction at the end or the start of a side. */
export function direction(p: Prim, end: boolean): [number, number] {
  if (!p.arc) {
    const length = Math.hypot(p.x1 - p.x0, p.y1 - p.y0);
    return [(p.x1 - p.x0) / length, (p.y1 - p.y0) / length];
  }
  const angle = p.a0 + (end ? p.sweep : 0);
  const sense = Math.sign(p.sweep);
  return [-Math.sin(angle) * sense, Math.cos(angle) * sense];
}

function circleOf(loop: readonly Prim[]): Region['circle'] {
  const first = at(loop, 0);
  const same = loop.every(
    (p) =>
      p.arc &&
      Math.abs(p.cx - first.cx) < 1e-6 &&
      Math.abs(p.cy - first.cy) < 1e-6 &&
      Math.abs(p.radius - first.radius) < 1e-6,
  );
  const turned = loop.reduce((sum, p) => sum + p.sweep, 0);
  if (!same || Math.abs(turned - 2 * Math.PI) > 1e-6) return null;
  return { x: first.cx, y: first.cy, radius: first.radius };
}

/** Area enclosed, counter-clockwise positive. */
export function signedArea(loop: readonly Prim[]): number {
  return loop.reduce((sum, p) => {
    const chord = (p.x0 * p.y1 - p.x1 * p.y0) / 2;
    const cap = p.arc ? (p.radius * p.radius * (p.sweep - Math.sin(p.sweep))) / 2 : 0;
    return sum + chord + cap;
  }, 0);
}

/** Whether a point lies inside, by counting the sides to its right; a point on the boundary may count either way. */
export function isInside(region: Region, x: number, y: number): boolean {
  const { box } = region;
  if (x < box.minX || x > box.maxX || y < box.minY || y > box.maxY) return false;
  let inside = false;
  for (const p of region.steps) {
    if (p.y0 > y === p.y1 > y) continue;
    if (crossingAt(p, y) > x) inside = !inside;
  }
  return inside;
}

function crossingAt(p: Prim, y: number): number {
  if (!p.arc) return p.x0 + ((p.x1 - p.x0) * (y - p.y0)) / (p.y1 - p.y0);
  const dy = y - p.cy;
  const half = Math.sqrt(Math.max(0, p.radius * p.radius - dy * dy));
  return Math.cos(p.a0 + p.sweep / 2) < 0 ? p.cx - half : p.cx + half;
}

/** Distance from a point to the boundary, or `cap` when it is farther. */
export function pointToBoundary(region: Region, x: number, y: number, cap: number): number {
  let least = cap;
  const box = { minX: x, minY: y, maxX: x, maxY: y };
  for (const i of near(region, box, cap)) least = Math.min(least, pointToPrim(x, y, at(region.edges, i)));
  return least;
}

/** Distance from a line or arc to the boundary, or `cap` when it is farther. */
export function boundaryDistance(region: Region, prim: Prim, cap: number): number {
  let least = cap;
  const box = boxOf(prim);
  for (const i of near(region, box, cap)) {
    if (boxesNear(box, at(region.boxes, i), least)) {
      least = Math.min(least, primDistance(prim, at(region.edges, i)));
    }
  }
  return least;
}

function near(region: Region, box: Box, gap: number): Iterable<number> {
  if (region.index === null || !Number.isFinite(gap)) return region.edges.keys();
  return region.index.search(box.minX - gap, box.minY - gap, box.maxX + gap, box.maxY + gap);
}

/** Distance to the boundary, positive inside, at most `cap` either way. */
export function signedDistance(region: Region, x: number, y: number, cap: number): number {
  const distance = pointToBoundary(region, x, y, cap);
  return isInside(region, x, y) ? distance : -distance;
}
