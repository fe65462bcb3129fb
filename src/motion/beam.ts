import { offsetRing } from '../geometry/kernel/offset.ts';
import { segments } from '../geometry/ring.ts';
import { chordCount, pointOn, segmentLength } from '../geometry/segment.ts';
import type { Segment, Vec } from '../geometry/types.ts';
import { distance } from '../geometry/vec.ts';
import type { BeamCutOperation, BeamJob, BeamLineOperation, BeamOperation } from '../machining/types.ts';
import { CHORD_SAGITTA } from './heights.ts';
import { shortTravel } from './order.ts';
import { splitSegment } from './split.ts';
import type { Move } from './types.ts';

/** Moves of a laser program: lines, then openings, then outlines; the beam is on along each path and nowhere else. */
export function beamMoves(job: BeamJob): Move[] {
  const moves: Move[] = [{ kind: 'beam off' }];
  let here: Vec = [0, 0];
  for (const group of groups(job.operations)) {
    for (const operation of shortTravel(group, startOf, here)) {
      const run = operation.kind === 'beam line' ? lineMoves(operation, here, job) : cutMoves(operation, job);
      moves.push(...run.moves);
      here = run.end;
    }
  }
  return [...moves, { kind: 'rapid', x: 0, y: 0 }];
}

function groups(operations: readonly BeamOperation[]): BeamOperation[][] {
  return [
    operations.filter((o) => o.kind === 'beam line'),
    operations.filter((o) => o.kind === 'beam cut' && o.keep === 'outside'),
    operations.filter((o) => o.kind === 'beam cut' && o.keep === 'inside'),
  ];
}

function startOf(operation: BeamOperation): Vec {
  const first = operation.kind === 'beam line' ? operation.points[0] : corner(operation);
  if (first === undefined) throw new Error(`${operation.id} has no points`);
  return first;
}

function corner(operation: BeamCutOperation): Vec | undefined {
  const [vertex] = operation.ring;
  return vertex === undefined ? undefined : [vertex.x, vertex.y];
}

interface Run {
  readonly moves: Move[];
  readonly end: Vec;
}

/** A line is drawn from whichever end is nearer. */
function lineMoves(line: BeamLineOperation, here: Vec, job: BeamJob): Run {
  const [first, last] = [line.points[0], line.points.at(-1)];
  if (first === undefined || last === undefined) throw new Error(`${line.id} has no points`);
  const points = distance(here, first) <= distance(here, last) ? line.points : [...line.points].reverse();
  const [start, ...rest] = points;
  if (start === undefined) throw new Error(`${line.id} has no points`);
  const { s, feed } = job.mark;
  const moves: Move[] = [
    { kind: 'rapid', x: start[0], y: start[1] },
    { kind: 'beam', s },
    ...rest.map(([x, y]): Move => ({ kind: 'feed', x, y, feed })),
    { kind: 'beam off' },
  ];
  return { moves, end: rest.at(-1) ?? start };
}

/** The path lies half a kerf on the side that is not kept, and starts in the middle of its longest side. */
function cutMoves(cut: BeamCutOperation, job: BeamJob): Run {
  const [ring] = offsetRing(cut.ring, cut.keep === 'inside' ? job.kerf / 2 : -job.kerf / 2);
  if (ring === undefined) throw new Error(`${cut.id}: nothing is left inside a kerf of ${job.kerf} mm`);
  const sides = fromMiddleOfLongest(segments(ring));
  const start = sides[0]?.from;
  if (start === undefined) throw new Error(`${cut.id} has no sides`);
  const once = sides.flatMap((side) => burn(side, job));
  const passes = Array.from({ length: job.cut.passes }, () => once).flat();
  const moves: Move[] = [
    { kind: 'rapid', x: start[0], y: start[1] },
    { kind: 'beam', s: job.cut.s },
    ...passes,
    { kind: 'beam off' },
  ];
  return { moves, end: start };
}

function fromMiddleOfLongest(sides: readonly Segment[]): Segment[] {
  const lengths = sides.map(segmentLength);
  const longest = lengths.indexOf(Math.max(...lengths));
  const side = sides[longest];
  if (side === undefined) return [];
  const [first, second] = splitSegment(side, [0.5]);
  if (first === undefined || second === undefined) throw new Error('a side did not split');
  return [second.side, ...sides.slice(longest + 1), ...sides.slice(0, longest), first.side];
}

function burn(side: Segment, job: BeamJob): Move[] {
  const { feed } = job.cut;
  if (side.kind === 'line') return [{ kind: 'feed', x: side.to[0], y: side.to[1], feed }];
  if (job.machine.controller.arcPlanes.includes('xy')) {
    const to = { x: side.to[0], y: side.to[1] };
    const centre = { x: side.centre[0], y: side.centre[1] };
    return [{ kind: 'arc', plane: 'xy', clockwise: side.sweep < 0, to, centre, feed }];
  }
  const count = chordCount(side, CHORD_SAGITTA);
  return Array.from({ length: count }, (_, i) => {
    const [x, y] = pointOn(side, (i + 1) / count);
    return { kind: 'feed', x, y, feed };
  });
}
