/**
 * The neck and its head. The head is unfolded: its face lies in the neck's plane, turned up about the line where the two meet, so
 * that x along the head is true length. Frame: that of the layout. Millimetres, radians.
 */
import type { Ring, Vec } from '../geometry/types.ts';

export interface TunerPost {
  /** `tuner-1`, by the string's position. */
  readonly id: string;
  readonly string: number;
  readonly side: 'bass' | 'treble';
  /** Place on its side, from 0 at the nut. */
  readonly place: number;
  readonly at: Vec;
}

/** A string from the nut to its post, seen square to the head's face. */
export interface StringRun {
  readonly string: number;
  readonly gauge: number;
  readonly from: Vec;
  /** Where it touches the post, on the side of the centreline. */
  readonly to: Vec;
  /** How far the string turns sideways at the nut, seen square to the neck; never negative. */
  readonly sideways: number;
}

export interface HeadLayout {
  readonly angle: number;
  /** From the break to the tip. */
  readonly length: number;
  /** Counter-clockwise; its nut end lies on the break. */
  readonly outline: Ring;
  /** The same with the tongue of wood that goes on toward the body: what is sawn round. */
  readonly plate: Ring;
  readonly posts: readonly TunerPost[];
  readonly runs: readonly StringRun[];
}

/** A plate glued on a bevel: where bevel and plate end. */
export interface Scarf {
  /** x of the seam in the neck's plane: the shaft's top begins here. */
  readonly seamTop: number;
  /** x at which the bevel leaves the shaft's back. */
  readonly seamBack: number;
  /** Length of the bevel along the seam. */
  readonly bevel: number;
  /** How much longer the plate is at its back than at its face. */
  readonly overlap: number;
}

/** The block, or the stack of blocks, that the heel is carved from. */
export interface HeelLayout {
  readonly x: readonly [from: number, to: number];
  /** From the neck's plane to the heel's cap. */
  readonly depth: number;
  /** Blocks under the shaft; 0 where the blank itself is deep enough. */
  readonly blocks: number;
}

export interface NeckLayout {
  /** x of the line where the head's face meets the neck's plane: the back of the nut. */
  readonly breakX: number;
  /** x where the body begins; null when it is not said. */
  readonly joint: number | null;
  /** x of the neck's end: past the joint, or the end of the board. */
  readonly end: number;
  readonly scarf: Scarf | null;
  /** Null where the joint is not described. */
  readonly heel: HeelLayout | null;
  readonly head: HeadLayout | null;
}

/** Part of the truss rod's channel, seen from above. */
export interface RodCut {
  /** `truss-rod-channel`, `truss-rod-anchor`, `truss-rod-adjuster`. */
  readonly id: string;
  readonly ring: Ring;
  /** Below the neck's plane. */
  readonly depth: number;
}
