import { chordCount, pointOn, segmentBetween, segmentLength } from './segment.ts';
import type { Box, Ring, Segment, Vec, Vertex } from './types.ts';

/** Sides of a closed ring, in order. */
export function segments(ring: Ring): Segment[] {
  return ring.map((vertex, i) => segmentBetween(vertex, at(ring, i + 1)));
}

/** Ring of straight sides through the points. */
export function ringFromPoints(points: readonly Vec[]): Ring {
  return points.map(([x, y]) => ({ x, y, bulge: 0 }));
}

/** Rectangle, counter-clockwise from its lower left corner. */
export function rectangle(box: Box): Ring {
  return ringFromPoints([
    [box.x[0], box.y[0]],
    [box.x[1], box.y[0]],
    [box.x[1], box.y[1]],
    [box.x[0], box.y[1]],
  ]);
}

/** Circle as two counter-clockwise half turns. */
export function circle(centre: Vec, radius: number): Ring {
  if (!(radius > 0)) throw new Error(`circle of radius ${radius}`);
  return [
    { x: centre[0] + radius, y: centre[1], bulge: 1 },
    { x: centre[0] - radius, y: centre[1], bulge: 1 },
  ];
}

/** The same ring run through the other way. */
export function reverse(ring: Ring): Ring {
  return ring.map((_, i) => {
    const vertex = at(ring, -i);
    return { x: vertex.x, y: vertex.y, bulge: -at(ring, -i - 1).bulge };
  });
}

/** The ring moved by a vector. */
export function translate(ring: Ring, by: Vec): Ring {
  return ring.map((v) => ({ x: v.x + by[0], y: v.y + by[1], bulge: v.bulge }));
}

/** The ring mirrored in the x axis, kept turning the way it did. */
export function mirrorY(ring: Ring): Ring {
  return reverse(ring.map((v) => ({ x: v.x, y: -v.y, bulge: -v.bulge })));
}

/** Signed area, counter-clockwise positive, arcs exact. */
export function area(ring: Ring): number {
  return segments(ring).reduce((sum, s) => sum + chordArea(s) + capArea(s), 0);
}

/** Length round the ring. */
export function perimeter(ring: Ring): number {
  return segments(ring).reduce((sum, s) => sum + segmentLength(s), 0);
}

/** Smallest upright box around the ring, arcs exact. */
export function bounds(ring: Ring): Box {
  const points = segments(ring).flatMap(extremes);
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return { x: [Math.min(...xs), Math.max(...xs)], y: [Math.min(...ys), Math.max(...ys)] };
}

/** Points of a polygon that leaves the ring by no more than `sagitta` mm; vertices are kept as they are. */
export function flatten(ring: Ring, sagitta: number): Vec[] {
  return segments(ring).flatMap((segment) => {
    const count = chordCount(segment, sagitta);
    return Array.from({ length: count }, (_, k) => pointOn(segment, k / count));
  });
}

/** Vertex by number, counted round and round. */
export function at(ring: Ring, index: number): Vertex {
  const vertex = ring[((index % ring.length) + ring.length) % ring.length];
  if (vertex === undefined) throw new Error(`vertex ${index} of a ring of ${ring.length}`);
  return vertex;
}

function chordArea(segment: Segment): number {
  return (segment.from[0] * segment.to[1] - segment.to[0] * segment.from[1]) / 2;
}

function capArea(segment: Segment): number {
  if (segment.kind === 'line') return 0;
  return (segment.radius * segment.radius * (segment.sweep - Math.sin(segment.sweep))) / 2;
}

function extremes(segment: Segment): Vec[] {
  if (segment.kind === 'line') return [segment.from];
  const [cx, cy] = segment.centre;
  const start = Math.atan2(segment.from[1] - cy, segment.from[0] - cx);
  const low = Math.min(start, start + segment.sweep);
  const high = Math.max(start, start + segment.sweep);
  const points: Vec[] = [segment.from, segment.to];
  for (let k = Math.ceil(low / (Math.PI / 2)); k * (Math.PI / 2) <= high; k += 1) {
    const angle = k * (Math.PI / 2);
    points.push([cx + segment.radius * Math.cos(angle), cy + segment.radius * Math.sin(angle)]);
  }
  return points;
}
