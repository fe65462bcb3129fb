/**
 * The intent file: what one program is meant to do, written beside it so that anybody can check the one against the other.
 *
 * All coordinates are in the PROGRAM frame: z = 0 on top of the stock, x and y from the work zero, millimetres.
 * A `cone` surface is about the line y = 0 of that frame: z = crest + sqrt(R(x)^2 - y^2) - R(x) - below, R linear in x
 * between the two given stations. `toPart.matrix` takes a program point to the part's frame.
 */

/** `[x, y]` or `[x, y, b]`: b = tan(a quarter of the arc's angle) to the next vertex, counter-clockwise positive. */
export type IntentVertex = readonly [number, number] | readonly [number, number, number];
export type IntentRing = readonly IntentVertex[];
/** Outer ring counter-clockwise first, holes clockwise after it; further outer rings may follow. */
export type IntentRegion = readonly IntentRing[];

export type Surface = { readonly kind: 'plane'; readonly z: number } | Cone | ShaftBack;

export interface Cone {
  readonly kind: 'cone';
  readonly x: readonly [number, number];
  readonly R: readonly [number, number];
  readonly crest: number;
  readonly below: number;
}

/** A figure at a station, and how it changes along x there. */
export type Run = readonly [value: number, slope: number];

/**
 * The back of a neck as a machine leaves it, the neck lying on its face: the highest of a row of sections across x, of a level that
 * nothing is cut below, and of a ramp at either end; all of it `raised`, nothing above `top`.
 *
 * A section stands on the height `base` and is alike on both sides of y = 0. With w = halfWidth[0] + halfWidth[1] x + grown, and
 * depth d = depth(x) + grown, shoulder s and back b at x, its edge is |y| = w (u^3 + 3 u^2 t + 3 u t^2 b), height
 * d (3 u^2 t s + 3 u t^2 + t^3), u = 1 - t, t from 0 to 1. depth, s and b run from station to station as the cubics with the values and
 * slopes given there, and straight on past the first and the last. The ramps rise outward from `top` - rise * way within x.
 */
export interface ShaftBack {
  readonly kind: 'shaft';
  readonly base: number;
  readonly halfWidth: readonly [at0: number, slope: number];
  readonly grown: number;
  readonly raised: number;
  readonly top: number;
  /** Nothing is cut below this height. */
  readonly least: number;
  /** In order along x; at least one. */
  readonly stations: readonly {
    readonly x: number;
    readonly depth: Run;
    readonly shoulder: Run;
    readonly back: Run;
  }[];
  /** Where the ramps meet `top`, and how steep they are: height over way. */
  readonly ramps: { readonly x: readonly [number, number]; readonly rise: number };
}

/** Flat at `z`, but for what lies between two stations: there worked down to the cone wherever that is lower. */
export interface WorkedTop {
  readonly kind: 'worked';
  readonly z: number;
  readonly x: readonly [number, number];
  readonly cone: Cone;
}

/** Flat at `z`, but for what lies between two stations: there planed down to `floor`. */
export interface PlanedTop {
  readonly kind: 'planed';
  readonly z: number;
  readonly x: readonly [number, number];
  readonly floor: number;
}

export type CutKind = 'region' | 'drill' | 'separate' | 'surface' | 'line';

export interface Tolerance {
  /** Of a located feature: slot line, hole centre. */
  readonly position: number;
  readonly wallOver: number;
  readonly wallUnder: number;
  readonly floorDeep: number;
  readonly floorShallow: number;
  /** surface: highest ridge that may be left between passes, square to the surface; null when `floorShallow` holds instead. */
  readonly cusp: number | null;
}

/** Beam only: how a line or outline is run. */
export interface BeamRun {
  /** S word. */
  readonly power: number;
  readonly feed: number;
  readonly passes: number;
  /** Seconds the beam stands still with the beam on where the cut begins. Left out: none. */
  readonly pierce?: number;
  /** Length of the way to the outline from where the beam comes on in the waste, mm. Left out: it comes on in the outline. */
  readonly leadIn?: number;
  /** How far the last pass runs on past its own start, mm: so much of the outline is passed once more. Left out: not at all. */
  readonly overCut?: number;
}

export interface IntentCut {
  readonly id: string;
  readonly feature: string;
  readonly kind: CutKind;
  /** region, drill: what is removed; surface: what is worked down to the floor. separate, line: null. */
  readonly region: IntentRegion | null;
  /** line: the marked line, `[x, y]` points; by a vee cutter its floor says how deep, and so how wide. */
  readonly line: readonly (readonly [number, number])[] | null;
  /**
   * separate: the outline of what must not be touched, one ring. Counter-clockwise keeps what it encloses (a part);
   * clockwise, as a hole, keeps what lies outside it (an opening). `region` is null for a separate cut: it clears one
   * cutter's (or kerf's) width on the side that is not kept. Not `through`: a skin is left under the cut all round, from the
   * stock's bottom up to the floor, which holds the part.
   */
  readonly keep: IntentRegion | null;
  readonly beam: BeamRun | null;
  /** drill: floor of the full diameter. */
  readonly floor: Surface;
  readonly from: 'stockTop';
  readonly through: boolean;
  /** May be cut besides the region (it contains the region where the two touch), down to the same floor. */
  readonly mayCut: { readonly region: IntentRegion; readonly why: string } | null;
  /**
   * May be left, up to `maxGap` mm from the cut, because the cutter's radius cannot reach. surface, over the back of a neck: in the
   * region wood may stand as if both ramps lay so much farther in.
   */
  readonly mayRemain: { readonly region: IntentRegion; readonly maxGap: number; readonly why: string } | null;
  readonly tabs: readonly {
    readonly at: readonly [number, number];
    readonly length: number;
    readonly height: number;
  }[];
  readonly tolerance: Tolerance;
}

/** Ground of the stock that an earlier program has cleared: over the region nothing stands higher than `z`. */
export interface ClearedGround {
  /** Name of that program: one of `after`, or this very program before a change of tools. */
  readonly program: string;
  /** Hash of its text; null where it is this very program. */
  readonly programSha256: string | null;
  /** Id of the cut that clears it. */
  readonly cut: string;
  readonly region: IntentRegion;
  readonly z: number;
}

export interface Intent {
  readonly format: 1;
  readonly program: string;
  readonly programSha256: string;
  readonly units: 'mm';
  readonly order: number;
  readonly after: readonly string[];
  readonly toPart: {
    readonly matrix: readonly (readonly [number, number, number, number])[];
    /** Seen along z, the program's picture of the part is its mirror: the part lies on its top. */
    readonly mirrored: boolean;
    readonly workZero: string;
    /** Pins that hold the part in place: by the features whose holes they stand in, and where they stand in the program frame. */
    readonly pins?: readonly { readonly feature: string; readonly at: readonly [number, number] }[];
  };
  readonly stock: {
    readonly region: IntentRegion;
    readonly bottom: number;
    readonly top: Surface | WorkedTop | PlanedTop;
  };
  readonly machine: {
    readonly envelope: {
      readonly x: readonly [number, number];
      readonly y: readonly [number, number];
      readonly z: readonly [number, number];
    };
    readonly rapid: 'straight' | 'anyOrder';
    /**
     * What the control does where two moves meet: keeps to the path, leaves it by up to `blend` mm, or nobody knows (then it is proven
     * as written, and said so).
     */
    readonly path: 'exact' | 'blended' | 'unknown';
    readonly blend?: number;
    readonly maxFeed: { readonly xy: number; readonly z: number };
    readonly spindle: readonly [number, number];
    /** Seconds from switching the spindle on until it is up to speed. Left out: none. */
    readonly spinUp?: number;
    /** What the control understands; a word outside it is refused. */
    readonly understands: {
      readonly arcPlanes: readonly ('xy' | 'xz' | 'yz')[];
      readonly drillCycles: boolean;
      readonly exactPath: boolean;
      readonly toolChange: boolean;
      /** Left out: G54. */
      readonly workOffset?: 'G54' | 'G55' | 'G56' | 'G57' | 'G58' | 'G59';
      /** What the P of a dwell counts. Left out: seconds. */
      readonly dwellUnit?: 'seconds' | 'milliseconds';
      /** `none`: no word of tool length; G43: with H = the tool in the spindle. Left out: G49. */
      readonly lengthOffset?: 'none' | 'G49' | 'G43';
      /** False: comments are not skipped. */
      readonly comments?: false;
      /** True: a line that holds a % alone must stand first and last. */
      readonly percentLines?: true;
      /** Most characters of a line. Left out: 256. */
      readonly lineLength?: number;
      /** Word that turns the beam on. Left out: M3. */
      readonly beamWord?: 'M3' | 'M4';
    };
  };
  readonly tool: {
    readonly id: number;
    readonly kind: 'flat' | 'ball' | 'vee' | 'drill' | 'beam';
    readonly diameter: number;
    readonly diameterRange: readonly [number, number];
    /** Included, degrees. */
    readonly tipAngle: number | null;
    readonly cutLength: number;
    readonly shank: { readonly diameter: number; readonly from: number } | null;
    readonly holder: readonly { readonly diameter: number; readonly from: number }[];
    readonly kerf: number | null;
  };
  readonly limits: {
    readonly clearHeight: number;
    /** No rapid sideways below this height; none down below it except into a hole already cut. */
    readonly rapidFloor: number;
    /**
     * No rapid sideways below this height, but over the region of a cut: lower things may stand on the stock or close beside it
     * unnamed. Away from the stock none is below the clear height. Left out: the rapid floor.
     */
    readonly travelHeight?: number;
    readonly zMin: number;
    /** Deepest bite of one pass; for a drill, of one peck. */
    readonly stepDown: number;
    readonly feed: readonly [number, number];
    /** Feeds faster than `above` only where no strip wider than `width` is taken off a wall. Left out: no feed is so fast. */
    readonly shaving?: { readonly above: number; readonly width: number };
    readonly plungeFeed: number;
    /** rpm; for a beam the S words allowed. */
    readonly spindle: readonly [number, number];
  };
  readonly keepOuts: readonly {
    readonly name: string;
    readonly region: IntentRegion;
    readonly z: readonly [number, number];
  }[];
  readonly cuts: readonly IntentCut[];
  /** What earlier programs have cleared when this one starts; it may be run after them only. Left out: nothing. */
  readonly cleared?: readonly ClearedGround[];
  readonly end: { readonly spindle: 'off'; readonly position: readonly [number, number, number] };
}

/**
 * What a program that changes tools is meant to do: one plain intent for each tool, in the order of the program's M6 words.
 * A stage speaks of the lines from its M6 to the one before the next.
 */
export interface StagedIntent {
  readonly format: 1;
  readonly program: string;
  readonly programSha256: string;
  readonly units: 'mm';
  readonly order: number;
  readonly after: readonly string[];
  readonly stages: readonly Intent[];
}

export type ProgramIntent = Intent | StagedIntent;
