import type {
  FinishSurfaceOperation,
  PlaneSurfaceOperation,
  RoughSurfaceOperation,
  RouterJob,
  ScribeOperation,
} from '../../machining/types.ts';
import { formatMm } from '../../units/format.ts';

type Row = readonly [what: string, value: string];

/** Rows of a program's table that say what surfacing leaves and how a line is made as wide as it is meant to be. */
export function surfaceRows(job: RouterJob): Row[] {
  const [first] = job.operations;
  switch (first?.kind) {
    case 'rough surface':
      return [landRow(first, job), leavesRow(first)];
    case 'finish surface':
      return [landRow(first, job), ridgesRow(first)];
    case 'plane surface':
      return [landRow(first, job), planedRow(first)];
    case 'scribe':
      return [lineRow(first)];
    default:
      return [];
  }
}

function landRow({ box, runOut }: Pick<RoughSurfaceOperation, 'box' | 'runOut'>, job: RouterJob): Row {
  const xs = job.setup.stock.region.outer.map((v) => v.x);
  const land = Math.min(box.x[0] - runOut - Math.min(...xs), Math.max(...xs) - box.x[1] - runOut);
  return [
    'Left flat',
    `${formatMm(land, 1)} mm at each end of the blank: clamps go there and nowhere else, and z zero is touched off there once the middle is gone`,
  ];
}

function leavesRow({ allowance, left }: RoughSurfaceOperation): Row {
  return [
    'Leaves for the last passes',
    `${formatMm(allowance, 2)} mm on the finished surface, and steps of at most ${formatMm(left, 2)} mm above that`,
  ];
}

function planedRow({ z }: PlaneSurfaceOperation): Row {
  return [
    'Planes off',
    `${formatMm(-z, 2)} mm all over; every later program still measures z from the land at the ends, which is the blank’s own top`,
  ];
}

function ridgesRow({ cusp }: FinishSurfaceOperation): Row {
  return [
    'Ridges',
    `at most ${formatMm(cusp, 3)} mm high between passes, the same everywhere; a sanding block takes them off`,
  ];
}

function lineRow({ width, depth }: ScribeOperation): Row {
  return [
    'Lines',
    `${formatMm(width, 2)} mm wide where the cutter is ${formatMm(depth, 3)} mm deep; a worn or blunt tip makes them wider: try one in scrap`,
  ];
}
