/** The part of an instrument that `nutline strings` is about: what its strings are made of, and how they are judged. */

/** What carries a string's load. */
export type CoreMaterialName = 'steel' | 'nylon' | 'multifilament nylon' | 'gut';

export type WrapMaterialName =
  | 'phosphor bronze'
  | '80/20 bronze'
  | 'nickel-plated steel'
  | 'nickel'
  | 'stainless steel'
  | 'silvered copper';

/** What a string is made of. Null: the material's usual figure is taken. */
export interface StringBuild {
  /** Diameter of the load-bearing core; the gauge of a plain string. */
  readonly core: number;
  /** Whether the file gives the core; otherwise it is a usual one for the gauge. */
  readonly coreGiven: boolean;
  readonly material: CoreMaterialName;
  readonly wrap: WrapMaterialName | null;
  /** g/m, weighed. */
  readonly massPerMetre: number | null;
  /** Of the core, kg/m3. */
  readonly density: number | null;
  /** Young's modulus of the core, GPa. */
  readonly modulus: number | null;
  /** Of the core, MPa. */
  readonly strength: number | null;
}

export interface InstrumentString {
  /** As written: `E2`, `82.41 Hz`. */
  readonly pitch: string;
  readonly hertz: number;
  readonly gauge: number;
  readonly make: 'plain' | 'wound';
  /** How far behind the scale length the saddle carries this string. Never assumed. */
  readonly setBack: number;
  readonly build: StringBuild;
  /** Cents by which it is meant to sound sharp (negative: flat) at the octave. */
  readonly aimCents: number;
  /** How much it counts where strings share a saddle. */
  readonly importance: number;
}

/** The saddle's top, and what makes strings bear down on it. */
export interface SaddleTop {
  /** Along the strings. */
  readonly width: number;
  /** Least left before and behind a string's crown. */
  readonly edge: number;
  /** Above the bridge's face. */
  readonly height: number;
  /** How far below the bridge's face the string meets the front of its pin hole. */
  readonly ramp: number;
  /** Of the slot that holds it. */
  readonly slotDepth: number;
  /** Past the outer strings, at each end. */
  readonly ends: number;
}

/** How stopped notes are judged. */
export interface Intonation {
  /** How much each fret counts, first fret first; those past the list's end do not. */
  readonly fretWeights: readonly number[];
  /** Whether a place for the nut is proposed too. */
  readonly nut: 'fixed' | 'free';
  /** How far behind the fret a finger presses. */
  readonly fingerBehind: number;
  /** How far below the string's straight run over the fret the finger presses it. */
  readonly press: number;
}
