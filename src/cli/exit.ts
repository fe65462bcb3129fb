/** Exit codes after sysexits (BSD sysexits.h). */
export const EXIT = {
  done: 0,
  /** Understood, but not provable or not makeable. */
  refused: 1,
  usage: 64,
  badInput: 65,
  missingInput: 66,
  ourFault: 70,
  cannotWrite: 73,
  io: 74,
} as const;

export type Code = (typeof EXIT)[keyof typeof EXIT];

/** Ends a command with a code and words for a person; thrown anywhere in the shell, caught in main alone. */
export class CommandFailure extends Error {
  constructor(
    readonly code: Code,
    message: string,
  ) {
    super(message);
  }
}
