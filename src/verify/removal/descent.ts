/**
 * How far a tool goes down without getting rid of its chips: many short plunges one below the other are one long plunge.
 *
 * In: the steep pieces of a path one after another, with what each bites into the wood. Out: the depth of the plunge so far.
 */
import type { Job } from './job.ts';
import type { Piece } from './piece.ts';
import { heightAt } from './surface.ts';

/** The plunge that is going on: how deep it has bitten, and where it began. Millimetres. */
export interface Descent {
  depth: number;
  x: number;
  y: number;
}

/** No plunge yet. */
export function newDescent(): Descent {
  return { depth: 0, x: 0, y: 0 };
}

/** Takes in a piece that cuts straight or steeply down; gives the depth of the whole plunge. */
export function goDown(job: Job, descent: Descent, piece: Piece, bite: number): number {
  leave(job, descent, piece.x0, piece.y0, piece.z0);
  if (descent.depth === 0) {
    descent.x = piece.x0;
    descent.y = piece.y0;
  }
  descent.depth += bite;
  return descent.depth;
}

/**
 * Takes in where another piece ends. Out of its hole a drill, ball or vee has dropped its chips, and what follows is a new peck;
 * a flat cutter may not plunge at all, so going up and down again does not help it. Whatever the tool, a plunge is over once
 * the tool has gone farther aside than the plunge is deep.
 */
export function leave(job: Job, descent: Descent, x: number, y: number, z: number): void {
  const aside = Math.hypot(x - descent.x, y - descent.y) > descent.depth;
  const out = job.tool.kind !== 'flat' && z >= heightAt(job.intent.stock.top, x, y);
  if (aside || out) descent.depth = 0;
}
