import { bounds } from '../geometry/ring.ts';
import type { Ring } from '../geometry/types.ts';
import type { Instrument } from '../profile/types.ts';
import type { RodCut } from './neckTypes.ts';
import type { Layout } from './types.ts';

/** Radius of the inner corners of the wider pockets: any cutter of 3.2 mm reaches them. */
const POCKET_CORNER = 2;

/** The channel of the rod and the wider pockets at its ends, the channel first; none without a rod. */
export function layOutRodCuts({ trussRod: rod }: Instrument, nutFace: number): RodCut[] {
  if (rod === null) return [];
  const from = nutFace + rod.from;
  const to = from + rod.length;
  const cut = (id: string, [x0, x1]: readonly [number, number], width: number, depth: number): RodCut => ({
    id: `truss-rod-${id}`,
    ring: roundedBox([x0, x1], width, id === 'channel' ? width / 2 : POCKET_CORNER),
    depth,
  });
  const { anchor, adjuster } = rod;
  const atHead = adjuster?.at === 'head';
  return [
    cut('channel', [from, to], rod.width, rod.depth),
    ...(anchor === undefined
      ? []
      : [
          cut(
            'anchor',
            atHead || adjuster === undefined ? [to - anchor.length, to] : [from, from + anchor.length],
            anchor.width,
            anchor.depth,
          ),
        ]),
    ...(adjuster === undefined
      ? []
      : [
          cut(
            'adjuster',
            atHead
              ? [from - adjuster.access, from + adjuster.length]
              : [to - adjuster.length, to + adjuster.access],
            adjuster.width,
            adjuster.depth,
          ),
        ]),
  ];
}

/** The pocket over the rod in the board's underside, its ends half round: no cutter leaves a corner. Null where there is none. */
export function layOutClearance({ trussRod: rod }: Instrument, nutFace: number): Layout['rodClearance'] {
  if (rod === null || rod.clearance === null) return null;
  const { width, depth, from, length } = rod.clearance;
  const near = nutFace + from;
  return { ring: roundedBox([near, near + length], width, width / 2), depth };
}

/**
 * Depth of the truss rod's channel below the neck's plane at x of the instrument frame: the deepest of its cuts there; null where
 * there is none. Millimetres.
 */
export function rodFloorAt({ rodCuts }: Pick<Layout, 'rodCuts'>, x: number): number | null {
  const depths = rodCuts.filter(({ ring }) => isWithin(bounds(ring).x, x)).map(({ depth }) => depth);
  return depths.length === 0 ? null : Math.max(...depths);
}

function isWithin([from, to]: readonly [number, number], x: number): boolean {
  return x >= from && x <= to;
}

/** A box about the centreline whose corners are rounded, at most to half-round ends; counter-clockwise. */
function roundedBox([from, to]: readonly [number, number], width: number, corner: number): Ring {
  const half = width / 2;
  const r = Math.min(corner, half, (to - from) / 2);
  const [x0, x1] = [from + r, to - r];
  if (r === half)
    return [
      { x: x0, y: -half, bulge: 0 },
      { x: x1, y: -half, bulge: 1 },
      { x: x1, y: half, bulge: 0 },
      { x: x0, y: half, bulge: 1 },
    ];
  const quarter = Math.tan(Math.PI / 8);
  return [
    { x: x0, y: -half, bulge: 0 },
    { x: x1, y: -half, bulge: quarter },
    { x: to, y: -half + r, bulge: 0 },
    { x: to, y: half - r, bulge: quarter },
    { x: x1, y: half, bulge: 0 },
    { x: x0, y: half, bulge: quarter },
    { x: from, y: half - r, bulge: 0 },
    { x: from, y: -half + r, bulge: quarter },
  ];
}
