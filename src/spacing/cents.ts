/** Share of a scale, from scale zero, at which a string sounds `cents` above its open note: 1 - 2^(-c/1200). */
export const shareAt = (cents: number): number => 1 - 2 ** (-cents / 1200);

/** Cents of the nth step of an octave in equal divisions. */
export const equalCents = (step: number, perOctave: number): number => (1200 * step) / perOctave;
