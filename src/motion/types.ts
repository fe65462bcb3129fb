/**
 * Moves, in order, as a machine will make them.
 *
 * In: a job. Out: moves. Guaranteed: the first move lifts the tool, every cut is between a spindle (or beam) start and
 * stop, every rapid across is at clear height. Frame: program frame, millimetres, mm/min, full doubles (rounding
 * belongs to the writer).
 */
import type { Plane } from '../profile/types.ts';

export interface Point {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

export type Move =
  | { readonly kind: 'rapid'; readonly x?: number; readonly y?: number; readonly z?: number }
  | {
      readonly kind: 'feed';
      readonly x?: number;
      readonly y?: number;
      readonly z?: number;
      readonly feed: number;
    }
  | {
      readonly kind: 'arc';
      readonly plane: Plane;
      /** Seen from the positive end of the axis square to the plane, as G2. */
      readonly clockwise: boolean;
      /** A beam's arc has no z. */
      readonly to: { readonly x: number; readonly y: number; readonly z?: number };
      /** Absolute centre; the coordinate along the plane's axis is not used. */
      readonly centre: { readonly x: number; readonly y: number; readonly z?: number };
      readonly feed: number;
    }
  /** Full-diameter bottom is not known here: `z` is the tip's lowest point. `peck` null: one plunge. */
  | {
      readonly kind: 'drill';
      readonly x: number;
      readonly y: number;
      readonly z: number;
      readonly retract: number;
      readonly peck: number | null;
      readonly feed: number;
    }
  | { readonly kind: 'spindle'; readonly rpm: number; readonly dwell: number }
  | { readonly kind: 'spindle off' }
  /** Stands still; seconds. */
  | { readonly kind: 'dwell'; readonly seconds: number }
  /** `pierce`: seconds it stands still with the beam on. */
  | { readonly kind: 'beam'; readonly s: number; readonly pierce: number }
  | { readonly kind: 'beam off' }
  | { readonly kind: 'comment'; readonly text: string };
