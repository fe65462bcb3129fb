import type { Motion } from '../verify/gcode/types.ts';
import type { Direction, MachineMotion, Stretch } from './types.ts';

/** A machine's limits in mm/s and mm/s^2, sideways and up and down. */
interface Limits {
  readonly speed: { readonly xy: number; readonly z: number };
  readonly acceleration: { readonly xy: number; readonly z: number };
}

/** Largest shares of a path's direction that lie sideways and upright. */
interface Shares {
  readonly sideways: number;
  readonly upright: number;
}

/** The stretch of a straight motion, feed or rapid; the motion must move. */
export function straightStretch(motion: Motion, machine: MachineMotion): Stretch {
  const [x, y, z] = [motion.toX - motion.fromX, motion.toY - motion.fromY, motion.toZ - motion.fromZ];
  const length = Math.hypot(x, y, z);
  const direction: Direction = [x / length, y / length, z / length];
  const shares = { sideways: Math.hypot(direction[0], direction[1]), upright: Math.abs(direction[2]) };
  const isRapid = motion.kind === 'rapid';
  const limits = limitsOf(machine, isRapid);
  const fastest = along(limits.speed, shares);
  const wanted = isRapid ? fastest : motion.feed / 60;
  return {
    kind: isRapid ? 'travel' : 'cutting',
    length,
    wanted,
    speed: Math.min(wanted, fastest),
    acceleration: along(limits.acceleration, shares),
    from: direction,
    to: direction,
    straight: true,
  };
}

/**
 * The stretch of an arc or helix. On a circle of radius r a speed v needs the acceleration v^2 / r toward the centre
 * (uniform circular motion), so v is at most sqrt(a r); what speeding up along the path needs at the same time is left out.
 */
export function arcStretch(motion: Motion, machine: MachineMotion): Stretch {
  const { a, b, axial } = planeOf(motion);
  const inPlane = motion.radius * Math.abs(motion.sweep);
  const length = Math.hypot(inPlane, axial);
  const [flat, rise] = [inPlane / length, axial / length];
  const start = Math.atan2(b, a);
  const shares = arcShares(motion, start, flat, Math.abs(rise));
  const limits = limitsOf(machine, false);
  const inward = along(limits.acceleration, arcShares(motion, start + Math.PI / 2, 1, 0));
  const wanted = motion.feed / 60;
  return {
    kind: 'cutting',
    length,
    wanted,
    speed: Math.min(wanted, along(limits.speed, shares), Math.sqrt(inward * motion.radius) / flat),
    acceleration: along(limits.acceleration, shares),
    from: tangent(motion, start, flat, rise),
    to: tangent(motion, start + motion.sweep, flat, rise),
    straight: false,
  };
}

function limitsOf(machine: MachineMotion, isRapid: boolean): Limits {
  const { xy, z } = isRapid ? machine.rapid : machine.maxFeed;
  return { speed: { xy: xy / 60, z: z / 60 }, acceleration: machine.acceleration };
}

/** What a limit sideways and one upright leave along a direction. */
function along(limit: { readonly xy: number; readonly z: number }, { sideways, upright }: Shares): number {
  return Math.min(limit.xy / sideways, limit.z / upright);
}

/** Start of the arc seen from its centre, in the plane's two axes as G3 turns them (x y, z x, y z), and the way across. */
function planeOf(m: Motion): { a: number; b: number; axial: number } {
  switch (m.plane) {
    case 'xy':
      return { a: m.fromX - m.centreX, b: m.fromY - m.centreY, axial: m.toZ - m.fromZ };
    case 'xz':
      return { a: m.fromZ - m.centreZ, b: m.fromX - m.centreX, axial: m.toY - m.fromY };
    case 'yz':
      return { a: m.fromY - m.centreY, b: m.fromZ - m.centreZ, axial: m.toX - m.fromX };
  }
}

/** Direction of the path where the radius stands at `angle`. */
function tangent(motion: Motion, angle: number, flat: number, rise: number): Direction {
  const turn = Math.sign(motion.sweep) * flat;
  const [a, b] = [-Math.sin(angle) * turn, Math.cos(angle) * turn];
  switch (motion.plane) {
    case 'xy':
      return [a, b, rise];
    case 'xz':
      return [b, rise, a];
    case 'yz':
      return [rise, a, b];
  }
}

/** Largest shares of the tangent that lie sideways and upright anywhere along the arc that starts at `start`. */
function arcShares(motion: Motion, start: number, flat: number, rise: number): Shares {
  if (motion.plane === 'xy') return { sideways: flat, upright: rise };
  const end = start + motion.sweep;
  const alongA = largestSine(start, end);
  const alongB = largestSine(start + Math.PI / 2, end + Math.PI / 2);
  const [level, upright] = motion.plane === 'xz' ? [alongB, alongA] : [alongA, alongB];
  return { sideways: Math.hypot(flat * level, rise), upright: flat * upright };
}

/** Largest |sin| between two angles. */
function largestSine(from: number, to: number): number {
  const [low, high] = from < to ? [from, to] : [to, from];
  const crest = Math.ceil(low / Math.PI - 0.5) + 0.5;
  if (crest * Math.PI <= high) return 1;
  return Math.max(Math.abs(Math.sin(low)), Math.abs(Math.sin(high)));
}
