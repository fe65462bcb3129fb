import type {
  FinishBackOperation,
  FinishSurfaceOperation,
  PlaneSurfaceOperation,
  RoughSurfaceOperation,
  RouterJob,
  ScribeOperation,
} from '../../machining/types.ts';
import { formatMm, formatShort } from '../../units/format.ts';

type ShaftBack = FinishBackOperation['back'];
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
    case 'rough back':
      return [
        [
          'Leaves for the last passes',
          `wood of at most ${formatMm(first.left, 2)} mm, upright, above what is ${formatMm(first.back.grown, 2)} mm thicker and wider than the back`,
        ],
        underRow(first.back),
      ];
    case 'finish back':
      return [ridgesRow(first), underRow(first.back), rampRow(first.back)];
    case 'scribe':
      return [lineRow(first)];
    default:
      return [];
  }
}

function underRow({ base, least }: ShaftBack): Row {
  return [
    'Left under the neck',
    `${formatMm(least - base, 2)} mm beside it, all round: it holds what is cut, and is sawn off by hand. Nearer to it than the ball can go, the sides stay a little full`,
  ];
}

function rampRow({ ramps: { rise } }: ShaftBack): Row {
  return [
    'Ends',
    `both ends of the back are ramps of ${formatShort((Math.atan(rise) * 180) / Math.PI, 0)} degrees: head’s foot and heel are carved into them by hand`,
  ];
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

function ridgesRow({ cusp }: Pick<FinishSurfaceOperation, 'cusp'>): Row {
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
