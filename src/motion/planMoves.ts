import type { Vec } from '../geometry/types.ts';
import type { Job, RouterJob, RouterOperation } from '../machining/types.ts';
import { beamMoves } from './beam.ts';
import { boreMoves } from './bore.ts';
import { channelMoves } from './channel.ts';
import { drillMoves } from './drill.ts';
import { innerFirst } from './nesting.ts';
import { type Stop, shortTravel, shortWays, type Way } from './order.ts';
import { outlineMoves } from './outline.ts';
import { planeMoves } from './plane.ts';
import { pocketMoves } from './pocket/pocket.ts';
import { scribeMoves } from './scribe.ts';
import { slotMoves } from './slot.ts';
import { finishSurfaceMoves, roughSurfaceMoves } from './surface.ts';
import { lowTravel } from './travel.ts';
import type { Move } from './types.ts';
import { walkMoves } from './walk.ts';

/** Over the work zero: where a program ends. */
const HOME: Vec = [0, 0];

/** All moves of a job's program, in order. */
export function planMoves(job: Job): Move[] {
  return job.kind === 'laser' ? beamMoves(job) : routerMoves(job);
}

function routerMoves(job: RouterJob): Move[] {
  if (job.operations.length === 0) return walkMoves(job);
  const moves: Move[] = [
    { kind: 'rapid', z: job.machine.clearHeight },
    { kind: 'spindle', rpm: job.feeds.rpm, dwell: job.machine.spinUp },
    ...inOrder(job).flat(),
    { kind: 'spindle off' },
    { kind: 'rapid', x: HOME[0], y: HOME[1] },
  ];
  return lowTravel(moves, job);
}

/**
 * Moves of each operation: slots as planned (nut side first), each begun at the end that saves travel; then
 * holes and pockets; outlines last, those inside others before them.
 */
function inOrder(job: RouterJob): (readonly Move[])[] {
  const { operations } = job;
  const stopsOf = (list: readonly RouterOperation[]): Stop<Runs>[] => list.map((o) => stopOf(o, job));
  const slots = shortWays(stopsOf(operations.filter((o) => o.kind === 'slot')), HOME);
  const outlines = innerFirst(
    operations.filter((o) => o.kind === 'outline'),
    (outline) => outline.ring,
  );
  const others = operations.filter((o) => o.kind !== 'slot' && o.kind !== 'outline');
  const rest = shortTravel([others, ...outlines].map(stopsOf), slots.end, HOME);
  return [...slots.visits, ...rest].map(({ thing, way }) => thing[way] ?? []);
}

/** The moves of an operation, one list for each way of running it. */
type Runs = readonly (readonly Move[])[];

function stopOf(operation: RouterOperation, job: RouterJob): Stop<Runs> {
  const title: Move = { kind: 'comment', text: operation.feature };
  const runs = runsOf(operation, job).map((moves) => [title, ...moves]);
  return { thing: runs, ways: runs.map(wayOf) };
}

function runsOf(operation: RouterOperation, job: RouterJob): Move[][] {
  switch (operation.kind) {
    case 'slot':
      return [slotMoves(operation, job), slotMoves(operation, job, true)];
    case 'bore':
      return [boreMoves(operation, job)];
    case 'drill':
      return [drillMoves(operation, job)];
    case 'pocket':
      return [pocketMoves(operation, job)];
    case 'outline':
      return [outlineMoves(operation, job)];
    case 'channel':
      return [channelMoves(operation, job)];
    case 'rough surface':
      return [roughSurfaceMoves(operation, job)];
    case 'finish surface':
      return [finishSurfaceMoves(operation, job)];
    case 'plane surface':
      return [planeMoves(operation, job)];
    case 'scribe':
      return [scribeMoves(operation, job), scribeMoves(operation, job, true)];
  }
}

/** Where the tool comes down first, and where it is at the end. */
function wayOf(moves: readonly Move[]): Way {
  const places = moves.flatMap((move): Vec[] => {
    if (move.kind === 'arc') return [[move.to.x, move.to.y]];
    if (!('x' in move) || move.x === undefined || move.y === undefined) return [];
    return [[move.x, move.y]];
  });
  const [from, to] = [places[0], places.at(-1)];
  if (from === undefined || to === undefined) throw new Error('an operation that goes nowhere');
  return { from, to };
}
