import type { Intent } from '../intent/types.ts';
import type { Job } from '../machining/types.ts';
import { createTimer } from '../timing/programTime.ts';
import type { MachineMotion, ProgramTime } from '../timing/types.ts';
import { readProgram } from '../verify/gcode/readProgram.ts';
import type { StartState } from '../verify/gcode/types.ts';

/**
 * How long a program takes, from its written bytes read anew; the machine waits at the work zero, at clear height. With
 * `counts`, only the motions of those lines are timed.
 */
export function timeProgram(
  bytes: Uint8Array,
  job: Job,
  intent: Intent,
  counts: (line: number) => boolean = () => true,
): ProgramTime {
  const timer = createTimer(machineMotionOf(job));
  const start: StartState = {
    units: 'mm',
    distance: 'absolute',
    plane: 'xy',
    feedMode: 'per minute',
    position: [0, 0, intent.limits.clearHeight],
  };
  readProgram(bytes, start, intent.machine.understands, (motion) => {
    if (counts(motion.line)) timer.add(motion);
  });
  return timer.finish();
}

/** A laser's head has one limit for all its moves. */
function machineMotionOf({ machine }: Job): MachineMotion {
  const { junctionSpeed } = machine;
  const { straightRapids } = machine.controller;
  if (machine.kind === 'router') return { ...machine, junctionSpeed, straightRapids };
  const alike = (value: number): { readonly xy: number; readonly z: number } => ({ xy: value, z: value });
  return {
    maxFeed: alike(machine.maxFeed),
    rapid: alike(machine.rapid),
    acceleration: alike(machine.acceleration),
    junctionSpeed,
    straightRapids,
  };
}
