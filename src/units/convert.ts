/**
 * The only place where the inch is defined: the international inch of 1959, exactly 25.4 mm.
 * Inside the program every length is a double in millimetres and every angle a double in radians.
 */

export const MM_PER_INCH = 25.4;
/** The same inch as a ratio of whole numbers, for exact reading: 127 / 5. */
export const MM_PER_INCH_RATIO: readonly [number, number] = [127, 5];

/** Millimetres of a length in inches. */
export const mmFromInches = (inches: number): number => inches * MM_PER_INCH;

/** Inches of a length in millimetres. */
export const inchesFromMm = (mm: number): number => mm / MM_PER_INCH;

/** Exactly: 0.45359237 kg under 9.80665 m/s2. */
export const NEWTONS_PER_POUND_FORCE = 4.4482216152605;

/** Pounds-force of a force in newtons. */
export const poundsFromNewtons = (newtons: number): number => newtons / NEWTONS_PER_POUND_FORCE;

/** Radians of an angle in degrees. */
export const radiansFromDegrees = (degrees: number): number => (degrees * Math.PI) / 180;

/** Degrees of an angle in radians. */
export const degreesFromRadians = (radians: number): number => (radians * 180) / Math.PI;
