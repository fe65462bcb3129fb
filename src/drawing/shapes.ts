import { rectangle } from '../geometry/ring.ts';
import type { Box, Ring, Vec } from '../geometry/types.ts';
import { distance, leftNormal, scale, subtract, unit } from '../geometry/vec.ts';
import type { Shape } from './types.ts';

/** A straight line. */
export function line(from: Vec, to: Vec): Shape {
  return { kind: 'line', from, to };
}

/** A circle given by its diameter. */
export function circleOf(centre: Vec, diameter: number): Shape {
  return { kind: 'circle', centre, radius: diameter / 2 };
}

/** A closed outline; two equal half turns become the circle they are. */
export function outlineOf(ring: Ring): Shape {
  return circleFrom(ring) ?? { kind: 'ring', ring };
}

/** Two points make a line, more an open chain. */
export function polyline(points: readonly Vec[]): Shape {
  const [from, to, ...more] = points;
  if (from === undefined || to === undefined) throw new Error(`a line of ${points.length} points`);
  if (more.length === 0) return line(from, to);
  return { kind: 'chain', vertices: points.map(([x, y]) => ({ x, y, bulge: 0 })) };
}

/** A slot of true width about its centre line, square-ended, counter-clockwise. */
export function slotWalls([from, to]: readonly [Vec, Vec], width: number): Shape {
  const across = scale(leftNormal(unit(subtract(to, from))), width / 2);
  const corner = ([x, y]: Vec, side: number) => ({
    x: x + side * across[0],
    y: y + side * across[1],
    bulge: 0,
  });
  return { kind: 'ring', ring: [corner(from, -1), corner(to, -1), corner(to, 1), corner(from, 1)] };
}

/** An upright rectangle. */
export function boxOutline(box: Box): Shape {
  return { kind: 'ring', ring: rectangle(box) };
}

function circleFrom(ring: Ring): Shape | null {
  const [a, b] = ring;
  if (ring.length !== 2 || a === undefined || b === undefined) return null;
  if (a.bulge !== b.bulge || Math.abs(Math.abs(a.bulge) - 1) > 1e-12) return null;
  return {
    kind: 'circle',
    centre: [(a.x + b.x) / 2, (a.y + b.y) / 2],
    radius: distance([a.x, a.y], [b.x, b.y]) / 2,
  };
}
