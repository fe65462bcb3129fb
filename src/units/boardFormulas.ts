/** The few formulas of a fingerboard that both its checks and its layout use, each in one place. Millimetres. */

/**
 * Distance from scale zero of the stop that sounds `cents` above the open string, along the scale.
 * x = S (1 - 2^(-c/1200)).
 *
 * @example fretDistance(628, 1200) // 314
 */
export function fretDistance(scaleLength: number, cents: number): number {
  return scaleLength * (1 - 2 ** (-cents / 1200));
}

/** Cents of the nth step of an octave in equal divisions. */
export function equalCents(step: number, perOctave: number): number {
  return (1200 * step) / perOctave;
}

/** Half a board's width grows evenly along x: half = at0 + slope x. */
export interface Taper {
  readonly at0: number;
  readonly slope: number;
}

/** The taper through two widths, each at its x. */
export function taperThrough(
  [x0, width0]: readonly [x: number, width: number],
  [x1, width1]: readonly [x: number, width: number],
): Taper {
  const slope = (width1 - width0) / 2 / (x1 - x0);
  return { at0: width0 / 2 - slope * x0, slope };
}

/** Half a board's width at x. */
export function halfWidthOn({ at0, slope }: Taper, x: number): number {
  return at0 + slope * x;
}

/** How far a cylinder has fallen at y from its crest: R - sqrt(R^2 - y^2), without losing digits to cancellation; NaN past its side. */
export function cylinderFall(radius: number, y: number): number {
  return (y * y) / (radius + Math.sqrt(radius * radius - y * y));
}
