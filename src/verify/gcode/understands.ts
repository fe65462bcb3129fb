import type { Plane } from './types.ts';

/** What the control that will run the program understands; a word outside it is refused. */
export interface Understands {
  /** Planes in which arcs may be written. Without `xz` the word G18 is refused, without `yz` G19. */
  readonly arcPlanes: readonly Plane[];
  /** G81, G82 and G83. */
  readonly drillCycles: boolean;
  /** G61 and G64, the words that set path control. */
  readonly exactPath: boolean;
  /** M6. */
  readonly toolChange: boolean;
}

/** A control that understands every word this reader can prove. */
export const UNDERSTANDS_EVERYTHING: Understands = {
  arcPlanes: ['xy', 'xz', 'yz'],
  drillCycles: true,
  exactPath: true,
  toolChange: true,
};
