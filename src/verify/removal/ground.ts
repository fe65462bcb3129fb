/** Ground of the stock that earlier programs have cleared: over a region nothing stands higher than a height. */
import type { ClearedGround } from '../../intent/types.ts';
import { isInside, type Region, regionOf } from './rings.ts';

export interface Ground {
  readonly region: Region;
  readonly z: number;
}

/** Cleared ground of an intent file, made measurable. */
export function groundOf({ region, z }: ClearedGround): Ground {
  return { region: regionOf(region), z };
}

/** Greatest height that anything has at a point where the stock's top is `top`, once the ground is cleared. */
export function standsAt(ground: readonly Ground[], x: number, y: number, top: number): number {
  let height = top;
  for (const { region, z } of ground) if (z < height && isInside(region, x, y)) height = z;
  return height;
}
