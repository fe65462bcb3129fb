/** How hard a string pulls, and what that does. */

/**
 * Tension in newtons of a string of `massPerMetre` (g/m) and speaking length (mm) that sounds `hertz`.
 * T = 4 mu L^2 f^2 (Mersenne).
 * @example mersenneTension(0.57278, 647.7, 329.6276) // 104.4
 */
export const mersenneTension = (massPerMetre: number, length: number, hertz: number): number =>
  4e-9 * massPerMetre * (length * hertz) ** 2;

/** The pitch in hertz that a tension in newtons gives: the other way round. */
export const mersenneHertz = (massPerMetre: number, length: number, tension: number): number =>
  Math.sqrt(tension / (4e-9 * massPerMetre)) / length;

/** Newtons that a string's tension changes when its pitch is bent by one cent: dT/T = 2 ln 2 / 1200. */
export const tensionPerCent = (tension: number): number => (tension * Math.LN2) / 600;

/** How a string runs over the saddle: its slope from the nut and its fall behind, both in radians. */
export interface BreakAngles {
  readonly front: number;
  readonly back: number;
}

/** Force in newtons that presses the saddle down, square to the plane of the fret tops. */
export const downBearing = (tension: number, { front, back }: BreakAngles): number =>
  tension * (Math.sin(front) + Math.sin(back));
