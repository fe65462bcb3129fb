import type { Region, Ring, Vertex } from '../geometry/types.ts';
import type { IntentRegion, IntentRing, IntentVertex } from './types.ts';

/** A region as an intent file holds it. */
export function regionOf(region: Region): IntentRegion {
  return [ringOf(region.outer), ...region.holes.map(ringOf)];
}

/** A ring as an intent file holds it: a third number where its side is an arc. */
export function ringOf(ring: Ring): IntentRing {
  return ring.map(vertexOf);
}

function vertexOf(v: Vertex): IntentVertex {
  return v.bulge === 0 ? [v.x, v.y] : [v.x, v.y, v.bulge];
}
