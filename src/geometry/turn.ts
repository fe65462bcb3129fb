import type { Ring } from './types.ts';

/** The ring turned a quarter counter-clockwise about the origin. */
export function turnQuarter(ring: Ring): Ring {
  return ring.map(({ x, y, bulge }) => ({ x: -y || 0, y: x, bulge }));
}
