/** Regions of an intent as plain polygons: arcs become chords that leave them by at most CHORD mm. */
import type { IntentRegion, IntentRing } from '../../../src/intent/types.ts';
import type { Box } from './reach.ts';

const CHORD = 0.0003;

export interface Shape {
  readonly rings: readonly (readonly (readonly [number, number])[])[];
  readonly box: Box;
}

export function shapeOf(region: IntentRegion): Shape {
  const rings = region.map(pointsOf);
  const xs = rings.flatMap((ring) => ring.map((p) => p[0]));
  const ys = rings.flatMap((ring) => ring.map((p) => p[1]));
  return {
    rings,
    box: { x0: Math.min(...xs), y0: Math.min(...ys), x1: Math.max(...xs), y1: Math.max(...ys) },
  };
}

function pointsOf(ring: IntentRing): [number, number][] {
  return ring.flatMap((vertex, i) => {
    const [x0, y0, bulge = 0] = vertex;
    const next = ring[(i + 1) % ring.length] ?? vertex;
    const [x1, y1] = next;
    if (bulge === 0) return [[x0, y0] as [number, number]];
    const chord = Math.hypot(x1 - x0, y1 - y0);
    const radius = (chord * (1 + bulge * bulge)) / (4 * Math.abs(bulge));
    const turn = 4 * Math.atan(bulge);
    const count = Math.max(2, Math.ceil(Math.abs(turn) / (2 * Math.acos(Math.max(0, 1 - CHORD / radius)))));
    const apothem = (chord * (1 - bulge * bulge)) / (4 * bulge);
    const [cx, cy] = [
      (x0 + x1) / 2 - (apothem * (y1 - y0)) / chord,
      (y0 + y1) / 2 + (apothem * (x1 - x0)) / chord,
    ];
    const start = Math.atan2(y0 - cy, x0 - cx);
    return Array.from({ length: count }, (_, k): [number, number] => {
      const angle = start + (turn * k) / count;
      return [cx + radius * Math.cos(angle), cy + radius * Math.sin(angle)];
    });
  });
}

/** Whether a point lies inside, holes left out. */
export function contains({ rings, box }: Shape, x: number, y: number): boolean {
  if (x < box.x0 || x > box.x1 || y < box.y0 || y > box.y1) return false;
  let inside = false;
  for (const ring of rings) {
    let [px, py] = ring[ring.length - 1] ?? [0, 0];
    for (const [qx, qy] of ring) {
      if (py > y !== qy > y && px + ((qx - px) * (y - py)) / (qy - py) > x) inside = !inside;
      [px, py] = [qx, qy];
    }
  }
  return inside;
}

/** The nearest point of the boundary: its distance, and the unit direction in which the boundary runs there. */
export function nearestEdge(
  { rings }: Shape,
  x: number,
  y: number,
): { readonly distance: number; readonly ux: number; readonly uy: number } {
  let best = { distance: Number.POSITIVE_INFINITY, ux: 1, uy: 0 };
  for (const ring of rings) {
    let [px, py] = ring[ring.length - 1] ?? [0, 0];
    for (const [qx, qy] of ring) {
      const [dx, dy] = [qx - px, qy - py];
      const square = dx * dx + dy * dy;
      const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - px) * dx + (y - py) * dy) / square));
      const distance = Math.hypot(x - px - t * dx, y - py - t * dy);
      if (distance < best.distance) {
        const length = Math.sqrt(square);
        best = { distance, ux: dx / length, uy: dy / length };
      }
      [px, py] = [qx, qy];
    }
  }
  return best;
}

/** Area of the outer ring, counter-clockwise positive. */
export function areaOf({ rings }: Shape): number {
  const [ring = []] = rings;
  return ring.reduce((sum, [x, y], i) => {
    const [nx, ny] = ring[(i + 1) % ring.length] ?? [x, y];
    return sum + (x * ny - nx * y) / 2;
  }, 0);
}

/** Whether the boundary comes within `gap` of a point. */
export function isNearEdge(shape: Shape, x: number, y: number, gap: number): boolean {
  const { x0, y0, x1, y1 } = shape.box;
  if (x < x0 - gap || x > x1 + gap || y < y0 - gap || y > y1 + gap) return false;
  return nearestEdge(shape, x, y).distance <= gap;
}
