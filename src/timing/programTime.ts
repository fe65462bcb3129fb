import type { Motion } from '../verify/gcode/types.ts';
import { isContinuation } from './junction.ts';
import { createLookAhead, type LookAhead } from './lookAhead.ts';
import { arcStretch, straightStretch } from './stretch.ts';
import { runOver } from './trapezoid.ts';
import type { MachineMotion, ProgramTime, Stretch } from './types.ts';

/** Name of the model, for sheets. */
export const TIME_MODEL = 'trapezoidal motion with look-ahead';

export interface Timer {
  /** Takes the next motion. The record is not kept. */
  readonly add: (motion: Motion) => void;
  /** To be called once, after the last motion. */
  readonly finish: () => ProgramTime;
}

interface Clock {
  readonly machine: MachineMotion;
  readonly ahead: LookAhead;
  /** The last straight stretch, which may still grow. */
  open: Stretch | null;
  /** Spindle or beam, and tool, as they were in the last motion. */
  spindle: number;
  tool: number;
  readonly seconds: { cutting: number; travel: number; waiting: number };
  cut: number;
  level: number;
}

/**
 * Times a program motion by motion, in memory that does not grow with it. The model: constant acceleration, sideways and
 * upright limits apart; at a junction the velocity changes by at most a stated step; a circle is run no faster than its
 * radius allows; full stop at dwells, wherever spindle, beam or tool change, and at both ends of a rapid whose axes do not arrive
 * together. `room` is how many stretches are looked over at once; it changes no result.
 */
export function createTimer(machine: MachineMotion, room?: number): Timer {
  const seconds = { cutting: 0, travel: 0, waiting: 0 };
  const clock: Clock = {
    machine,
    ahead: createLookAhead(
      machine.junctionSpeed / 60,
      (stretch, from, to) => run(clock, stretch, from, to),
      room,
    ),
    open: null,
    spindle: 0,
    tool: -1,
    seconds,
    cut: 0,
    level: 0,
  };
  return { add: (motion) => take(clock, motion), finish: () => finish(clock) };
}

function finish(clock: Clock): ProgramTime {
  stop(clock);
  const { cutting, travel, waiting } = clock.seconds;
  return {
    minutes: (cutting + travel + waiting) / 60,
    cutting: cutting / 60,
    travel: travel / 60,
    waiting: waiting / 60,
    atFeed: clock.cut > 0 ? clock.level / clock.cut : 1,
  };
}

function take(clock: Clock, motion: Motion): void {
  if (motion.spindle !== clock.spindle || motion.tool !== clock.tool) {
    clock.spindle = motion.spindle;
    clock.tool = motion.tool;
    stop(clock);
  }
  switch (motion.kind) {
    case 'dwell':
      stop(clock);
      clock.seconds.waiting += motion.seconds;
      return;
    case 'arc':
      takeStretch(clock, arcStretch(motion, clock.machine));
      return;
    case 'feed':
      takeStretch(clock, straightStretch(motion, clock.machine));
      return;
    case 'rapid':
      if (clock.machine.straightRapids) takeStretch(clock, straightStretch(motion, clock.machine));
      else takeLooseRapid(clock, motion);
  }
}

/** Each axis goes its own way: the move is over when the slower has come to rest. */
function takeLooseRapid(clock: Clock, motion: Motion): void {
  stop(clock);
  const { rapid, acceleration } = clock.machine;
  const sideways = Math.hypot(motion.toX - motion.fromX, motion.toY - motion.fromY);
  const upright = Math.abs(motion.toZ - motion.fromZ);
  clock.seconds.travel += Math.max(
    runOver(sideways, rapid.xy / 60, acceleration.xy, 0, 0).seconds,
    runOver(upright, rapid.z / 60, acceleration.z, 0, 0).seconds,
  );
}

function takeStretch(clock: Clock, stretch: Stretch): void {
  if (!(stretch.length > 0 && stretch.speed > 0 && Number.isFinite(stretch.length))) {
    throw new Error(`a stretch of ${stretch.length} mm at ${stretch.speed} mm/s`);
  }
  const { open } = clock;
  if (open !== null && isContinuation(open, stretch)) {
    clock.open = { ...open, length: open.length + stretch.length };
    return;
  }
  if (open !== null) clock.ahead.push(open);
  clock.open = stretch;
}

function stop(clock: Clock): void {
  if (clock.open !== null) clock.ahead.push(clock.open);
  clock.open = null;
  clock.ahead.stop();
}

function run(clock: Clock, stretch: Stretch, from: number, to: number): void {
  const { seconds, level } = runOver(stretch.length, stretch.speed, stretch.acceleration, from, to);
  clock.seconds[stretch.kind] += seconds;
  if (stretch.kind === 'travel') return;
  clock.cut += stretch.length;
  if (stretch.speed >= stretch.wanted) clock.level += level;
}
