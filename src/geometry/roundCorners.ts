import type { Ring, Vec, Vertex } from './types.ts';
import { distance, subtract, unit } from './vec.ts';

/** The corners of a counter-clockwise polygon once each of its sides has moved outward by `out` mm, corners kept sharp. */
export function straightCorners(points: readonly Vec[], out: number): Vec[] {
  return points.map((p, i) => {
    const u = unit(subtract(p, pointAt(points, i - 1)));
    const v = unit(subtract(pointAt(points, i + 1), p));
    const across = u[0] * v[1] - u[1] * v[0];
    const along = u[0] * v[0] + u[1] * v[1];
    if (!(1 + along > 1e-9)) throw new Error(`a corner that turns back on itself at ${p.join(', ')}`);
    // Outward normals of both sides, (uy, -ux) and (vy, -vx): the corner moves along their sum.
    const by = out / (1 + along);
    return across === 0 && along > 0
      ? [p[0] + u[1] * out, p[1] - u[0] * out]
      : [p[0] + (u[1] + v[1]) * by, p[1] - (u[0] + v[0]) * by];
  });
}

/**
 * A counter-clockwise polygon with its corners rounded by arcs that touch both sides: those that stand out to one radius, those
 * that go in to another. Tangent length = radius / tan(half the corner's angle).
 */
export function withRoundCorners(points: readonly Vec[], outward: number, inward: number): Ring {
  const corners = points.map((p, i) => cornerAt(points, i, p, outward, inward));
  corners.forEach(({ p, tangent }, i) => {
    const next = corners[(i + 1) % corners.length];
    const side = next === undefined ? 0 : distance(p, next.p);
    if (next !== undefined && tangent + next.tangent > side + 1e-9) {
      throw new Error(`corners of ${tangent} and ${next.tangent} on a side of ${side}`);
    }
  });
  return corners.flatMap(({ p, toBefore, toAfter, tangent, bulge }): Vertex[] =>
    tangent === 0
      ? [{ x: p[0], y: p[1], bulge: 0 }]
      : [
          { x: p[0] + toBefore[0] * tangent, y: p[1] + toBefore[1] * tangent, bulge },
          { x: p[0] + toAfter[0] * tangent, y: p[1] + toAfter[1] * tangent, bulge: 0 },
        ],
  );
}

interface Corner {
  readonly p: Vec;
  readonly toBefore: Vec;
  readonly toAfter: Vec;
  readonly tangent: number;
  readonly bulge: number;
}

function cornerAt(points: readonly Vec[], i: number, p: Vec, outward: number, inward: number): Corner {
  const toBefore = unit(subtract(pointAt(points, i - 1), p));
  const toAfter = unit(subtract(pointAt(points, i + 1), p));
  const cosine = toBefore[0] * toAfter[0] + toBefore[1] * toAfter[1];
  const turn = Math.PI - Math.acos(Math.max(-1, Math.min(1, cosine)));
  const sense = Math.sign(toBefore[1] * toAfter[0] - toBefore[0] * toAfter[1]);
  const radius = sense < 0 ? inward : outward;
  return {
    p,
    toBefore,
    toAfter,
    tangent: radius * Math.tan(turn / 2),
    bulge: sense * Math.tan(turn / 4),
  };
}

function pointAt(points: readonly Vec[], index: number): Vec {
  const point = points[(index + points.length) % points.length];
  if (point === undefined) throw new Error(`point ${index} of ${points.length}`);
  return point;
}
