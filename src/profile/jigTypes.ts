/** Jigs, once a profile has been read. Millimetres. */
import type { MaterialClass } from './types.ts';

/** A sanding block of curved plates on dowels, carrying a thin sole and abrasive. */
export interface RadiusBlock {
  /** Of the sheet the plates are cut from. */
  readonly materialClass: MaterialClass;
  readonly length: number;
  readonly width: number;
  readonly height: number;
  /** Of the sheet the plates are cut from. */
  readonly plateThickness: number;
  readonly plates: number;
  readonly dowelDiameter: number;
  /** Sole plus abrasive between the plates' curve and the board. */
  readonly padding: number;
  /** The one radius it is made for; null: the board's. */
  readonly radius: number | null;
}

/** A strip with a hole over each side marker, to be laid on the edge. */
export interface SideMarkerTemplate {
  /** Of the sheet it is cut from. */
  readonly materialClass: MaterialClass;
  readonly thickness: number;
  /** Of the strip: from its upper edge down past the board's underside, where a batten hooks under the board. */
  readonly width: number;
  readonly pilot: number;
}
