/** What the solvers work on: strings by their place across the saddle, and how far out of tune a set-back leaves them. */

/** One string as the saddle sees it. */
export interface SaddleString {
  /** Across the instrument at the saddle, mm; no two strings alike. */
  readonly y: number;
  /** Errors in cents by fret, for a saddle at that set-back, less what is aimed at. */
  readonly errors: (setBack: number) => readonly number[];
  /** How much each fret counts; at least one above 0. */
  readonly fretWeights: readonly number[];
  /** How much the string counts where strings must share; at least one above 0. */
  readonly weight: number;
}

/** A straight line across the instrument: set-back at y = 0 and its change per mm toward the treble side. */
export interface SaddleLine {
  readonly atCentre: number;
  readonly slope: number;
}

/** A saddle: its line, where each string crosses it, and what is left of the errors. */
export interface Saddle {
  readonly line: SaddleLine;
  /** By string. */
  readonly setBacks: readonly number[];
  /** Sum of weight times error squared, cents^2. */
  readonly cost: number;
}

export const onLine = ({ atCentre, slope }: SaddleLine, y: number): number => atCentre + slope * y;
