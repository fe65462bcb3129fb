import type { IChain, IChainLink, IModel, IPath, IPathArc } from 'makerjs';
import makerjs from 'makerjs';
import { bulgedOut } from '../bulgedOut.ts';
import { area, circle, reverse, segments } from '../ring.ts';
import type { Ring, Segment, Vec } from '../types.ts';

/**
 * Rings at distance `by` outside a counter-clockwise ring (inside when negative), outer corners rounded by true arcs.
 * Empty when nothing is left inside. Counter-clockwise, millimetres.
 */
export function offsetRing(ring: Ring, by: number): Ring[] {
  if (!Number.isFinite(by)) throw new Error(`offset by ${by}`);
  if (by === 0) return [ring];
  const round = asCircle(ring);
  if (round !== null) return round.radius + by > 0 ? [circle(round.centre, round.radius + by)] : [];
  const simple = bulgedOut(ring, by);
  if (simple !== null) return [simple];
  const outline = makerjs.model.outline(toModel(ring), Math.abs(by), 0, by < 0);
  return chainsOf(outline)
    .filter((chain) => chain.endless)
    .map(toRing);
}

function asCircle(ring: Ring): { centre: Vec; radius: number } | null {
  const [first] = segments(ring);
  if (ring.length !== 2 || first?.kind !== 'arc') return null;
  return ring.every((v) => Math.abs(Math.abs(v.bulge) - 1) < 1e-12)
    ? { centre: first.centre, radius: first.radius }
    : null;
}

// Maker.js answers null or undefined, against its typing, when nothing is left.
function chainsOf(model: IModel | null | undefined): IChain[] {
  if (!model?.paths && !model?.models) return [];
  const found = makerjs.model.findChains(model);
  return Array.isArray(found) ? found : Object.values(found ?? {}).flat();
}

function toModel(ring: Ring): IModel {
  const paths: Record<string, IPath> = {};
  segments(ring).forEach((segment, i) => {
    paths[`side${i}`] = toPath(segment);
  });
  return { paths };
}

function toPath(segment: Segment): IPath {
  if (segment.kind === 'line') return new makerjs.paths.Line([...segment.from], [...segment.to]);
  const [start, end] = segment.sweep > 0 ? [segment.from, segment.to] : [segment.to, segment.from];
  return new makerjs.paths.Arc(
    [...segment.centre],
    segment.radius,
    degreesAt(segment.centre, start),
    degreesAt(segment.centre, end),
  );
}

function degreesAt(centre: Vec, point: Vec): number {
  return (Math.atan2(point[1] - centre[1], point[0] - centre[0]) * 180) / Math.PI;
}

function toRing(chain: IChain): Ring {
  const ring = chain.links.filter(isDrawn).map((link) => {
    const [x, y] = startOf(link);
    return { x, y, bulge: bulgeOf(link) };
  });
  return area(ring) < 0 ? reverse(ring) : ring;
}

// Maker.js rounds to about 1e-7 and may close a corner with a side of that length, whose direction means nothing.
function isDrawn(link: IChainLink): boolean {
  return makerjs.measure.pathLength(link.walkedPath.pathContext) > 1e-5;
}

function startOf(link: IChainLink): readonly [number, number] {
  // Maker.js gives the path's own two ends; a link walked backward starts at the second.
  const point = link.endPoints[link.reversed ? 1 : 0];
  const x = point?.[0];
  const y = point?.[1];
  if (x === undefined || y === undefined) throw new Error('a side without a start');
  return [x, y];
}

function bulgeOf(link: IChainLink): number {
  const path = link.walkedPath.pathContext;
  if (path.type !== makerjs.pathType.Arc) return 0;
  const sweep = (makerjs.angle.ofArcSpan(path as IPathArc) * Math.PI) / 180;
  return Math.tan(sweep / 4) * (link.reversed ? -1 : 1);
}
