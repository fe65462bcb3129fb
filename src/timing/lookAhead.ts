import { junctionSpeed } from './junction.ts';
import type { Stretch } from './types.ts';

/** Takes a stretch whose speeds at both ends, mm/s, are decided. */
export type Settled = (stretch: Stretch, from: number, to: number) => void;

export interface LookAhead {
  /** A stretch that follows the last one without a stop. */
  readonly push: (stretch: Stretch) => void;
  /** Everything stands still after the last stretch. */
  readonly stop: () => void;
}

interface Row {
  readonly stretches: Stretch[];
  /** Fastest speed at the start of each stretch: its junction's, 0 after a stop. */
  readonly caps: number[];
  /** Speed at which the first stretch is entered. */
  entry: number;
  /** So many stretches are held before some are settled. */
  room: number;
  readonly least: number;
}

/**
 * Decides the speed at every junction: the fastest at which the rest of the way can still be run within its limits.
 * Stretches are let go as soon as nothing that follows can change them, so a program's size does not matter.
 */
export function createLookAhead(step: number, settled: Settled, room = 1024): LookAhead {
  const row: Row = { stretches: [], caps: [], entry: 0, room, least: room };
  return {
    push: (stretch) => {
      const before = row.stretches.at(-1);
      row.caps.push(before === undefined ? row.entry : junctionSpeed(before, stretch, step));
      row.stretches.push(stretch);
      if (row.stretches.length >= row.room) settleSome(row, settled);
    },
    stop: () => {
      release(row, row.stretches.length, [...slowest(row), 0], settled);
      row.entry = 0;
      row.room = row.least;
    },
  };
}

/** Backward: the speed at each start from which a stop at the very end is still possible. */
function slowest(row: Row): number[] {
  const speeds = row.caps.slice();
  let after = 0;
  for (let i = row.stretches.length - 1; i >= 0; i -= 1) {
    const { acceleration, length } = at(row.stretches, i);
    after = Math.min(at(row.caps, i), Math.sqrt(after * after + 2 * acceleration * length));
    speeds[i] = after;
  }
  return speeds;
}

/** A junction that could be taken at its cap even if the row ended in a stop is decided, and all before it. */
function settleSome(row: Row, settled: Settled): void {
  const speeds = slowest(row);
  let last = speeds.length - 1;
  while (last > 0 && at(speeds, last) < at(row.caps, last)) last -= 1;
  release(row, last, speeds, settled);
  row.room = Math.max(row.least, 2 * row.stretches.length);
}

/** Forward: lets the first stretches go, each ended no faster than it can speed up to. */
function release(row: Row, count: number, speeds: readonly number[], settled: Settled): void {
  let from = row.entry;
  for (let i = 0; i < count; i += 1) {
    const stretch = at(row.stretches, i);
    const to = Math.min(
      at(speeds, i + 1),
      Math.sqrt(from * from + 2 * stretch.acceleration * stretch.length),
    );
    settled(stretch, from, to);
    from = to;
  }
  row.entry = from;
  row.stretches.splice(0, count);
  row.caps.splice(0, count);
}

function at<T>(list: readonly T[], index: number): T {
  const item = list[index];
  if (item === undefined) throw new Error(`item ${index} of a list of ${list.length}`);
  return item;
}
