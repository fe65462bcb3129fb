/** What a machine's control understands, resolved; part of `types.ts`, which hands it on. */

export type LengthUnit = 'mm' | 'in';
export type Plane = 'xy' | 'xz' | 'yz';
export type WorkOffset = 'G54' | 'G55' | 'G56' | 'G57' | 'G58' | 'G59';
export type LengthOffset = 'none' | 'G49' | 'G43';

/** What a machine's control understands; only what is stated here is ever written for it. */
export interface Controller {
  /** Planes in which arcs may be written; empty: none. */
  readonly arcPlanes: readonly Plane[];
  /** G81 and G83 understood. */
  readonly drillCycles: boolean;
  /** G61 understood. */
  readonly exactPath: boolean;
  /**
   * Without G61: how far it may leave the written path where two moves meet, mm; 0: not at all. Null: nobody has said. With G61: 0.
   */
  readonly corners: number | null;
  readonly comments: boolean;
  readonly lineNumbers: boolean;
  /** First N word and the step to the next, where lines are numbered. */
  readonly numbering: { readonly start: number; readonly step: number };
  /** Unit of the program: G21 or G20. */
  readonly units: LengthUnit;
  /** Digits after the point, in the program's unit: 3 to 5. */
  readonly decimals: number;
  readonly programEnd: 'M2' | 'M30';
  /** A `%` line first and last. */
  readonly percentLines: boolean;
  /** Blanks between words. */
  readonly wordSpaces: boolean;
  /** Most characters of a line, its end not counted. */
  readonly lineLength: number;
  readonly workOffset: WorkOffset;
  /** What a P of a G4 counts. */
  readonly dwellUnit: 'seconds' | 'milliseconds';
  /** `none`: one program a tool. `M6`: one program a part, its tools put in by T and M6. */
  readonly toolChange: 'none' | 'M6';
  /** `none`: no word of tool length. `G49`: the offset is turned off. `G43`: taken from the control's table, H = tool. */
  readonly lengthOffset: LengthOffset;
  /** Laser: M3, the power the S word says; M4, less where the head is slower. */
  readonly beamWord: 'M3' | 'M4';
  /** Whether all axes of a rapid arrive together on a straight line. */
  readonly straightRapids: boolean;
}
