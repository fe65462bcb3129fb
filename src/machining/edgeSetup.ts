import { rectangle } from '../geometry/ring.ts';
import type { Vec } from '../geometry/types.ts';
import type { EdgeFace, EdgeHoleFeature, HoleFeature, Part } from '../parts/types.ts';
import type { KeepOut, Router } from '../profile/types.ts';
import type { Finding } from '../report/finding.ts';
import { formatShort } from '../units/format.ts';
import type { Setup } from './types.ts';

/** What a keep-out names for what stands beside the part while it is set up on edge. */
export const onEdge = (part: Part): string => `${part.id}-edge`;

/** A stop that stands off by less than this is said to touch the corner itself. Millimetres. */
const TOUCHES = 0.005;

/**
 * How a part lies while its edge is drilled: its underside always against the jaw on the side of lesser y. A right-handed
 * instrument then has its nut end to the left, a left-handed one to the right, with x negative along the whole edge.
 */
export function makeEdgeSetup(part: Part, machine: Router, keepOuts: readonly KeepOut[]): Setup {
  const { blank } = part;
  const edge = edgeOf(part);
  const { strip, height, depth, reach } = edge;
  const sense = senseOf(edge);
  const [least, most] = strip === null ? reach : [0, reach[1]];
  const x: [number, number] = sense > 0 ? [least, most] : [-most, -least || 0];
  return {
    workZero: strip === null ? boardZero(edge, sense) : stripZero(strip, sense),
    shift: [0, 0],
    lie: { kind: 'edge', toPart: matrixOf(edge, sense, -blank.thickness) },
    stock: {
      region: { outer: rectangle({ x, y: [0, height] }), holes: [] },
      bottom: -(strip ?? depth),
      top: { kind: 'plane', z: 0 },
    },
    keepOuts: keepOuts.filter(
      (k) => k.part === onEdge(part) && (k.machine === null || k.machine === machine.id),
    ),
  };
}

/** Holes in an edge as holes from above, in the program frame of that edge. */
export function holesInEdge(part: Part, holes: readonly EdgeHoleFeature[]): HoleFeature[] {
  const sense = senseOf(edgeOf(part));
  return holes.map(({ id, work, onEdge: place, diameter, depth, through }) => {
    const at: Vec = [sense * place.along, place.up];
    return { id, work, kind: 'hole', at, diameter, depth, through };
  });
}

function edgeOf({ id, edge }: Part): EdgeFace {
  if (edge === undefined) throw new Error(`${id} has holes in an edge that it does not have`);
  return edge;
}

/** 1 where x of the program runs from the nut end to the body end, -1 where it runs back. */
function senseOf({ along, outward }: EdgeFace): 1 | -1 {
  // With z out of the edge and y from the underside to the face, x has to make a right-handed frame.
  return along[0] * outward[1] - along[1] * outward[0] < 0 ? 1 : -1;
}

/** Takes a point of the program to the part's frame: x along the edge, y up from the underside, z out of the edge. */
function matrixOf({ from, along, outward }: EdgeFace, sense: number, underside: number): Lie['toPart'] {
  return [
    [sense * along[0], 0, outward[0], from[0]],
    [sense * along[1], 0, outward[1], from[1]],
    [0, 1, 0, underside],
  ];
}

type Lie = NonNullable<Setup['lie']>;

function boardZero({ reach, bound }: EdgeFace, sense: number): string {
  const hand = sense > 0 ? 'left' : 'right';
  const past = -reach[0];
  const stop =
    past < TOUCHES
      ? 'a stop touches it there'
      : `a stop touches its lower corner ${formatShort(past, 2)} mm farther ${hand}`;
  const which = bound ? 'the board bound and standing' : 'the board standing';
  const signs = sense > 0 ? '' : ', and every X is negative';
  return `${which} on edge, its bass edge up and level, its underside against the jaw on the side of lesser Y, its nut end to the ${hand}: X0 on the corner of the nut end at the edge that is up, where ${stop}${signs}, Y0 on the face of that jaw, Z0 on the edge that is up`;
}

function stripZero(strip: number, sense: number): string {
  const hand = sense > 0 ? 'left' : 'right';
  const signs = sense > 0 ? '' : ', and every X is negative';
  return `the binding strip of the bass side alone, ${formatShort(strip, 2)} mm thick, flat on a waste board with its outer face up, the edge that will lie at the underside against the fence on the side of lesser Y, its nut end to the ${hand}: X0 on its nut end at the face that is up${signs}, Y0 on the fence, Z0 on the face that is up`;
}

/** What is said where a board on edge does not go under the spindle. */
export function edgeTooHigh(part: Part, setup: Setup, router: Router): Finding {
  const xs = setup.stock.region.outer.map((v) => v.x);
  const mm = (length: number): string => `${formatShort(length, 1)} mm`;
  const height = -setup.stock.bottom;
  return {
    code: 'edge-set-up-too-large',
    severity: 'error',
    where: { source: 'shop', path: 'work.sideMarkers' },
    text: `The ${part.title.toLowerCase()} on edge, ${mm(Math.max(...xs) - Math.min(...xs))} long and ${mm(height)} high, does not go under the spindle of ${router.name}.`,
    allowed: `${mm(router.travel.x)} of length with room around it; ${mm(router.travel.z)} for the height, the clear height of ${mm(router.clearHeight)} and the ${mm(router.intoSpoilboard)} into the board below`,
    remedy:
      'drill the side markers by hand (work: sideMarkers: hand in the shop file), with a template if it helps (jigs: sideMarkerTemplate)',
  };
}
