/**
 * How a string behaves: what it weighs, how hard it pulls, where it plays in tune.
 *
 * In: numbers of one string and of the way it is set up. Out: numbers. No names, no profile, no files.
 * Units: millimetres, newtons, hertz, MPa (= N/mm2), kg/m3; a string's mass per length in g/m (= mg/mm).
 * Frame: x from scale zero toward the saddle, z above the plane of the fret tops.
 */

/** What a material is, with the source of each figure in words. */
export interface CoreMaterial {
  /** kg/m3. */
  readonly density: number;
  /** Young's modulus in MPa for a core of that diameter in mm; what is measured on a string under tension. */
  readonly modulus: (diameter: number) => number;
  /** Least tensile strength in MPa for a core of that diameter in mm. */
  readonly strength: (diameter: number) => number;
  /** How far off the modulus may be, as a share. */
  readonly modulusTolerance: number;
  readonly sources: string;
}

export interface WrapMaterial {
  /** kg/m3. */
  readonly density: number;
  readonly sources: string;
}

/** What one string is made of. A plain string is all core. */
export interface Construction {
  /** Over the wrap, mm. */
  readonly diameter: number;
  /** Of the load-bearing core, mm; equals `diameter` for a plain string. */
  readonly core: number;
  /** kg/m3. */
  readonly coreDensity: number;
  /** kg/m3; null for a plain string. */
  readonly wrapDensity: number | null;
  /** Of the core, MPa. */
  readonly modulus: number;
  /** Where it was weighed, g/m: then nothing is worked out from the construction. */
  readonly massPerMetre: number | null;
}

/** What the model needs to know of a string. */
export interface StringBody {
  /** g/m. */
  readonly massPerMetre: number;
  /** E A of the core: newtons for a stretch of its own length. */
  readonly axial: number;
  /** E I of the core, N mm2. The wrap's coils are taken to bend freely. */
  readonly bending: number;
}

/**
 * A string tuned to its pitch: `built` finds its tension from its length, `measured` carries the two numbers as published.
 */
export type TunedString =
  | { readonly kind: 'built'; readonly body: StringBody; readonly hertz: number }
  | { readonly kind: 'measured'; readonly stretch: number; readonly stiffness: number };

/**
 * How the stiffness number of a stopped string follows from the open one's.
 * `by scale`: B times the fret's ratio, as in the published tables. `by length`: from the stopped length and the tension
 * it then has, which is physically stricter.
 */
export type StiffnessRule = 'by scale' | 'by length';

/** One string over one board: everything that decides its stopped lengths but the set-back of its saddle. */
export interface SetUp {
  readonly scale: number;
  /** Frequency ratio that each fret is cut for, first fret first. */
  readonly ratios: ArrayLike<number>;
  /** Where each fret stands, mm from scale zero. */
  readonly frets: ArrayLike<number>;
  /** How far each fret's top lies below the plane (relief). */
  readonly drops: ArrayLike<number>;
  /** Nut face forward of scale zero. */
  readonly nutForward: number;
  /** Underside of the string at the nut above the plane. */
  readonly nutHeight: number;
  /** The same at x = scale, and its rise per mm beyond. */
  readonly saddleHeight: number;
  readonly saddleSlope: number;
  /** How far behind each fret the finger presses. */
  readonly fingerBehind: ArrayLike<number>;
  /** How far below the straight run over the fret the finger presses the string there. */
  readonly press: number;
  /** The board's surface below a fret's top: no press goes deeper. */
  readonly crownHeight: number;
  /** Whether the frets behind the finger carry the string. The published model lets it pass through them. */
  readonly restsOnFrets: boolean;
  readonly stiffnessRule: StiffnessRule;
}
