/** The wood of the neck and its headstock. Lengths along the head are measured on its face from the back of the nut. */
import type { MaterialClass } from './types.ts';

/** The blank that the shaft, and unless it is scarfed the head too, come out of. */
export interface NeckBlank {
  readonly wood: string;
  readonly materialClass: MaterialClass;
  /** `scarf`: the head is a plate glued on a bevel of the shaft; `one piece`: both are sawn from one thick blank. */
  readonly build: 'scarf' | 'one piece';
  /** Of the blank, squared. */
  readonly thickness: number;
  readonly width: number;
  /** `stacked`: blocks of the blank's thickness glued under the shaft; `one piece`: the blank is thick enough. */
  readonly heel: 'stacked' | 'one piece';
  /** From the joint toward the nut, of the block that the heel is carved from. */
  readonly heelLength: number;
  /** Of shaft and heel past the joint: what the joint is cut from. */
  readonly pastJoint: number;
  /** Least wood under the truss rod. */
  readonly leastUnderRod: number;
}

/** Sizes of the head that is drawn when no file is named. */
export interface HeadShape {
  readonly kind: 'sizes';
  /** From the back of the nut to the tip, on the centreline. */
  readonly length: number;
  /** From the back of the nut to where the cheeks have swung out to their full width. */
  readonly shoulder: number;
  readonly widthAtShoulder: number;
  readonly widthAtTip: number;
  /** How far the middle of the tip stands beyond its corners; negative: hollow. */
  readonly tip: number;
  /** Radius of the tip's corners. */
  readonly corner: number;
}

export interface HeadFile {
  readonly kind: 'file';
  /** As seen from the folder of the instrument file; drawn at its true size, the nut's end to the right. */
  readonly file: string;
}

export interface Tuners {
  /** How many of the strings, from the bass-most, have their posts on the bass side. */
  readonly onBassSide: number;
  /** From the back of the nut to the first post of each side. */
  readonly first: number;
  /** Between neighbouring posts of one side, along their line. */
  readonly apart: number;
  /** From the centreline to the first post and to the last. */
  readonly fromCentre: number;
  readonly fromCentreLast: number;
  /** Diameter of the post where the string winds. */
  readonly post: number;
  /** Diameter drilled right through. */
  readonly hole: number;
  /** The wider hole for a press-fit bushing, from the face; null: none. */
  readonly bushing: { readonly diameter: number; readonly depth: number } | null;
  /** Friction pegs: included angle that the holes are reamed to, radians, narrow at the face; null: not reamed. */
  readonly reamerTaper: number | null;
  /** From the post's middle to where the knob begins, and the knob's width along the head; null: not said. */
  readonly knob: { readonly reach: number; readonly width: number } | null;
  /** Least wood between a hole and the head's edge. */
  readonly leastEdge: number;
}

export interface HeadVeneer {
  readonly wood: string;
  readonly materialClass: MaterialClass;
  readonly thickness: number;
}

export interface HeadTemplate {
  readonly materialClass: MaterialClass;
  readonly thickness: number;
  /** Diameter of the holes that guide a drill's point. */
  readonly pilot: number;
}

export interface Headstock {
  /** Between the head's face and the neck's plane, radians. */
  readonly angle: number;
  /** Of the wood, without the veneer. */
  readonly thickness: number;
  readonly outline: HeadShape | HeadFile;
  readonly veneer: HeadVeneer | null;
  readonly tuners: Tuners;
  readonly template: HeadTemplate | null;
}

/** A wider, mostly deeper place at an end of the truss rod's channel. */
export interface RodPocket {
  readonly length: number;
  readonly width: number;
  readonly depth: number;
}

/** What the rod's channel has besides its straight run; left out: not wanted. */
export interface RodEnds {
  /** At the end away from the adjuster. */
  readonly anchor?: RodPocket;
  readonly adjuster?: RodPocket & {
    readonly at: 'head' | 'body';
    /** How far its pocket goes on past the rod's end, for the key. */
    readonly access: number;
  };
  /** Thickness of the strip glued in over the rod. */
  readonly filler?: number;
}

/** Room over a rod, its anchor or its nut that stands above the neck's face. */
export interface RodClearance {
  readonly width: number;
  readonly depth: number;
  /** From the nut face to its near end. */
  readonly from: number;
  readonly length: number;
}
