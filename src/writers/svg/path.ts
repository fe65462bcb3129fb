import { at, segments } from '../../geometry/ring.ts';
import { segmentBetween } from '../../geometry/segment.ts';
import type { Ring, Segment, Vec, Vertex } from '../../geometry/types.ts';
import { decimal } from './xml.ts';

/** Path data of a closed outline, arcs as arcs; y is turned down, as a page has it. */
export function ringPath(ring: Ring): string {
  return `${moveTo(at(ring, 0))}${segments(ring).map(sideData).join('')}Z`;
}

/** Path data of an open chain. */
export function chainPath(vertices: readonly Vertex[]): string {
  const sides = vertices.slice(1).map((vertex, i) => segmentBetween(at(vertices, i), vertex));
  return `${moveTo(at(vertices, 0))}${sides.map(sideData).join('')}`;
}

function moveTo({ x, y }: Vertex): string {
  return `M${page([x, y])}`;
}

function sideData(side: Segment): string {
  if (side.kind === 'line') return `L${page(side.to)}`;
  const radius = decimal(side.radius);
  const large = Math.abs(side.sweep) > Math.PI ? 1 : 0;
  // Turning y down turns counter-clockwise into clockwise, which is SVG's flag 0.
  return `A${radius} ${radius} 0 ${large} ${side.sweep > 0 ? 0 : 1} ${page(side.to)}`;
}

function page([x, y]: Vec): string {
  return `${decimal(x)} ${decimal(-y)}`;
}
