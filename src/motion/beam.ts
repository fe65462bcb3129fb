import { offsetOutline } from '../geometry/kernel/outline.ts';
import { segments } from '../geometry/ring.ts';
import { chordCount, pointOn } from '../geometry/segment.ts';
import type { Segment, Vec } from '../geometry/types.ts';
import type { BeamCutOperation, BeamJob, BeamLineOperation, BeamOperation } from '../machining/types.ts';
import { CHORD_SAGITTA } from './heights.ts';
import { innerFirst } from './nesting.ts';
import { type Stop, shortTravel } from './order.ts';
import { firstStretch, fromNearest } from './round.ts';
import type { Move } from './types.ts';

/** Moves of a laser program: lines, then openings, then outlines; the beam is on along each path and nowhere else. */
export function beamMoves(job: BeamJob): Move[] {
  const visits = shortTravel(
    groups(job.operations).map((group) => group.map((operation) => stopOf(operation, job))),
    [0, 0],
    [0, 0],
  );
  return [
    { kind: 'beam off' },
    ...visits.flatMap(({ thing, way }) =>
      thing.kind === 'line' ? lineMoves(thing.line, way === 1, job) : cutMoves(thing.cut, thing.sides, job),
    ),
    { kind: 'rapid', x: 0, y: 0 },
  ];
}

/** Lines while the sheet is whole; then what lies within most outlines first, openings before parts. */
function groups(operations: readonly BeamOperation[]): BeamOperation[][] {
  const cuts = operations.filter((o) => o.kind === 'beam cut');
  return [
    operations.filter((o) => o.kind === 'beam line'),
    ...innerFirst(cuts, (cut) => cut.ring).flatMap((level) => [
      level.filter((o) => o.keep === 'outside'),
      level.filter((o) => o.keep === 'inside'),
    ]),
  ];
}

type Task =
  | { readonly kind: 'line'; readonly line: BeamLineOperation }
  | { readonly kind: 'cut'; readonly cut: BeamCutOperation; readonly sides: readonly Segment[] };

/** A line may be drawn from either end; an outline ends where it starts. */
function stopOf(operation: BeamOperation, job: BeamJob): Stop<Task> {
  if (operation.kind === 'beam line') {
    const [first, last] = [operation.points[0], operation.points.at(-1)];
    if (first === undefined || last === undefined) throw new Error(`${operation.id} has no points`);
    const ways = [
      { from: first, to: last },
      { from: last, to: first },
    ];
    return { thing: { kind: 'line', line: operation }, ways };
  }
  const sides = sidesOf(operation, job);
  const start = operation.leadIn?.from ?? startOf(sides);
  return { thing: { kind: 'cut', cut: operation, sides }, ways: [{ from: start, to: start }] };
}

function startOf(sides: readonly Segment[]): Vec {
  const [side] = sides;
  if (side === undefined) throw new Error('an outline without sides');
  return side.from;
}

function lineMoves(line: BeamLineOperation, backward: boolean, job: BeamJob): Move[] {
  const [start, ...rest] = backward ? [...line.points].reverse() : line.points;
  if (start === undefined) throw new Error(`${line.id} has no points`);
  const { s, feed } = job.mark;
  return [
    { kind: 'rapid', x: start[0], y: start[1] },
    { kind: 'beam', s, pierce: 0 },
    ...rest.map(([x, y]): Move => ({ kind: 'feed', x, y, feed })),
    { kind: 'beam off' },
  ];
}

/** The path lies half a kerf on the side that is not kept, and starts beside the operation's start. */
function sidesOf(cut: BeamCutOperation, job: BeamJob): Segment[] {
  const [ring] = offsetOutline(cut.ring, cut.keep === 'inside' ? job.kerf / 2 : -job.kerf / 2);
  if (ring === undefined) throw new Error(`${cut.id}: nothing is left inside a kerf of ${job.kerf} mm`);
  return fromNearest(segments(ring), cut.start);
}

/** In from the waste, all rounds without a stop, and on past the start so that no tag is left. */
function cutMoves(cut: BeamCutOperation, sides: readonly Segment[], job: BeamJob): Move[] {
  const start = startOf(sides);
  const { s, pierce, passes, overCut, feed } = job.cut;
  const [x, y] = cut.leadIn?.from ?? start;
  const rounds = Array.from({ length: passes }, () => sides).flat();
  return [
    { kind: 'rapid', x, y },
    { kind: 'beam', s, pierce },
    ...(cut.leadIn === null ? [] : [{ kind: 'feed' as const, x: start[0], y: start[1], feed }]),
    ...[...rounds, ...firstStretch(sides, overCut)].flatMap((side) => burn(side, job)),
    { kind: 'beam off' },
  ];
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
