/** Rapids come down to this height above the stock's top, mm, and none runs sideways below it; from there the tool goes at feed. */
export const RAPID_FLOOR = 0.5;
