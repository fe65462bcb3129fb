/** How a string answers a finger that pushes it sideways. */

export interface Bend {
  /** How far the string is pushed aside at its middle, mm. */
  readonly sideways: number;
  /** Force of the finger, N. */
  readonly force: number;
}

/**
 * The push at the middle of a string of length `length` that raises what sounds from there to the saddle by `cents`.
 *
 * Pushed aside by h it is 2 sqrt((L/2)^2 + h^2) long, and its tension is T (1 + kappa Q); the sounding half is longer
 * too. Exact for an ideal string that is held at nut and saddle.
 */
export function bendAtMiddle(
  string: { readonly length: number; readonly tension: number; readonly stretch: number },
  cents: number,
): Bend {
  const half = string.length / 2;
  const stretchOf = (h: number): number => Math.hypot(1, h / half) - 1;
  const raised = (h: number): number => {
    const q = stretchOf(h);
    return 600 * Math.log2(((1 + string.stretch * q) * (1 + q)) / (1 + q) ** 2);
  };
  let [low, high] = [0, half];
  for (let i = 0; i < 60; i += 1) {
    const middle = (low + high) / 2;
    if (raised(middle) < cents) low = middle;
    else high = middle;
  }
  const pull = string.tension * (1 + string.stretch * stretchOf(low));
  return { sideways: low, force: (2 * pull * low) / Math.hypot(half, low) };
}
