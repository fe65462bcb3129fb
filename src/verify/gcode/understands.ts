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
  /** The work offset that programs are written in; the others are refused. Left out: G54. */
  readonly workOffset?: 'G54' | 'G55' | 'G56' | 'G57' | 'G58' | 'G59';
  /** What the P of a dwell counts. Left out: seconds. */
  readonly dwellUnit?: 'seconds' | 'milliseconds';
  /** G49 alone (left out), no word of tool length at all, or G43 with H = the tool in the spindle too. */
  readonly lengthOffset?: 'none' | 'G49' | 'G43';
  /** False: text in round brackets is not skipped. */
  readonly comments?: false;
  /** True: a program must begin and end with a line that holds a % alone. Left out: it may. */
  readonly percentLines?: true;
  /** Most characters of a line. Left out: 256 (NISTIR 6556, 3.3). */
  readonly lineLength?: number;
  /** Word that turns a beam on. Left out: M3. The reader takes both. */
  readonly beamWord?: 'M3' | 'M4';
  /**
   * True: after M6 nothing counts as known, neither modes nor places, because somebody may have stood at the machine. It
   * is how a program that changes tools is proven; the published grammar keeps the modes.
   */
  readonly afreshAfterTool?: true;
}

/** A control that understands every word this reader can prove. */
export const UNDERSTANDS_EVERYTHING: Understands = {
  arcPlanes: ['xy', 'xz', 'yz'],
  drillCycles: true,
  exactPath: true,
  toolChange: true,
};
