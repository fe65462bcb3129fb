/** Filling in what a file leaves out, and keeping a list of it so that no default stays hidden. */
import { degreesFromRadians } from '../../units/convert.ts';
import { formatShort } from '../../units/format.ts';

/** One value that was not given. */
export interface FilledDefault {
  readonly path: string;
  /** As a builder would write it. */
  readonly value: string;
  readonly why: string;
}

type Show<T> = (value: T) => string;

export interface Fill {
  readonly filled: readonly FilledDefault[];
  /** `given`, or `fallback` with an entry in the list. */
  readonly plain: <T extends string | number | boolean>(
    path: string,
    given: T | undefined,
    fallback: T,
    why: string,
  ) => T;
  /** As `plain`, for millimetres. */
  readonly length: (path: string, given: number | undefined, fallback: number, why: string) => number;
  /** As `plain`, for radians. */
  readonly angle: (path: string, given: number | undefined, fallback: number, why: string) => number;
  /** As `plain`, for anything that is shown in words of its own. */
  readonly shown: <T>(path: string, given: T | undefined, fallback: T, value: string, why: string) => T;
}

/** An empty list of defaults and the functions that add to it. */
export function startFill(): Fill {
  const filled: FilledDefault[] = [];
  const take = <T>(path: string, given: T | undefined, fallback: T, show: Show<T>, why: string): T => {
    if (given !== undefined) return given;
    filled.push({ path, value: show(fallback), why });
    return fallback;
  };
  return {
    filled,
    plain: (path, given, fallback, why) => take(path, given, fallback, String, why),
    length: (path, given, fallback, why) => take(path, given, fallback, showMm, why),
    angle: (path, given, fallback, why) => take(path, given, fallback, showDegrees, why),
    shown: (path, given, fallback, value, why) => take(path, given, fallback, () => value, why),
  };
}

const showMm = (mm: number): string => `${formatShort(mm, 4)} mm`;
const showDegrees = (radians: number): string => `${formatShort(degreesFromRadians(radians), 4)} deg`;

/** Who uses which defaults: the start of the shared reasons. */
export const PRACTICE = 'common practice, no source';
