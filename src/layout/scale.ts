/**
 * Distance from scale zero of the stop that sounds `cents` above the open string, along the scale.
 * x = S (1 - 2^(-c/1200)). Millimetres.
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
