import { rectangle } from '../geometry/ring.ts';
import type { Ring, Vec } from '../geometry/types.ts';
import type { HoleFeature, Part, PocketFeature, UndersidePocketFeature } from '../parts/types.ts';
import type { KeepOut, Router } from '../profile/types.ts';
import { formatShort } from '../units/format.ts';
import type { Setup } from './types.ts';

/** What a keep-out names for what stands beside the blank while it lies face down. */
export const turnedOver = (part: Part): string => `${part.id}-turned`;

/**
 * How a blank lies once it is turned over about its middle line, its nut end still on the side of lesser x: on two pins, of which the
 * first is the work zero and the second lies along +x.
 */
export function makeTurnedSetup(
  part: Part,
  pins: readonly [HoleFeature, HoleFeature],
  machine: Router,
  keepOuts: readonly KeepOut[],
): Setup {
  const { box, thickness } = part.blank;
  const [zero, far] = pins;
  const apart = far.at[0] - zero.at[0];
  const mm = (length: number): string => `${formatShort(length, 3)} mm`;
  return {
    workZero: `the blank turned over about its length, its top down, its nut end still to the left, on the two pins that stand in the holes of the board below and reach no higher than the blank: X0 and Y0 on the middle of the pin at the nut end, the other pin ${mm(apart)} along +X, Z0 on the underside, which now is up`,
    shift: [0, 0],
    lie: {
      kind: 'turned',
      toPart: [
        [1, 0, 0, zero.at[0]],
        [0, -1, 0, zero.at[1]],
        [0, 0, -1, -thickness],
      ],
      pins: pins.map(({ id, at }) => ({ feature: id, at: turned(at, zero.at) })),
    },
    stock: {
      region: {
        outer: rectangle({
          x: [box.x[0] - zero.at[0], box.x[1] - zero.at[0]],
          y: [zero.at[1] - box.y[1], zero.at[1] - box.y[0]],
        }),
        holes: [],
      },
      bottom: -thickness,
      top: { kind: 'plane', z: 0 },
    },
    keepOuts: keepOuts.filter(
      (k) => k.part === turnedOver(part) && (k.machine === null || k.machine === machine.id),
    ),
  };
}

/** Pockets of the underside as pockets from above, in the program frame of the turned blank. */
export function pocketsTurned(pockets: readonly UndersidePocketFeature[], zero: Vec): PocketFeature[] {
  return pockets.map(({ id, work, region, depth }) => ({
    id,
    work,
    kind: 'pocket',
    region: {
      outer: turnedRing(region.outer, zero),
      holes: region.holes.map((hole) => turnedRing(hole, zero)),
    },
    floor: { kind: 'plane', z: -depth },
  }));
}

const turned = ([x, y]: Vec, [x0, y0]: Vec): Vec => [x - x0, y0 - y || 0];

/** The same points seen from below: run through the other way round, each arc keeps its sense. */
function turnedRing(ring: Ring, zero: Vec): Ring {
  return ring.toReversed().map((vertex, i, list) => {
    // The arc to the next vertex was the one that came from it.
    const next = list[(i + 1) % list.length] ?? vertex;
    const [x, y] = turned([vertex.x, vertex.y], zero);
    return { x, y, bulge: next.bulge };
  });
}
