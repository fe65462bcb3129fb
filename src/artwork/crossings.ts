import type { Vec } from '../geometry/types.ts';
import type { Outline } from './types.ts';

interface Side {
  readonly a: Vec;
  readonly b: Vec;
  readonly outline: number;
  readonly index: number;
  readonly last: number;
}

export interface Crossing {
  readonly at: Vec;
  readonly first: Outline;
  readonly second: Outline;
}

/** Where outlines cross or touch themselves or each other; the first such place of each pair. A sweep along x over all sides. */
export function crossingsOf(outlines: readonly Outline[]): Crossing[] {
  const sides = outlines
    .flatMap(({ points }, outline) =>
      points.map(
        (a, index): Side => ({
          a,
          b: points[(index + 1) % points.length] ?? a,
          outline,
          index,
          last: points.length - 1,
        }),
      ),
    )
    .sort((p, q) => leftOf(p) - leftOf(q));
  const found = new Map<string, Crossing>();
  let live: Side[] = [];
  for (const side of sides) {
    live = live.filter((other) => rightOf(other) >= leftOf(side));
    for (const other of live) {
      if (areNeighbours(side, other)) continue;
      const key = [side.outline, other.outline].sort((p, q) => p - q).join(' ');
      const at = found.has(key) ? null : meetingPoint(side, other);
      const [lower, upper] = [side.outline, other.outline].sort((p, q) => p - q);
      const [first, second] = [outlines[lower ?? 0], outlines[upper ?? 0]];
      if (at !== null && first !== undefined && second !== undefined) found.set(key, { at, first, second });
    }
    live.push(side);
  }
  return [...found.values()];
}

function leftOf({ a, b }: Side): number {
  return Math.min(a[0], b[0]);
}

function rightOf({ a, b }: Side): number {
  return Math.max(a[0], b[0]);
}

function areNeighbours(p: Side, q: Side): boolean {
  if (p.outline !== q.outline) return false;
  const apart = Math.abs(p.index - q.index);
  return apart <= 1 || apart === p.last;
}

/** Where two sides meet, ends included; null when they do not. Parallel ones meet where an end lies on the other. */
function meetingPoint(p: Side, q: Side): Vec | null {
  const [rx, ry] = [p.b[0] - p.a[0], p.b[1] - p.a[1]];
  const [sx, sy] = [q.b[0] - q.a[0], q.b[1] - q.a[1]];
  const [dx, dy] = [q.a[0] - p.a[0], q.a[1] - p.a[1]];
  const cross = rx * sy - ry * sx;
  if (Math.abs(cross) < 1e-12 * Math.hypot(rx, ry) * Math.hypot(sx, sy)) return endOnSide(p, q);
  const t = (dx * sy - dy * sx) / cross;
  const u = (dx * ry - dy * rx) / cross;
  return t >= 0 && t <= 1 && u >= 0 && u <= 1 ? [p.a[0] + rx * t, p.a[1] + ry * t] : null;
}

function endOnSide(p: Side, q: Side): Vec | null {
  return [q.a, q.b].find((end) => isOn(p, end)) ?? [p.a, p.b].find((end) => isOn(q, end)) ?? null;
}

function isOn({ a, b }: Side, [x, y]: Vec): boolean {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const length = Math.hypot(dx, dy);
  const off = Math.abs(dx * (y - a[1]) - dy * (x - a[0])) / length;
  const along = (dx * (x - a[0]) + dy * (y - a[1])) / length;
  return off < 1e-9 && along >= 0 && along <= length;
}
