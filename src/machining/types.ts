/**
 * What to cut with what.
 *
 * In: parts and a shop. Out: jobs, one per program and tool, each a list of operations with every decision made
 * (tool, side, depth, passes, step, feeds, tabs) but no motion. Guaranteed: every feature is in exactly one job or named as a hand step.
 * Frame: operations are in the program frame: z = 0 on top of the stock, x and y from the work zero. Millimetres.
 */
import type { ShaftBack } from '../carving/types.ts';
import type { Box, Region, Ring, Vec } from '../geometry/types.ts';
import type { Cone, Feature, Floor, Part, Top } from '../parts/types.ts';
import type { KeepOut, Laser, MillingDirection, Router, Tool } from '../profile/types.ts';

/** How far the cutter bends in a full-width pass of the step-down. */
export interface Bend {
  /** Sideways, newtons. */
  readonly force: number;
  /** Of the tip, mm. */
  readonly tip: number;
}

/** How the last, narrow ring of a bore is run; figures are those of the smallest bore of the job. */
export interface FinishRing {
  /** Left on the wall for it, mm. */
  readonly width: number;
  /** How much thinner than a full cut's its chips would be at the same feed: 1 or more. */
  readonly thinning: number;
  /** Feed that makes up for it as far as the machine can, mm/min. */
  readonly feed: number;
  readonly boundBy: string;
  /** Deepest that it may go in one turn where it takes no more than a shaving, mm. */
  readonly deepest: number;
}

/** How the last pass along walls that are not bored is run. */
export interface WallFinish {
  /** Left on the walls for it, mm. */
  readonly width: number;
  /** How much thinner than a full cut's its chips would be at the same feed, at the place where they are thickest: 1 or more. */
  readonly thinning: number;
  readonly feed: number;
  readonly boundBy: string;
}

export interface Feeds {
  readonly rpm: number;
  /** Speed of the cutting edge, m/min. */
  readonly surfaceSpeed: number;
  /** Sideways feed, mm/min. */
  readonly feed: number;
  /** Plunge and drilling feed, mm/min. */
  readonly plunge: number;
  /** Deepest pass; of a drill, deepest peck. */
  readonly stepDown: number;
  /** Aimed at, mm per tooth. */
  readonly chipLoad: number;
  /** Thickest chip at these feeds with half the cutter or more engaged, mm. */
  readonly chip: number;
  /** What bound each choice, as `limited by the machine's feed`; `boundBy` is of the feed. */
  readonly boundBy: string;
  readonly spindleBoundBy: string;
  readonly plungeBoundBy: string;
  readonly stepDownBoundBy: string;
  /** Null for a drill: it is pushed along its axis. */
  readonly bend: Bend | null;
  /** Null where nothing is bored. */
  readonly finish: FinishRing | null;
  /** Null where no wall has a last pass of its own. */
  readonly wall: WallFinish | null;
  /** Where the chip load came from. */
  readonly source: string;
}

export interface Tab {
  /** Middle of the tab, on the kept outline. */
  readonly at: Vec;
  readonly length: number;
  readonly height: number;
  /** Of its two sides, rise over run. */
  readonly slope: number;
}

interface OperationBase {
  /** Intent cut id. */
  readonly id: string;
  readonly feature: string;
}

export interface SlotOperation extends OperationBase {
  readonly kind: 'slot';
  readonly line: readonly [Vec, Vec];
  readonly width: number;
  readonly floor: Floor;
  /** Past either end; 0: the slot stops there, its end round from the cutter. */
  readonly runOut: readonly [number, number];
}

export interface BoreOperation extends OperationBase {
  readonly kind: 'bore';
  readonly at: Vec;
  readonly diameter: number;
  /** Intended floor; a through bore goes on into the board below. */
  readonly z: number;
  readonly through: boolean;
  readonly direction: MillingDirection;
}

/** Clears a pocket of any shape, or what an earlier cutter left of it, from the inside out. */
export interface PocketOperation extends OperationBase {
  readonly kind: 'pocket';
  /** What this operation removes. */
  readonly region: Region;
  /** The pocket that it belongs to, within whose walls the cutter may go. */
  readonly whole: Region;
  /** Where `region` is what an earlier cutter left of `whole`: what of `whole` may be passed over besides. */
  readonly around: Region | null;
  readonly z: number;
  /** Between laps, mm. */
  readonly stepOver: number;
  /** Most of the cutter's front half that may meet wood at a full step down, radians. */
  readonly engagement: number;
  /** Inner corners of laps are rounded by this, mm. */
  readonly rounding: number;
  /** Left on the walls for the finishing pass, mm; in corners up to `cusp` more. */
  readonly allowance: number;
  readonly cusp: number;
  readonly finish: 'at full depth' | 'at each level';
  readonly direction: MillingDirection;
  /** What the cutter's radius does not reach, and how far from the cut that may be, mm. */
  readonly left: {
    readonly regions: readonly Region[];
    readonly gap: number;
    /** A smaller cutter follows in a program of its own. */
    readonly follows: boolean;
  } | null;
  /** What an earlier cutter has cleared round `region`; null where nothing has been. */
  readonly cleared: Cleared | null;
}

/** Ground that is clear for certain, by the thinnest cutter the earlier one may be. */
export interface Cleared {
  /** The operation that cleared it. */
  readonly by: string;
  readonly regions: readonly Region[];
  /** Nothing stands higher. */
  readonly z: number;
}

export interface DrillOperation extends OperationBase {
  readonly kind: 'drill';
  readonly at: Vec;
  readonly diameter: number;
  /** Floor of the full diameter; the tip goes deeper. */
  readonly z: number;
  readonly through: boolean;
}

/** A last pass along an outline, which takes what the passes before have left of it. */
export interface OutlineFinish {
  /** Left along the outline for it, mm. */
  readonly allowance: number;
  /** Deepest single pass, mm. */
  readonly stepDown: number;
  /** The arcs on which it comes to the outline and leaves it, in the groove that is cut already. */
  readonly lead: OutlineLead | null;
}

export interface OutlineLead {
  /** Point of the kept outline beside which the pass begins. */
  readonly at: Vec;
  readonly radius: number;
  /** How far the pass goes on past its beginning before it leaves. */
  readonly overlap: number;
}

export interface OutlineOperation extends OperationBase {
  readonly kind: 'outline';
  readonly direction: MillingDirection;
  /** Null: every pass goes along the outline itself. */
  readonly finish: OutlineFinish | null;
  readonly ring: Ring;
  readonly keep: 'inside' | 'outside';
  /** The stock's bottom; the lowest pass goes on into the board below unless a skin is left. */
  readonly z: number;
  readonly tabs: readonly Tab[];
  /** Thickness left under the cut all round, which holds the part; null: the cut goes right through. */
  readonly skin: number | null;
}

/** One cutter's width round outside of a wall, spiralling down to a level floor. */
export interface ChannelOperation extends OperationBase {
  readonly kind: 'channel';
  readonly ring: Ring;
  readonly z: number;
}

interface SurfaceOperation extends OperationBase {
  /** What must be finished; the blank's edges bound it in y. */
  readonly box: Box;
  readonly floor: Cone;
  /** Wood is cleared this far past the box's ends, and no farther. */
  readonly runOut: number;
}

/** Level passes by a flat cutter. */
export interface RoughSurfaceOperation extends SurfaceOperation {
  readonly kind: 'rough surface';
  /** Kept on the floor, upright. */
  readonly allowance: number;
  /** From one level to the next. */
  readonly step: number;
  /** Most that may stand above the allowance. */
  readonly left: number;
}

/** Long passes by a ball cutter or a flat one, ridges of at most `cusp` between them. */
export interface FinishSurfaceOperation extends SurfaceOperation {
  readonly kind: 'finish surface';
  readonly cusp: number;
  /** Ridges that the passes are set for: lower, so that the rounding of the text has room. */
  readonly aim: number;
  /** Passes go on past the box's ends by this. */
  readonly past: number;
}

/** Level passes by a flat cutter over the whole width, down to a plane. */
export interface PlaneSurfaceOperation extends OperationBase {
  readonly kind: 'plane surface';
  readonly box: Box;
  readonly z: number;
  readonly runOut: number;
  /** From one level to the next, at most. */
  readonly step: number;
}

interface BackOperation extends OperationBase {
  /** Between the ramps' upper ends, and from edge to edge of the blank. */
  readonly box: Box;
  readonly back: ShaftBack;
}

/** Level passes by a flat cutter down to the grown back of a neck, over the whole width of its blank. */
export interface RoughBackOperation extends BackOperation {
  readonly kind: 'rough back';
  /** From one level to the next beside the back. */
  readonly step: number;
  /** So many levels are cleared at once where nothing of the back is near. */
  readonly atOnce: number;
  /** Most that may stand above it, upright. */
  readonly left: number;
  /** In the corners between back and ramps wood may stand up to this far in from the ramps. */
  readonly corner: number;
}

/** Passes of a ball cutter along the neck, ridges of at most `cusp` between them. */
export interface FinishBackOperation extends BackOperation {
  readonly kind: 'finish back';
  readonly cusp: number;
  readonly aim: number;
}

/** A line cut by a vee cutter, `width` wide at the surface. */
export interface ScribeOperation extends OperationBase {
  readonly kind: 'scribe';
  readonly points: readonly Vec[];
  readonly width: number;
  readonly depth: number;
}

/** Where a beam comes on, in the waste, and how far that is from its path. */
export interface LeadIn {
  readonly from: Vec;
  readonly length: number;
}

export interface BeamCutOperation extends OperationBase {
  readonly kind: 'beam cut';
  readonly ring: Ring;
  readonly keep: 'inside' | 'outside';
  /** Point of the kept outline beside which the path begins. */
  readonly start: Vec;
  /** Null: the beam comes on in its path. */
  readonly leadIn: LeadIn | null;
}

export interface BeamLineOperation extends OperationBase {
  readonly kind: 'beam line';
  readonly points: readonly Vec[];
}

export type RouterOperation =
  | SlotOperation
  | BoreOperation
  | DrillOperation
  | PocketOperation
  | OutlineOperation
  | ChannelOperation
  | RoughSurfaceOperation
  | FinishSurfaceOperation
  | PlaneSurfaceOperation
  | RoughBackOperation
  | FinishBackOperation
  | ScribeOperation;
export type BeamOperation = BeamCutOperation | BeamLineOperation;

type Row = readonly [number, number, number, number];

type Placed = readonly [Row, Row, Row];

/**
 * `edge`: the part stands on one edge, the other is worked; `turned`: it lies on its top, on pins in holes drilled before; `on its
 * face`: it lies on its top, set by its edges.
 */
export type Lie =
  | { readonly kind: 'edge'; readonly toPart: Placed }
  | { readonly kind: 'turned'; readonly toPart: Placed; readonly pins: readonly HoldingPin[] }
  | { readonly kind: 'on its face'; readonly toPart: Placed };

/** A pin that holds a part in place: the feature whose hole it stands in, and where it stands in the program frame. */
export interface HoldingPin {
  readonly feature: string;
  readonly at: Vec;
}

/** How the blank lies on the machine. */
export interface Setup {
  readonly workZero: string;
  /** Part frame = program frame + this shift (x, y); nothing where it does not lie on its underside. */
  readonly shift: Vec;
  /** Where the part does not lie on its underside: what takes a program point to the part's frame. */
  readonly lie?: Lie;
  readonly stock: { readonly region: Region; readonly bottom: number; readonly top: Top | ShaftBack };
  readonly keepOuts: readonly KeepOut[];
}

export interface JobBase {
  /** File name of the program, as `fingerboard-slots.nc`. */
  readonly program: string;
  readonly part: Part;
  /** Short name of the work, as `fret slots`. */
  readonly operation: string;
  readonly setup: Setup;
  /** Place in the order of all programs, from 1. */
  readonly order: number;
  /** Programs that must have run before, on the same blank. */
  readonly after: readonly string[];
}

/** An earlier operation that a job relies on, and the program that it is in: an earlier one, or the job's own before a change of tools. */
export interface Reliance {
  readonly operation: string;
  readonly program: string;
}

export interface RouterJob extends JobBase {
  readonly kind: 'router';
  readonly machine: Router;
  readonly tool: Tool;
  readonly feeds: Feeds;
  /** How far below the stock's bottom a through cut goes. */
  readonly below: number;
  /** Programs on whose work this one relies: its cutter goes straight down where they have cleared. */
  readonly reliesOn: readonly Reliance[];
  /** Empty for a walk round: a program that only looks, spindle off, at clear height. */
  readonly operations: readonly RouterOperation[];
}

export interface BeamJob extends JobBase {
  readonly kind: 'laser';
  readonly machine: Laser;
  readonly kerf: number;
  readonly cut: {
    readonly s: number;
    readonly feed: number;
    readonly passes: number;
    /** Seconds the beam stands still where a cut begins. */
    readonly pierce: number;
    /** How far it runs on past the start of a closed outline, mm. */
    readonly overCut: number;
  };
  readonly mark: { readonly s: number; readonly feed: number };
  /** What to set the air to; null when nothing is said. */
  readonly air: string | null;
  /** Where power, speed and kerf come from, in words. */
  readonly source: string;
  readonly operations: readonly BeamOperation[];
}

export type Job = RouterJob | BeamJob;

/** A feature left to the bench, with the step that makes it. */
export interface HandStep {
  /** As `drill-side-markers`. */
  readonly step: string;
  readonly part: string;
  readonly features: readonly string[];
  /** Where it makes no feature but finishes what a program began: the work that it follows. */
  readonly follows?: Feature['work'];
  readonly why: string;
}
