import type { Section, Shaft, Station } from './types.ts';

/** Half the neck's width at a place along it, from scale zero. */
export type HalfWidth = (x: number) => number;

/** The section at any place between the first station and the last. */
export type SectionAt = (x: number) => Section;

/**
 * Sections between stations: the width follows the board, all else runs smoothly from station to station without swinging past
 * either (monotone cubic interpolation: F. N. Fritsch and R. E. Carlson, SIAM J. Numer. Anal. 17(2), 1980). Two stations give straight
 * lines; before the first and past the last the nearest station's slope goes on.
 */
export function sectionsAlong(
  stations: readonly Omit<Station, 'halfWidth'>[],
  halfWidth: HalfWidth,
): SectionAt {
  const xs = stations.map(({ x }) => x);
  const depth = monotone(
    xs,
    stations.map((s) => s.depth),
  );
  const shoulder = monotone(
    xs,
    stations.map((s) => s.shoulder),
  );
  const back = monotone(
    xs,
    stations.map((s) => s.back),
  );
  return (x) => ({ halfWidth: halfWidth(x), depth: depth(x), shoulder: shoulder(x), back: back(x) });
}

/** A smooth curve through points whose x rise, that rises and falls only where they do. */
export function monotone(xs: readonly number[], ys: readonly number[]): (x: number) => number {
  const count = xs.length;
  const [x0, y0] = [xs[0], ys[0]];
  if (x0 === undefined || y0 === undefined || ys.length !== count) throw new Error('a curve without points');
  if (count === 1) return () => y0;
  const slopes = tangents(xs, ys);
  return (x) => {
    const next = xs.findIndex((at, i) => i > 0 && x <= at);
    const i = next < 0 ? count - 2 : next - 1;
    return hermite(
      x,
      [num(xs, i), num(xs, i + 1)],
      [num(ys, i), num(ys, i + 1)],
      [num(slopes, i), num(slopes, i + 1)],
    );
  };
}

function num(list: readonly number[], i: number): number {
  const value = list[i];
  if (value === undefined) throw new Error(`place ${i} of ${list.length}`);
  return value;
}

function hermite(
  x: number,
  [x0, x1]: readonly [number, number],
  [y0, y1]: readonly [number, number],
  [m0, m1]: readonly [number, number],
): number {
  if (x < x0) return y0 + m0 * (x - x0);
  if (x > x1) return y1 + m1 * (x - x1);
  const h = x1 - x0;
  const t = (x - x0) / h;
  const u = 1 - t;
  return y0 * (1 + 2 * t) * u * u + y1 * t * t * (3 - 2 * t) + h * (m0 * t * u * u - m1 * t * t * u);
}

function tangents(xs: readonly number[], ys: readonly number[]): number[] {
  const chords = xs.slice(1).map((x, i) => (num(ys, i + 1) - num(ys, i)) / (x - num(xs, i)));
  const slopes = xs.map((_, i) => {
    const [before, after] = [chords[i - 1], chords[i]];
    if (before === undefined) return after ?? 0;
    if (after === undefined) return before;
    return before * after <= 0 ? 0 : (before + after) / 2;
  });
  for (const [i, chord] of chords.entries()) {
    if (chord === 0) {
      slopes[i] = 0;
      slopes[i + 1] = 0;
      continue;
    }
    const [a, b] = [num(slopes, i) / chord, num(slopes, i + 1) / chord];
    const size = Math.hypot(a, b);
    if (size > 3) {
      slopes[i] = (3 * a * chord) / size;
      slopes[i + 1] = (3 * b * chord) / size;
    }
  }
  return slopes;
}

/** The sections of a shaft. */
export function sectionsOn({ stations, halfWidth: { at0, slope } }: Shaft): SectionAt {
  return sectionsAlong(stations, (x) => at0 + slope * x);
}
