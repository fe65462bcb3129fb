/** A kind of work and who does it: a machine's id, or `hand`. */
export interface Work {
  readonly indexPins: string;
  /** Pockets in the underside of the board, its blank turned over on two pins. */
  readonly boardUnderside: string;
  readonly fretSlots: string;
  /** The slot or ledge that the nut stands in. */
  readonly nutSeat: string;
  readonly faceMarkers: string;
  /** The parts that go into the face markers' pockets. */
  readonly inlays: string;
  /** Working the flat blank to the board's radius. */
  readonly boardSurface: string;
  /** The channel along the board's edges that binding is let into. */
  readonly bindingChannel: string;
  readonly boardOutline: string;
  /** Holes in the edge, drilled with the board standing on its other edge. */
  readonly sideMarkers: string;
  readonly radiusBlock: string;
  readonly pinTemplate: string;
  readonly slotTemplate: string;
  readonly sideMarkerTemplate: string;
  /** The truss rod's channel in the neck's blank. */
  readonly neckBlank: string;
  /** Tuner holes and outline of the head's plate. */
  readonly headstock: string;
  readonly headVeneer: string;
  readonly headTemplate: string;
  readonly neckGauges: string;
  /** Carving the back of the neck, its blank lying on its face. */
  readonly neckBack: string;
  /** Pin holes and index-pin holes of the bridge. */
  readonly bridgeHoles: string;
  readonly saddleSlot: string;
  readonly bridgeOutline: string;
  readonly bridgePlate: string;
  readonly bridgeJigs: string;
  readonly jointTemplates: string;
}
