import type { Vec } from '../geometry/types.ts';
import { backHeight } from './section.ts';
import type { Section } from './types.ts';

/** What a measured back comes to, and how far the farthest point of it lies off. */
export interface FittedSection {
  readonly shoulder: number;
  readonly back: number;
  /** Largest distance of a point from the curve, up or down. */
  readonly worst: number;
}

/** Shares that a section may have: outside these its curve is nearly a corner. */
export const SHARES = [0.05, 0.95] as const;

/**
 * The shoulder and the back whose curve lies nearest to points measured on a neck, by least squares of the heights: a coarse look
 * over all pairs, then ever finer ones about the best. Points are [from the centreline, below the board's underside].
 */
export function fitSection(
  size: Pick<Section, 'halfWidth' | 'depth'>,
  points: readonly Vec[],
): FittedSection {
  if (points.length === 0) throw new Error('no points to fit a section to');
  const squares = (shoulder: number, back: number): number =>
    points.reduce((sum, [y, below]) => {
      const off = backHeight({ ...size, shoulder, back }, y) + below;
      return sum + off * off;
    }, 0);
  let best = { shoulder: 0.5, back: 0.5, sum: squares(0.5, 0.5) };
  for (let reach = (SHARES[1] - SHARES[0]) / 2; reach > 1e-6; reach /= 2) {
    const centre = best;
    for (const shoulder of around(centre.shoulder, reach)) {
      for (const back of around(centre.back, reach)) {
        const sum = squares(shoulder, back);
        if (sum < best.sum) best = { shoulder, back, sum };
      }
    }
  }
  const { shoulder, back } = best;
  const worst = Math.max(
    ...points.map(([y, below]) => Math.abs(backHeight({ ...size, shoulder, back }, y) + below)),
  );
  return { shoulder, back, worst };
}

const STEPS = [-1, -0.75, -0.5, -0.25, 0, 0.25, 0.5, 0.75, 1];

function around(centre: number, reach: number): number[] {
  return STEPS.map((step) => Math.min(SHARES[1], Math.max(SHARES[0], centre + step * reach)));
}
