/** Where a program's minutes go, and by which model they were found. */
export interface TimeFigures {
  readonly model: string;
  readonly cutting: number;
  readonly travel: number;
  readonly waiting: number;
  /** Share of the cutting way run at the written feed. */
  readonly atFeed: number;
}

/** What the notes need of a program beside its job: time, and what reading the written text back showed. */
export interface ProgramFigures {
  /** File name of the program, as in its job. */
  readonly program: string;
  readonly minutes: number;
  readonly time: TimeFigures;
  readonly passed: boolean;
  /** What each of the two worst figures may be, mm: the limit of the check that it comes from. */
  readonly limits: { readonly over: number; readonly under: number };
  /** Millimetres, as the one that follows. */
  readonly maxOvercut: number;
  readonly maxUndercut: number;
}
