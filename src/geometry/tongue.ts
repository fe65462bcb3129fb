import { withRoundCorners } from './roundCorners.ts';
import type { Ring, Vec } from './types.ts';

/**
 * A tongue about the line y = 0 that widens or narrows evenly along x and ends at x = `foot`, its two corners there rounded; toward
 * negative x it has no end of its own. Millimetres.
 */
export interface Tongue {
  /** Half its width at x = 0, and how much that grows a millimetre of x. */
  readonly half: number;
  readonly slope: number;
  readonly foot: number;
  readonly corner: number;
}

/** Half the tongue's width at x. */
export const tongueHalf = ({ half, slope }: Tongue, x: number): number => half + slope * x;

/** The tongue with cheeks, foot and round corners all moved outward by `out`; a sharp corner stays sharp when it moves inward. */
export function tongueOut({ half, slope, foot, corner }: Tongue, out: number): Tongue {
  return {
    half: half + out * Math.hypot(1, slope),
    slope,
    foot: foot + out,
    corner: Math.max(0, corner + out),
  };
}

/** The tongue from x = `from` to its foot, counter-clockwise. */
export function tongueRing(tongue: Tongue, from: number): Ring {
  const points: Vec[] = [
    [from, -tongueHalf(tongue, from)],
    [tongue.foot, -tongueHalf(tongue, tongue.foot)],
    [tongue.foot, tongueHalf(tongue, tongue.foot)],
    [from, tongueHalf(tongue, from)],
  ];
  return roundFoot(points, tongue.corner);
}

/** Only the corners at the foot, the second and the third, are rounded. */
function roundFoot(points: readonly Vec[], corner: number): Ring {
  const ends = [points[0], points[3]].flatMap((p) =>
    p === undefined ? [] : [{ x: p[0], y: p[1], bulge: 0 }],
  );
  const [first, last] = ends;
  if (corner === 0 || first === undefined || last === undefined)
    return points.map(([x, y]) => ({ x, y, bulge: 0 }));
  // Rounding starts with the corner's arc before the first point's: four vertices for each pair.
  const round = withRoundCorners(points, corner, corner);
  return [first, ...round.slice(2, 6), last];
}
