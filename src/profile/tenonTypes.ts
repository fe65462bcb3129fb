/** How neck and body are joined. Depths are measured from the neck's face, the plane that the board is glued to. Millimetres, radians. */
import type { MaterialClass } from './types.ts';

/** Bolts through the body's block into inserts in the end of the tenon. */
export interface JointBolts {
  /** Depth of each bolt's centre. */
  readonly down: readonly number[];
  /** Diameter drilled through the block. */
  readonly hole: number;
  /** Diameter and depth drilled into the end of the tenon. */
  readonly insert: number;
  readonly insertDepth: number;
}

/** The wood of the body that the mortise is cut into. */
export interface JointBlock {
  /** Across, along the neck, and from the top's plane down. */
  readonly width: number;
  readonly length: number;
  readonly height: number;
  /** Least wood left beside, behind and below the mortise. */
  readonly leastWall: number;
}

/** The middle of the heel's face cut back, so that only its rim meets the body. */
export interface JointRelief {
  /** Width of the rim that stays. */
  readonly rim: number;
  readonly depth: number;
}

/** Plates that guide a hand-held router by a bush round its cutter. */
export interface JointTemplates {
  readonly materialClass: MaterialClass;
  readonly thickness: number;
  /** Outside diameter of the bush. */
  readonly bush: number;
  /** How far the bush stands down out of the router's base. */
  readonly collar: number;
  /** Diameter of the cutter; of a flared one at its widest. */
  readonly cutter: number;
  /** Diameter of the holes that guide a drill's point. */
  readonly pilot: number;
}

export interface Tenon {
  readonly build: 'bolted' | 'straight' | 'dovetail';
  /** Across at the end of the tenon: at the neck's face, and at its foot. The same but for a dovetail. */
  readonly width: number;
  readonly footWidth: number;
  /** How far it stands out past the joint. */
  readonly length: number;
  /** From the neck's face down. */
  readonly height: number;
  /** Between tenon and mortise at cheeks and foot. */
  readonly gap: number;
  /** Between the tenon's end and the mortise's floor. */
  readonly endGap: number;
  /** How far the cheeks of a dovetail lean, from the direction of the neck; 0: straight. */
  readonly flare: number;
  /** `rounded`: both by the cutter; `square`: the mortise's corners are cut square by hand. */
  readonly corners: 'rounded' | 'square';
  readonly block: JointBlock;
  readonly bolts: JointBolts | null;
  readonly relief: JointRelief | null;
  readonly templates: JointTemplates | null;
}
