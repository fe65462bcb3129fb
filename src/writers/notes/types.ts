/** What the notes need of a program beside its job: time, and what reading the written text back showed. */
export interface ProgramFigures {
  /** File name of the program, as in its job. */
  readonly program: string;
  readonly minutes: number;
  readonly passed: boolean;
  /** Millimetres, as the three that follow. */
  readonly tolerance: number;
  readonly maxOvercut: number;
  readonly maxUndercut: number;
}
