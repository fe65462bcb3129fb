import { coneHeight, coneRadius } from '../geometry/coneSurface.ts';
import { rectangle } from '../geometry/ring.ts';
import type { Box } from '../geometry/types.ts';
import type {
  FinishSurfaceOperation,
  RoughSurfaceOperation,
  RouterJob,
  ScribeOperation,
} from '../machining/types.ts';
import type { Cone, IntentCut, IntentRing, Tolerance } from './types.ts';

type SurfaceOperation = RoughSurfaceOperation | FinishSurfaceOperation;

const WALLS = { position: 0.002, wallOver: 0.01, wallUnder: 0.01 };

/** What the flat cutter leaves is no part of the board yet: it may err by more than a finished surface. */
const ROUGH_DEEP = 0.02;

/** A tenth of what a bench works to in the board's thickness; the ridges are stated apart. */
const FINISH_DEEP = 0.01;

/** A line's depth may err by what changes its width by a tenth of the usual width, at the usual angle. */
const LINE_DEPTH = 0.015;

/** Of a surface: the box down to the floor, the waste past its ends and the air beside the blank besides. */
export function surfaceCut(
  operation: SurfaceOperation,
  job: RouterJob,
): Pick<IntentCut, 'kind' | 'region' | 'floor' | 'mayCut' | 'tolerance'> {
  const { box, runOut } = operation;
  const aside = beside(operation, job);
  return {
    kind: 'surface',
    region: [pointsOf(box)],
    floor: floorOf(operation),
    mayCut: {
      region: [
        pointsOf({
          x: [box.x[0] - runOut, box.x[1] + runOut],
          y: [box.y[0] - aside, box.y[1] + aside],
        }),
      ],
      why: 'passes end in the waste past the board and come in from beside the blank',
    },
    tolerance: toleranceOf(operation),
  };
}

function toleranceOf(operation: SurfaceOperation): Tolerance {
  return operation.kind === 'rough surface'
    ? { ...WALLS, floorDeep: ROUGH_DEEP, floorShallow: operation.left, cusp: null }
    : { ...WALLS, floorDeep: FINISH_DEEP, floorShallow: operation.cusp, cusp: operation.cusp };
}

function floorOf(operation: SurfaceOperation): Cone {
  const { floor } = operation;
  if (operation.kind === 'finish surface') return floor;
  return { ...floor, below: floor.below - operation.allowance };
}

/** How far past the blank's edges the tool has a reason to be: it comes from the air, and a cone's rulings spread. */
function beside({ box, floor }: SurfaceOperation, job: RouterJob): number {
  const edge = Math.max(...box.y.map(Math.abs));
  return edge * spread(floor, box) - edge + 2 * job.tool.diameter + 2;
}

/** How much wider a ruling of the cone lies at its wide end. */
function spread(floor: Cone, { x }: Box): number {
  const radii = x.map((at) => coneRadius(floor, at));
  return Math.max(...radii) / Math.min(...radii);
}

/** Lowest point the tool has a reason for: a ball beside the edge stands lower than what it touches. */
export function lowestOnSurface(operation: SurfaceOperation, job: RouterJob): number {
  const { box } = operation;
  const edge = Math.max(...box.y.map(Math.abs));
  const floor = floorOf(operation);
  if (operation.kind === 'rough surface') return lowestAt(floor, box, edge) - ROUGH_DEEP;
  // No pass of a flat cutter is lower than the surface under its inner edge.
  if (job.tool.kind === 'flat') return lowestAt(floor, box, edge) - FINISH_DEEP;
  const angle = Math.asin(edge / Math.min(...box.x.map((x) => coneRadius(floor, x))));
  const contact = lowestAt(floor, box, edge * spread(floor, box));
  return contact - (job.tool.diameter / 2) * (1 - Math.cos(angle)) - FINISH_DEEP;
}

function lowestAt(floor: Cone, { x }: Box, y: number): number {
  return Math.min(...x.map((at) => coneHeight(floor, at, y)));
}

/** Of a line: as deep as makes it as wide as it is meant to be. */
export function scribedCut(line: ScribeOperation): Pick<IntentCut, 'kind' | 'line' | 'floor' | 'tolerance'> {
  return {
    kind: 'line',
    line: line.points,
    floor: { kind: 'plane', z: -line.depth },
    tolerance: { ...WALLS, floorDeep: LINE_DEPTH, floorShallow: LINE_DEPTH, cusp: null },
  };
}

/** Deepest point of a scribed line. */
export function lowestOnLine(line: ScribeOperation): number {
  return -line.depth - LINE_DEPTH;
}

function pointsOf(box: Box): IntentRing {
  return rectangle(box).map((v) => [v.x, v.y] as const);
}
