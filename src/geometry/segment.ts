import { STRAIGHT_BULGE } from './tolerance.ts';
import type { Segment, Vec, Vertex } from './types.ts';
import { between, distance } from './vec.ts';

/**
 * The side from one vertex to the next.
 * Centre and radius from the bulge: radius = chord (1 + b^2) / (4 |b|) (published DXF reference, VERTEX group 42).
 */
export function segmentBetween(a: Vertex, b: Vertex): Segment {
  const from: Vec = [a.x, a.y];
  const to: Vec = [b.x, b.y];
  if (Math.abs(a.bulge) < STRAIGHT_BULGE) return { kind: 'line', from, to };
  const [mx, my] = between(from, to, 0.5);
  const offCentre = (1 - a.bulge * a.bulge) / (4 * a.bulge);
  return {
    kind: 'arc',
    from,
    to,
    centre: [mx - (b.y - a.y) * offCentre, my + (b.x - a.x) * offCentre],
    radius: (distance(from, to) * (1 + a.bulge * a.bulge)) / (4 * Math.abs(a.bulge)),
    sweep: 4 * Math.atan(a.bulge),
  };
}

/** Length of a side. */
export function segmentLength(segment: Segment): number {
  return segment.kind === 'line'
    ? distance(segment.from, segment.to)
    : segment.radius * Math.abs(segment.sweep);
}

/** The point at share `t` (0 to 1) of a side's length. */
export function pointOn(segment: Segment, t: number): Vec {
  if (t === 0) return segment.from;
  if (t === 1) return segment.to;
  if (segment.kind === 'line') return between(segment.from, segment.to, t);
  const [cx, cy] = segment.centre;
  const start = Math.atan2(segment.from[1] - cy, segment.from[0] - cx);
  const angle = start + segment.sweep * t;
  return [cx + segment.radius * Math.cos(angle), cy + segment.radius * Math.sin(angle)];
}

/** Chords needed so that none leaves the side by more than `sagitta` mm. */
export function chordCount(segment: Segment, sagitta: number): number {
  if (segment.kind === 'line') return 1;
  const share = Math.min(1, sagitta / segment.radius);
  return Math.max(1, Math.ceil(Math.abs(segment.sweep) / (2 * Math.acos(1 - share))));
}
