import type { Direction, Stretch } from './types.ts';

/** Directions that differ by less than this are one direction. */
const SAME_DIRECTION = 1e-9;

/**
 * Fastest speed at which one stretch may go over into the next, mm/s. Turning by an angle t at speed v changes the velocity
 * by 2 v sin(t/2), and that step is at most `step` mm/s. A corner between short stretches stands for a curve: it is taken no
 * faster than the circle that touches both in their middles, of radius (shorter length) / (2 tan(t/2)), so that a curve made
 * of chords takes as long as its arc, and a reversal is a full stop.
 */
export function junctionSpeed(before: Stretch, after: Stretch, step: number): number {
  const sine = norm(difference(after.from, before.to)) / 2;
  const both = Math.min(before.speed, after.speed);
  if (sine < SAME_DIRECTION) return both;
  const cosine = norm(sum(after.from, before.to)) / 2;
  const radius = (Math.min(before.length, after.length) * cosine) / (2 * sine);
  const acceleration = Math.min(before.acceleration, after.acceleration);
  return Math.min(both, step / (2 * sine), Math.sqrt(acceleration * radius));
}

/** Whether two straight stretches are one: the same way, as fast. */
export function isContinuation(before: Stretch, after: Stretch): boolean {
  return (
    before.straight &&
    after.straight &&
    before.kind === after.kind &&
    Math.abs(before.wanted - after.wanted) <= 1e-9 * before.wanted &&
    norm(difference(after.from, before.to)) < SAME_DIRECTION
  );
}

function difference(a: Direction, b: Direction): Direction {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

function sum(a: Direction, b: Direction): Direction {
  return [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
}

function norm(a: Direction): number {
  return Math.hypot(a[0], a[1], a[2]);
}
