/**
 * How far a tool goes down without getting rid of its chips: many short plunges one below the other are one long plunge.
 *
 * In: the steep pieces of a path one after another, with what each bites into the wood. Out: the depth of the plunge so far.
 */
import type { Job } from './job.ts';
import { type Piece, planLength } from './piece.ts';
import { heightAt } from './surface.ts';

/** The plunge that is going on: how deep it has bitten, where it began, and the way cut in plan since. Millimetres. */
export interface Descent {
  depth: number;
  x: number;
  y: number;
  along: number;
}

/** No plunge yet. */
export function newDescent(): Descent {
  return { depth: 0, x: 0, y: 0, along: 0 };
}

/** Takes in a piece that cuts straight or steeply down; gives the depth of the whole plunge. */
export function goDown(job: Job, descent: Descent, piece: Piece, bite: number): number {
  leave(job, descent, piece.x0, piece.y0, piece.z0);
  if (descent.depth === 0) begin(descent, piece.x0, piece.y0);
  descent.depth += bite;
  descent.along += planLength(piece);
  return descent.depth;
}

/** Takes in a piece that cuts level, up or gently down: it makes room for the chips once it is longer than the plunge is deep. */
export function goAlong(job: Job, descent: Descent, piece: Piece): void {
  descent.along += planLength(piece);
  if (descent.along > descent.depth) descent.depth = 0;
  leave(job, descent, piece.x1, piece.y1, piece.z1);
}

/**
 * Takes in where a piece that cuts nothing ends. Out of its hole a drill, ball or vee has dropped its chips, and what follows is
 * a new peck; a flat cutter may not plunge at all, so going up and down again does not help it. Whatever the tool, a plunge is
 * over once the tool has gone farther aside than the plunge is deep.
 */
export function leave(job: Job, descent: Descent, x: number, y: number, z: number): void {
  const aside = Math.hypot(x - descent.x, y - descent.y) > descent.depth;
  const out = job.tool.kind !== 'flat' && z >= heightAt(job.intent.stock.top, x, y);
  if (aside || out) descent.depth = 0;
}

function begin(descent: Descent, x: number, y: number): void {
  descent.x = x;
  descent.y = y;
  descent.along = 0;
}
