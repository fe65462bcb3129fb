import type { Vec } from '../geometry/types.ts';
import type { Facet, Section } from './types.ts';

/** Point of the treble half at `t`: 0 on the side, 1 in the middle of the back. */
export function sectionPoint({ halfWidth, depth, shoulder, back }: Section, t: number): Vec {
  const u = 1 - t;
  return [
    halfWidth * (u * u * u + 3 * u * u * t + 3 * u * t * t * back),
    -depth * (3 * u * u * t * shoulder + 3 * u * t * t + t * t * t),
  ];
}

/** The same, derived by `t`. */
export function sectionSlope({ halfWidth, depth, shoulder, back }: Section, t: number): Vec {
  const u = 1 - t;
  return [
    3 * halfWidth * (2 * u * t * (back - 1) - t * t * back),
    -3 * depth * (u * u * shoulder + 2 * u * t * (1 - shoulder)),
  ];
}

/**
 * Where the outward normal has an angle: 0 at the side, a quarter turn at the back. The curve is convex, so there is one such place:
 * the root between 0 and 1 of a quadratic, y'(t) cos a - z'(t) sin a = 0.
 */
export function touchAt(section: Section, angle: number): number {
  const { halfWidth, depth, shoulder, back } = section;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  // y' / 3 = w (2 u t (b - 1) - t t b);  z' / 3 = -d (u u s + 2 u t (1 - s)), in powers of t.
  const y = [0, 2 * (back - 1), 2 - 3 * back].map((k) => k * halfWidth * c);
  const z = [shoulder, 2 - 4 * shoulder, 3 * shoulder - 2].map((k) => k * depth * s);
  const [k0 = 0, k1 = 0, k2 = 0] = y.map((k, i) => k + (z[i] ?? 0));
  return rootWithin(k2, k1, k0);
}

/** The root of k2 t^2 + k1 t + k0 between 0 and 1, a hair of rounding allowed. */
function rootWithin(k2: number, k1: number, k0: number): number {
  const size = Math.max(Math.abs(k2), Math.abs(k1), Math.abs(k0));
  if (Math.abs(k2) <= 1e-12 * size) return clamped(-k0 / k1);
  const root = Math.sqrt(Math.max(0, k1 * k1 - 4 * k2 * k0));
  const q = -(k1 + (k1 < 0 ? -root : root)) / 2;
  const roots = [q / k2, q === 0 ? 0 : k0 / q];
  const found = roots.find((t) => t > -1e-9 && t < 1 + 1e-9);
  if (found === undefined) throw new Error(`a section without a place for a direction: ${roots.join(', ')}`);
  return clamped(found);
}

const clamped = (t: number): number => Math.min(1, Math.max(0, t));

/** The line that touches a section at a direction of its outward normal. */
export function facetAt(section: Section, angle: number): Facet {
  const touches = sectionPoint(section, touchAt(section, angle));
  return { angle, reach: touches[0] * Math.cos(angle) - touches[1] * Math.sin(angle), touches };
}

/** Height of the back below the board's underside at a distance from the centreline, by halving; 0 or less. */
export function backHeight(section: Section, y: number): number {
  const across = Math.abs(y);
  if (across >= section.halfWidth) return 0;
  let [low, high] = [0, 1];
  for (let i = 0; i < 60; i += 1) {
    const t = (low + high) / 2;
    if (sectionPoint(section, t)[0] > across) low = t;
    else high = t;
  }
  return sectionPoint(section, (low + high) / 2)[1];
}

/** The whole section from the treble side round the back to the bass side, chords within `sagitta` of it. */
export function sectionChain(section: Section, sagitta: number): Vec[] {
  const half = halfChain(section, sagitta);
  const other = half.slice(0, -1).reverse();
  return [...half, ...other.map(([y, z]): Vec => [-y, z])];
}

function halfChain(section: Section, sagitta: number): Vec[] {
  const points: Vec[] = [sectionPoint(section, 0)];
  const halve = (from: number, to: number): void => {
    const middle = (from + to) / 2;
    if (to - from <= 1 / 8 && offChord(section, from, to) <= sagitta) {
      points.push(sectionPoint(section, to));
      return;
    }
    halve(from, middle);
    halve(middle, to);
  };
  halve(0, 1);
  return points;
}

/** Farthest the curve leaves a chord, looked at in three places: a cubic as short as this has no more to hide. */
function offChord(section: Section, from: number, to: number): number {
  const [a, b] = [sectionPoint(section, from), sectionPoint(section, to)];
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const off = [0.25, 0.5, 0.75].map((share) => {
    const [y, z] = sectionPoint(section, from + (to - from) * share);
    return Math.abs((b[0] - a[0]) * (z - a[1]) - (b[1] - a[1]) * (y - a[0])) / length;
  });
  return Math.max(...off) * 1.1;
}
