import type { PocketOperation, RouterJob } from '../../machining/types.ts';
import { formatMm, formatShort } from '../../units/format.ts';

type Row = readonly [what: string, value: string];

/** Rows of a program's table that speak of pockets cleared lap by lap; none where there are none. */
export function pocketRows(job: RouterJob): Row[] {
  const pockets = job.operations.filter((o) => o.kind === 'pocket');
  const [first] = pockets;
  if (first === undefined) return [];
  return [
    ['Pockets', lapWords(pockets, job)],
    ['Finishing pass', finishWords(pockets, first)],
    ['Corners', cornerWords(pockets, job)],
  ];
}

function lapWords(pockets: readonly PocketOperation[], { tool }: RouterJob): string {
  const steps = pockets.map((p) => p.stepOver);
  const [least, most] = [Math.min(...steps), Math.max(...steps)];
  const step =
    most - least < 0.005 ? `${formatMm(most, 2)} mm` : `${formatMm(least, 2)} to ${formatMm(most, 2)} mm`;
  const way = pockets[0]?.direction === 'conventional' ? 'the conventional way' : 'climbing';
  return `laps from the middle outward, ${way}, ${step} apart (${formatShort((100 * most) / tool.diameter, 0)} % of the cutter at most); the first lap and narrow places in bites of half a step; long, sharp corners from wall to wall and back`;
}

function finishWords(pockets: readonly PocketOperation[], { allowance }: PocketOperation): string {
  const deep = pockets.every((p) => p.finish === 'at full depth');
  const when = deep
    ? 'once the floor is reached'
    : 'at each level where the corners are too sharp for one pass';
  return `the last ${formatMm(allowance, 2)} mm of the walls, ${when}`;
}

/** A corner cannot be sharper than the cutter is round. */
function cornerWords(pockets: readonly PocketOperation[], { tool }: RouterJob): string {
  const left = pockets.flatMap((p) => (p.left === null ? [] : [p.left]));
  if (left.length === 0) return 'as drawn: none is sharper than the cutter';
  const gap = formatMm(Math.max(...left.map((l) => l.gap)), 2);
  const radius = formatMm(tool.diameter / 2, 2);
  const follows = left.some((l) => l.follows);
  return follows
    ? `left with a radius of ${radius} mm, up to ${gap} mm from the drawn corner; the next program goes on from there`
    : `left with a radius of ${radius} mm, up to ${gap} mm from the drawn corner: round the markers to match, or clean them out with a chisel`;
}
