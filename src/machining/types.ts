/**
 * What to cut with what.
 *
 * In: parts and a shop. Out: jobs, one per program and tool, each a list of operations with every decision made
 * (tool, side, depth, passes, step, feeds, tabs) but no motion. Guaranteed: every feature is in exactly one job or named as a hand step.
 * Frame: operations are in the program frame: z = 0 on top of the stock, x and y from the work zero. Millimetres.
 */
import type { Region, Ring, Vec } from '../geometry/types.ts';
import type { Floor, Part, Top } from '../parts/types.ts';
import type { KeepOut, Laser, Router, Tool } from '../profile/types.ts';

export interface Feeds {
  readonly rpm: number;
  /** Sideways feed, mm/min. */
  readonly feed: number;
  /** Plunge and drilling feed, mm/min. */
  readonly plunge: number;
  readonly stepDown: number;
  readonly chipLoad: number;
  /** What bound the choice, as `limited by the machine's feed`. */
  readonly boundBy: string;
  /** Where the chip load came from. */
  readonly source: string;
}

export interface Tab {
  /** Middle of the tab, on the kept outline. */
  readonly at: Vec;
  readonly length: number;
  readonly height: number;
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
  readonly runOut: number;
}

export interface BoreOperation extends OperationBase {
  readonly kind: 'bore';
  readonly at: Vec;
  readonly diameter: number;
  /** Intended floor; a through bore goes on into the board below. */
  readonly z: number;
  readonly through: boolean;
}

export interface DrillOperation extends OperationBase {
  readonly kind: 'drill';
  readonly at: Vec;
  readonly diameter: number;
  /** Floor of the full diameter; the tip goes deeper. */
  readonly z: number;
  readonly through: boolean;
}

export interface OutlineOperation extends OperationBase {
  readonly kind: 'outline';
  readonly ring: Ring;
  readonly keep: 'inside' | 'outside';
  /** The stock's bottom; the lowest pass goes on into the board below. */
  readonly z: number;
  readonly tabs: readonly Tab[];
}

export interface BeamCutOperation extends OperationBase {
  readonly kind: 'beam cut';
  readonly ring: Ring;
  readonly keep: 'inside' | 'outside';
}

export interface BeamLineOperation extends OperationBase {
  readonly kind: 'beam line';
  readonly points: readonly Vec[];
}

export type RouterOperation = SlotOperation | BoreOperation | DrillOperation | OutlineOperation;
export type BeamOperation = BeamCutOperation | BeamLineOperation;

/** How the blank lies on the machine. */
export interface Setup {
  readonly workZero: string;
  /** Part frame = program frame + this shift (x, y). */
  readonly shift: Vec;
  readonly stock: { readonly region: Region; readonly bottom: number; readonly top: Top };
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

export interface RouterJob extends JobBase {
  readonly kind: 'router';
  readonly machine: Router;
  readonly tool: Tool;
  readonly feeds: Feeds;
  /** How far below the stock's bottom a through cut goes. */
  readonly below: number;
  readonly operations: readonly RouterOperation[];
}

export interface BeamJob extends JobBase {
  readonly kind: 'laser';
  readonly machine: Laser;
  readonly kerf: number;
  readonly cut: { readonly s: number; readonly feed: number; readonly passes: number };
  readonly mark: { readonly s: number; readonly feed: number };
  readonly operations: readonly BeamOperation[];
}

export type Job = RouterJob | BeamJob;

/** A feature left to the bench, with the step that makes it. */
export interface HandStep {
  /** As `drill-side-markers`. */
  readonly step: string;
  readonly part: string;
  readonly features: readonly string[];
  readonly why: string;
}
