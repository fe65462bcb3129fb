import type { Job } from '../machining/types.ts';
import type { Intent } from './types.ts';

type Understands = Intent['machine']['understands'];
type Controller = Job['machine']['controller'];

/** NISTIR 6556, 3.3, with one character left for the end of a line: what a control takes when nothing else is said. */
const PLAIN_LENGTH = 255;

/** What the control of a job's machine understands; of the lesser capabilities only those that differ from a plain control's. */
export function understoodBy(job: Job): Understands {
  const { controller } = job.machine;
  const { arcPlanes, drillCycles, exactPath, toolChange } = controller;
  return {
    arcPlanes,
    drillCycles: drillCycles && job.kind === 'router',
    exactPath,
    toolChange: toolChange === 'M6',
    ...unusual(controller),
  };
}

function unusual(control: Controller): Partial<Understands> {
  return {
    ...(control.workOffset === 'G54' ? {} : { workOffset: control.workOffset }),
    ...(control.dwellUnit === 'seconds' ? {} : { dwellUnit: control.dwellUnit }),
    ...(control.lengthOffset === 'G49' ? {} : { lengthOffset: control.lengthOffset }),
    ...(control.comments ? {} : { comments: false as const }),
    ...(control.percentLines ? { percentLines: true as const } : {}),
    ...(control.lineLength === PLAIN_LENGTH ? {} : { lineLength: control.lineLength }),
    ...(control.beamWord === 'M3' ? {} : { beamWord: control.beamWord }),
  };
}

/** What the control does where two moves meet. */
export function pathOf({ corners }: Controller): Pick<Intent['machine'], 'path' | 'blend'> {
  if (corners === null) return { path: 'unknown' };
  return corners > 0 ? { path: 'blended', blend: corners } : { path: 'exact' };
}
