import type { OutlineOperation, RouterJob, WallFinish } from '../../machining/types.ts';
import { formatMm, formatShort } from '../../units/format.ts';
import { plain } from './markdown.ts';
import { speedWords } from './speedWords.ts';

type Row = readonly [what: string, value: string];

/** Which way walls are cut and why, how outlines are finished, and the feed of last passes; none where there are no walls. */
export function wallRows(job: RouterJob): Row[] {
  const outlines = job.operations.filter((o) => o.kind === 'outline');
  return [
    ...directionRow(job),
    ...(outlines.length === 0 ? [] : [outlineRow(outlines, job)]),
    ...(job.feeds.wall === null ? [] : [feedRow(job.feeds.wall)]),
  ];
}

const WHY = {
  climb:
    'climbing: the edges enter thick and leave thin, which leaves the cleaner wall; for machines without play',
  conventional:
    'the conventional way, as the shop file says: the edges enter thin and push back, so that a machine with play is not pulled into the wood; walls are a little rougher',
} as const;

/** `bores climbing ...; outlines the conventional way ...`. */
function directionRow({ operations }: RouterJob): Row[] {
  const kinds = [
    ['bores', operations.filter((o) => o.kind === 'bore')],
    ['pockets', operations.filter((o) => o.kind === 'pocket')],
    ['outlines', operations.filter((o) => o.kind === 'outline')],
  ] as const;
  const present = kinds.flatMap(([name, [first]]) =>
    first === undefined ? [] : [{ name, way: first.direction }],
  );
  const ways = (['climb', 'conventional'] as const).flatMap((way) => {
    const names = present.filter((p) => p.way === way).map((p) => p.name);
    return names.length === 0 ? [] : [`${names.join(' and ')} ${WHY[way]}`];
  });
  return ways.length === 0 ? [] : [['Milling direction', ways.join('; ')]];
}

function outlineRow(outlines: readonly OutlineOperation[], { tool }: RouterJob): Row {
  const finishes = outlines.flatMap((o) => (o.finish === null ? [] : [o.finish]));
  const [first] = finishes;
  if (first === undefined)
    return ['Outline', 'every pass goes along the outline itself; no finishing pass, and no arcs on to it'];
  const depth = `at most ${formatMm(first.stepDown, 2)} mm deep at once`;
  const pass = `the last ${formatMm(first.allowance, 2)} mm in a pass of its own, ${depth}`;
  const without = outlines.length - finishes.length;
  const rest = without === 0 ? '' : `; ${without} of ${outlines.length} without it: a bay is too narrow`;
  return ['Outline', `${pass}, ${leadWords(finishes, tool.diameter / 2)}${rest}`];
}

function leadWords(finishes: readonly NonNullable<OutlineOperation['finish']>[], cutter: number): string {
  const radii = finishes.flatMap(({ lead }) => (lead === null ? [] : [lead.radius]));
  if (radii.length === 0) return 'which comes straight on to it: no side has room for arcs';
  const [least, most] = [Math.min(...radii), Math.max(...radii)];
  const size =
    most - least < 0.005 ? formatShort(most, 2) : `${formatShort(least, 2)} to ${formatShort(most, 2)}`;
  const short = least < cutter - 0.005 ? ' (shortened: no more room)' : '';
  const without = finishes.length - radii.length;
  const rest = without === 0 ? '' : `; ${without} without, for want of room`;
  return `on to it and off it in arcs of ${size} mm${short} on the side of the waste${rest}`;
}

function feedRow(wall: WallFinish): Row {
  return [
    'Feed of the finishing pass',
    `${speedWords(wall.feed)} for the last ${formatMm(wall.width, 2)} mm: so narrow a strip makes chips ${formatShort(wall.thinning, 2)} times thinner where it is widest; ${plain(wall.boundBy)}`,
  ];
}
