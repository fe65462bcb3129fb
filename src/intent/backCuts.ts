import { reachOfBall, sectionsOfBack } from '../carving/shaftBack.ts';
import type { ShaftBack } from '../carving/types.ts';
import { rectangle } from '../geometry/ring.ts';
import type { Box, Vec } from '../geometry/types.ts';
import type { FinishBackOperation, RoughBackOperation, RouterJob } from '../machining/types.ts';
import type { IntentCut, IntentRing } from './types.ts';

type BackOperation = RoughBackOperation | FinishBackOperation;

const WALLS = { position: 0.002, wallOver: 0.01, wallUnder: 0.01 };

/** What the flat cutter leaves is not the back yet. Millimetres. */
const ROUGH_DEEP = 0.02;
/** A thirtieth of what a rasp and a gauge can hold; the ridges are stated apart. */
const FINISH_DEEP = 0.01;
/** Between looks at the edge out to which ridges are judged, and how far it lies inside the ball's reach. */
const STRETCH = 2;
const INSIDE = 0.03;
/** Past the foot of a ramp the ball touches the back with its whole end after so much. */
const PAST_FOOT = 1;

type Cut = Pick<IntentCut, 'kind' | 'region' | 'floor' | 'mayCut' | 'tolerance'>;

/** Of the finished back of a neck: what the ball touches of it; besides, it passes over both ramps and beside the blank. */
export function finishedBack(operation: FinishBackOperation, job: RouterJob): Cut {
  return {
    kind: 'surface',
    region: [finishedRing(operation, job)],
    floor: operation.back,
    mayCut: around(operation, job),
    tolerance: {
      ...WALLS,
      floorDeep: FINISH_DEEP,
      floorShallow: operation.cusp,
      cusp: operation.cusp,
    },
  };
}

/**
 * Of the level passes. At both ends the round cutter leaves wood in the corners between ramp and back, no farther from the ramp than
 * its radius.
 */
export function roughBack(operation: RoughBackOperation, job: RouterJob): Cut & Pick<IntentCut, 'mayRemain'> {
  const { box, back, left, corner } = operation;
  const inner = innerX(back, (job.tool.diameter + job.tool.tolerance) / 2);
  const ends: Box[] = [
    { x: [box.x[0], inner[0]], y: box.y },
    { x: [inner[1], box.x[1]], y: box.y },
  ];
  return {
    kind: 'surface',
    region: [pointsOf(box)],
    floor: back,
    mayCut: around(operation, job),
    mayRemain: {
      region: ends.map(pointsOf),
      maxGap: corner,
      why: 'a round cutter does not reach into the corners between the ramps and the back',
    },
    tolerance: { ...WALLS, floorDeep: ROUGH_DEEP, floorShallow: left, cusp: null },
  };
}

function around({ box }: BackOperation, { tool }: RouterJob): IntentCut['mayCut'] {
  const aside = 2 * tool.diameter + 2;
  const region: Box = {
    x: [box.x[0] - tool.diameter, box.x[1] + tool.diameter],
    y: [box.y[0] - aside, box.y[1] + aside],
  };
  return {
    region: [pointsOf(region)],
    why: 'passes come in from beside the blank, and down and up along the ramps at both ends of the back',
  };
}

/** Between the places from which a cutter reaches all there is beside the back. */
function innerX({ ramps: { x: ends, rise }, top, least }: ShaftBack, radius: number): [number, number] {
  const foot = (top - least) / rise + radius + PAST_FOOT;
  return [ends[0] + foot, ends[1] - foot];
}

/** Where the ball touches the back itself: clear of both ramps, and out to where it would have to go below the level that is left. */
function finishedRing({ back }: FinishBackOperation, { tool }: RouterJob): IntentRing {
  const radius = (tool.diameter + tool.tolerance) / 2;
  const [from, to] = innerX(back, radius);
  const sectionAt = sectionsOfBack(back);
  const count = Math.max(1, Math.ceil((to - from) / STRETCH));
  const reach = Array.from({ length: count + 1 }, (_, k) =>
    reachOfBall(back, sectionAt, from + ((to - from) * k) / count, radius),
  );
  // Straight from end to end, as far in as the reach lies inside of that anywhere: the proof looks at convex places best.
  const [first = 0, last = 0] = [reach[0], reach.at(-1)];
  const inward = Math.max(...reach.map((y, k) => first + ((last - first) * k) / count - y)) + INSIDE;
  const edge: Vec[] = [
    [from, first - inward],
    [to, last - inward],
  ];
  return [...edge.map(([x, y]): Vec => [x, -y]), ...edge.toReversed()];
}

/** Lowest point of the tool. */
export function lowestOnBack({ kind, back }: BackOperation): number {
  return back.least - (kind === 'rough back' ? ROUGH_DEEP : FINISH_DEEP);
}

function pointsOf(box: Box): IntentRing {
  return rectangle(box).map((v) => [v.x, v.y] as const);
}
