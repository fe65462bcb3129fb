import type { Vec } from '../geometry/types.ts';
import type { Job, RouterJob, RouterOperation } from '../machining/types.ts';
import { beamMoves } from './beam.ts';
import { boreMoves } from './bore.ts';
import { drillMoves } from './drill.ts';
import { shortTravel } from './order.ts';
import { outlineMoves } from './outline.ts';
import { slotMoves } from './slot.ts';
import type { Move } from './types.ts';

/** All moves of a job's program, in order. */
export function planMoves(job: Job): Move[] {
  return job.kind === 'laser' ? beamMoves(job) : routerMoves(job);
}

function routerMoves(job: RouterJob): Move[] {
  return [
    { kind: 'rapid', z: job.machine.clearHeight },
    { kind: 'spindle', rpm: job.feeds.rpm, dwell: job.machine.spinUp },
    ...inOrder(job.operations).flatMap((operation): Move[] => [
      { kind: 'comment', text: operation.feature },
      ...operationMoves(operation, job),
    ]),
    { kind: 'spindle off' },
    { kind: 'rapid', x: 0, y: 0 },
  ];
}

function operationMoves(operation: RouterOperation, job: RouterJob): Move[] {
  switch (operation.kind) {
    case 'slot':
      return slotMoves(operation, job);
    case 'bore':
      return boreMoves(operation, job);
    case 'drill':
      return drillMoves(operation, job);
    case 'outline':
      return outlineMoves(operation, job);
  }
}

/** Slots as planned (nut side first); holes by short travel; outlines last. */
function inOrder(operations: readonly RouterOperation[]): RouterOperation[] {
  const round = operations.filter((o) => o.kind === 'bore' || o.kind === 'drill');
  const start: Vec = [0, 0];
  return [
    ...operations.filter((o) => o.kind === 'slot'),
    ...shortTravel(round, (o) => o.at, start),
    ...operations.filter((o) => o.kind === 'outline'),
  ];
}
