/** What holds the strings' far end, and where the neck meets the body. */
import type { Anchor } from './anchorTypes.ts';
import type { BridgeBody, BridgePlate } from './bridgeTypes.ts';
import type { SaddleTop } from './stringTypes.ts';
import type { Tenon } from './tenonTypes.ts';

/** Where the neck meets the body, and the body's top beyond it. */
export interface NeckJoint {
  /** At which the body begins. */
  readonly fret: number;
  /** Underside of the board above the rim's plane at the joint. */
  readonly boardAboveRim: number;
  /** From the top's plane to the cap. */
  readonly heelDepth: number;
  readonly heelWidthAtTop: number;
  readonly heelWidthAtCap: number;
  /** Of the top, seen lengthwise; null for a flat one. */
  readonly domeRadius: number | null;
  /** From the joint to the top's highest place. */
  readonly domeApex: number;
  /** How much lower than the straight run the frets are to be at the end of the board. */
  readonly fallAway: number;
  /** How neck and body are joined; null: it is not said. */
  readonly tenon: Tenon | null;
}

export interface Bridge {
  /** Its face above the bare top at the saddle line; null when it is not said. */
  readonly height: number | null;
  /** Between the centres of the outer strings at the saddle line. */
  readonly stringSpread: number;
  /** Clear space between the strings of one course. */
  readonly courseGap: number;
  /** A straightedge on the crests of the frets above the bridge's face at the saddle, unstrung. */
  readonly straightedge: number;
  /** How much of that the strings' pull takes away. */
  readonly drop: number;
  readonly saddle: SaddleTop;
  /** The bridge as wood; null: it is bought, or made elsewhere. */
  readonly body: BridgeBody | null;
  /** Null: made elsewhere. */
  readonly plate: BridgePlate | null;
  readonly anchor: Anchor;
}
