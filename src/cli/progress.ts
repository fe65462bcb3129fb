export interface Progress {
  readonly step: (what: string) => void;
  readonly end: () => void;
}

/** Back to the line's start, and clear it (ECMA-48). */
const CLEAR = '\r\u001b[K';

/** A line that says what is being done, on a terminal only; elsewhere nothing. The work does not pause for it. */
export function startProgress(): Progress {
  if (!process.stderr.isTTY) return { step: () => undefined, end: () => undefined };
  return {
    step: (what) => {
      process.stderr.write(`${CLEAR}${what} ...`);
    },
    end: () => {
      process.stderr.write(CLEAR);
    },
  };
}
