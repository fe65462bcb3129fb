import { bounds, segments } from './ring.ts';
import { pointOn } from './segment.ts';
import type { Ring, Segment, Vec, Vertex } from './types.ts';

/** Heights that differ by less are the same. Millimetres. */
const SAME = 1e-9;

/**
 * The side of a counter-clockwise ring that faces lesser x, from its lowest to its highest place, as vertices of an open chain: the
 * last vertex ends it. Lowest and highest are those in y; where the ring runs level there, the end of lesser x counts.
 */
export function frontChain(ring: Ring): Vertex[] {
  const { y } = bounds(ring);
  const sides = segments(ring).flatMap(splitAtExtremes);
  const start = sides.findIndex(
    (side) => isAt(side.from, y[1]) && !isAt(side.to, y[1]) && side.from[1] > side.to[1],
  );
  if (start < 0) throw new Error('a ring without a highest place');
  const turned = [...sides.slice(start), ...sides.slice(0, start)];
  const length = turned.findIndex((side) => isAt(side.to, y[0])) + 1;
  const front = turned.slice(0, length).reverse();
  const last = front.at(-1);
  if (last === undefined) throw new Error('a ring without a front');
  return [
    ...front.map((side) => ({ x: side.to[0], y: side.to[1], bulge: -bulgeOf(side) })),
    { x: last.from[0], y: last.from[1], bulge: 0 },
  ];
}

const isAt = (point: Vec, y: number): boolean => Math.abs(point[1] - y) <= SAME;

const bulgeOf = (side: Segment): number => (side.kind === 'line' ? 0 : Math.tan(side.sweep / 4));

/** An arc in pieces that end where it is highest or lowest. */
function splitAtExtremes(side: Segment): Segment[] {
  if (side.kind === 'line') return [side];
  const start = Math.atan2(side.from[1] - side.centre[1], side.from[0] - side.centre[0]);
  const shares = [0, 1, 2, 3]
    .map((quarter) => (Math.PI / 2) * (2 * quarter + 1) - Math.PI)
    .flatMap((angle) => [-2, 0, 2].map((turn) => (angle + turn * Math.PI - start) / side.sweep))
    .filter((share) => share > SAME && share < 1 - SAME)
    .sort((a, b) => a - b)
    .filter((share, i, all) => i === 0 || share - (all[i - 1] ?? 0) > SAME);
  const cuts = [0, ...shares, 1];
  return cuts.slice(1).map((to, i) => {
    const from = cuts[i] ?? 0;
    return {
      ...side,
      from: pointOn(side, from),
      to: pointOn(side, to),
      sweep: side.sweep * (to - from),
    };
  });
}
