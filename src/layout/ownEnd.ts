/** The body end of a board as it was drawn elsewhere. Frame: instrument, before it is mirrored for the left hand. */
import { fitWay } from '../geometry/fit.ts';
import { flatten } from '../geometry/ring.ts';
import type { Ring, Vec } from '../geometry/types.ts';
import { between } from '../geometry/vec.ts';

/** Chords leave the drawn outline by at most this, and the arcs fitted through them the chords. Millimetres. */
const SAGITTA = 0.0004;
const FIT = 0.0015;

/** Half the board's width grows evenly along x: half = at0 + slope x. */
interface Taper {
  readonly at0: number;
  readonly slope: number;
}

/** A counter-clockwise outline about its own middle, moved so that it crosses the centreline at the board's end. */
export function placeOwnEnd(drawn: Ring, at: number): Vec[] {
  const points = flatten(drawn, SAGITTA);
  const start = rightmost(points);
  if (start === null) throw new Error('an outline that does not cross its own middle');
  // Begun where it crosses the centreline, going toward positive y.
  const turned = [...points.slice(start.side + 1), ...points.slice(0, start.side + 1)];
  const move = at - start.x;
  return [[start.x, 0] as const, ...turned].map(([x, y]): Vec => [x + move, y]);
}

/** Vertices from the bass edge along the outline to the treble edge; throws where it does not reach both. */
export function ownEnd(outline: readonly Vec[], taper: Taper): Ring {
  const way = ownWay(outline, taper);
  if (way === null) throw new Error('an end that does not reach both edges');
  const sides = fitWay(way, FIT);
  const last = way.at(-1) ?? [Number.NaN, Number.NaN];
  return [
    ...sides.map((side) => ({
      x: side.from[0],
      y: side.from[1],
      bulge: side.kind === 'line' ? 0 : Math.tan(side.sweep / 4),
    })),
    { x: last[0], y: last[1], bulge: 0 },
  ];
}

/** The part of the outline about the centreline that lies between both edges; null where it does not reach them. */
export function ownWay(outline: readonly Vec[], taper: Taper): Vec[] | null {
  const [start, ...rest] = outline;
  if (start === undefined) return null;
  const treble = untilEdge([start, ...rest], taper, 1);
  const bass = untilEdge([start, ...rest.toReversed()], taper, -1);
  return treble === null || bass === null ? null : [...bass.toReversed(), ...treble.slice(1)];
}

/** Room from a point to an end's way from edge to edge; negative where the point lies past it. */
export function roomToOwnEnd(way: readonly Vec[], [x, y]: Vec): number {
  const sides = way.slice(1).map((q, i): readonly [Vec, Vec] => [way[i] ?? q, q]);
  const beyond = crossingsOf(sides, y).filter((c) => c.x > x);
  const away = Math.min(...sides.map(([p, q]) => distanceToSide([x, y], p, q)));
  return beyond.length % 2 === 0 ? -away : away;
}

function untilEdge(points: readonly Vec[], { at0, slope }: Taper, side: -1 | 1): Vec[] | null {
  const over = ([x, y]: Vec): number => side * y - (at0 + slope * x);
  const found = points.findIndex((p) => over(p) >= 0);
  const [inside, outside] = [points[found - 1], points[found]];
  if (inside === undefined || outside === undefined) return null;
  const share = over(inside) / (over(inside) - over(outside));
  return [...points.slice(0, found), between(inside, outside, share)];
}

interface Crossing {
  readonly side: number;
  readonly x: number;
}

/** Where sides cross a line of equal y. */
function crossingsOf(sides: readonly (readonly [Vec, Vec])[], level: number): Crossing[] {
  return sides.flatMap(([p, q], side) => {
    if (p[1] > level === q[1] > level) return [];
    return [{ side, x: p[0] + ((q[0] - p[0]) * (level - p[1])) / (q[1] - p[1]) }];
  });
}

/** Where a closed outline crosses the line y = 0 farthest along x. */
function rightmost(points: readonly Vec[]): Crossing | null {
  const sides = points.map((p, i) => [p, points[(i + 1) % points.length] ?? p] as const);
  return crossingsOf(sides, 0).toSorted((a, b) => b.x - a.x)[0] ?? null;
}

function distanceToSide([x, y]: Vec, a: Vec, b: Vec): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - a[0]) * dx + (y - a[1]) * dy) / square));
  return Math.hypot(x - a[0] - t * dx, y - a[1] - t * dy);
}
