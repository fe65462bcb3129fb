/**
 * An instrument's strings as they will pull and sound: tensions, errors by fret, and where a saddle would go.
 *
 * In: an Instrument and its Layout. Out: numbers by string, proposals beside the profile's own set-backs (which stay as they
 * are), bands, and findings. Millimetres, newtons, hertz, cents; angles in radians.
 */
import type { BreakAngles } from '../physics/tension.ts';
import type { Band, Influence } from '../physics/uncertainty.ts';

/** What one string weighs, how hard it pulls and how near it is to breaking. */
export interface StringPull {
  /** 1 is the bass-most position. */
  readonly position: number;
  readonly pitch: string;
  readonly hertz: number;
  readonly gauge: number;
  readonly make: 'plain' | 'wound';
  readonly core: number;
  readonly coreGiven: boolean;
  readonly material: string;
  readonly wrap: string | null;
  /** g/m, and whether the profile gives it. */
  readonly massPerMetre: number;
  readonly weighed: boolean;
  /** Nut to saddle. */
  readonly length: number;
  readonly tension: number;
  /** In the core, MPa. */
  readonly stress: number;
  readonly strength: number;
  /** Whether that limit is sure: measured core and tabled wire, or a strength that the profile gives. */
  readonly strengthSure: boolean;
  /** The pitch at which the core would carry its whole strength. */
  readonly breaksAtHertz: number;
  /** kappa and B of the model. */
  readonly stretch: number;
  readonly stiffness: number;
  /** Newtons for one cent. */
  readonly perCent: number;
  /** Sideways push at the middle that raises the note at the octave by a whole tone: mm and N. */
  readonly wholeTone: { readonly sideways: number; readonly force: number };
  readonly breakAngles: BreakAngles;
  readonly downBearing: number;
}

/** How high one string runs. */
export interface StringHeights {
  readonly atNut: number;
  readonly atSaddle: number;
  /** Over each fret. */
  readonly overFrets: readonly number[];
  /** The note with the least room to swing, and the open string's room. */
  readonly tightest: { readonly stoppedAt: number; readonly room: number; readonly touches: number | null };
  readonly openRoom: number;
}

/** One string's errors by fret under one saddle, cents sharp. */
export type CentsByFret = readonly number[];

/** What makes a note sharp, cents: the string's stretch on its way to the fret, and its stiffness. */
export interface SharpParts {
  readonly pressing: number;
  readonly stiffness: number;
}

export interface StringTuning {
  /** As the profile says. */
  readonly setBack: number;
  /** The set-back that leaves this string's errors least, aimed as the profile says. */
  readonly ideal: Band & { readonly value: number };
  /** The same with nothing aimed at; null when nothing is. */
  readonly leastSquares: number | null;
  readonly straight: number;
  readonly crowned: number;
  /** Behind (negative: before) the middle of the compensated saddle's slot. */
  readonly lean: number;
  /** At the octave, if the saddle stood at the scale length. */
  readonly withoutSetBack: SharpParts;
  readonly cents: {
    readonly profile: CentsByFret;
    readonly straight: CentsByFret;
    readonly crowned: CentsByFret;
    /** Half the band of each, whatever the saddle. */
    readonly plusMinus: CentsByFret;
  };
}

export interface StringReport {
  readonly pull: StringPull;
  readonly heights: StringHeights;
  readonly tuning: StringTuning;
}

/** A saddle's worst error over the counted frets. */
export interface SaddleReport {
  readonly name: 'profile' | 'constant' | 'inSlot' | 'straight' | 'crowned';
  /** Set-back on the centreline and under the outer strings, and the angle from square, bass end back counted positive. */
  readonly line: {
    readonly atCentre: number;
    readonly bass: number;
    readonly treble: number;
    readonly angle: number;
  } | null;
  readonly worst: Band & { readonly value: number };
}

/** The same set tuned otherwise. */
export interface Retuned {
  readonly concertPitch: number;
  readonly strings: readonly {
    readonly position: number;
    readonly pull: StringPull;
    readonly change: number;
    readonly ideal: number;
    /** Cents sharp at the octave (or the last counted fret) with the profile's set-back. */
    readonly atOctave: number;
  }[];
  readonly total: number;
}

export interface Stringing {
  readonly instrument: string;
  readonly scale: number;
  readonly units: 'mm' | 'in';
  readonly concertPitch: number;
  readonly strings: readonly StringReport[];
  /** The names of the frets by their places. */
  readonly fretNames: readonly string[];
  /** Places of the frets that count, first to last; the octave's fret or the last counted. */
  readonly counted: readonly number[];
  readonly octaveFret: number;
  readonly totals: {
    readonly tension: number;
    readonly downBearing: number;
    /** Highest tension over lowest. */
    readonly balance: number;
  };
  readonly saddles: readonly SaddleReport[];
  readonly saddleWidth: {
    readonly has: number;
    /** For the model's crowns, and for the profile's own set-backs. */
    readonly needs: number;
    readonly profileNeeds: number;
  };
  /** A nut and the set-backs that go with it, when a place for it is asked for. */
  readonly nut: {
    readonly now: number;
    readonly proposed: number;
    readonly setBacks: readonly number[];
    /** By string, where each would like it. */
    readonly wishes: readonly number[];
    readonly worst: number;
  } | null;
  readonly influences: readonly Influence[];
  readonly samples: number;
  /** From the saddle to where the swing's room is worked out. */
  readonly pluckAt: number;
  readonly retuned: Retuned | null;
  /** Sources of the materials' figures. */
  readonly sources: readonly string[];
}
