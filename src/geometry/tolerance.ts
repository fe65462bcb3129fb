/** Two points closer than this are one point. Millimetres; far below any tool, far above rounding of doubles. */
export const SAME_POINT = 1e-9;

/** A bulge smaller than this is a straight side: at 1 m of chord its sagitta is below 1e-9 mm. */
export const STRAIGHT_BULGE = 1e-12;
