/** How a stretch is run: speeding up, level, slowing down. */
export interface Run {
  readonly seconds: number;
  /** mm run at full speed. */
  readonly level: number;
}

/**
 * Shortest run over a length (mm) from one speed to another, mm/s, with at most `speed` on the way and `acceleration`
 * mm/s^2: a trapezoid of speed over time, or a triangle where the length is too short to reach it (kinematics of constant
 * acceleration: v1^2 = v0^2 + 2 a s).
 * @example runOver(100, 20, 200, 0, 0).seconds // 5.1: 100 / 20 and 20 / 200
 */
export function runOver(length: number, speed: number, acceleration: number, from: number, to: number): Run {
  if (length === 0) return { seconds: 0, level: 0 };
  const reachable = Math.sqrt(acceleration * length + (from * from + to * to) / 2);
  // Rounding may leave the top a hair under an end that it must reach.
  const top = Math.max(Math.min(speed, reachable), from, to);
  const ramps = (2 * top * top - from * from - to * to) / (2 * acceleration);
  const level = Math.max(0, length - ramps);
  return { seconds: (2 * top - from - to) / acceleration + level / top, level: top < speed ? 0 : level };
}
