/** The bridge as wood and its jigs, filled in. What is not named is not made. */
import type { Anchor } from '../anchorTypes.ts';
import type { BridgeBody, BridgeCaul, BridgePlate, BridgeTemplate, PinGauges } from '../bridgeTypes.ts';
import type { GivenInstrument } from '../schema/instrument.ts';
import { type Fill, PRACTICE } from './fill.ts';

type GivenBridge = GivenInstrument['bridge'];
type GivenJigs = NonNullable<GivenInstrument['jigs']>;

/** What the bridge's defaults lean on. */
export interface BridgeGround {
  readonly wood: string;
  readonly materialClass: BridgeBody['materialClass'];
  /** Saddle past the outer strings. */
  readonly saddleEnds: number;
  readonly anchor: Anchor;
  readonly isSlanted: boolean;
}

/** Of the saddle line from the front edge, where nothing is said. */
const FRONT = 9;
/** Wood behind a reamed hole. */
const BEHIND = 6;
/** Where the bridge's height is not said. */
const USUAL_THICKNESS = 9;
/** Wood between the end of the saddle's slot and the wing. */
const BESIDE_SLOT = 4;
/** Share of the width that the tips keep. */
const TIP_SHARE = 0.7;

/** The bridge as a piece of wood; null when it is bought. */
export function resolveBody(bridge: GivenBridge, ground: BridgeGround, fill: Fill): BridgeBody | null {
  const { body } = bridge;
  const path = 'bridge.body';
  if (body === undefined) return fill.shown(path, undefined, null, 'none', 'the bridge is bought');
  const at = (field: string): string => `${path}.${field}`;
  const front = fill.length(at('front'), body.front, FRONT, `room before the saddle (${PRACTICE})`);
  const width = fill.length(at('width'), body.width, ...usualWidth(front, ground.anchor));
  const wingLength = fill.length(at('wingLength'), body.wingLength, 36, PRACTICE);
  const spread = Math.max(
    bridge.stringSpread + 2 * ground.saddleEnds,
    ground.anchor.kind === 'tailpiece' ? 0 : ground.anchor.spread,
  );
  return {
    wood: fill.plain(at('wood'), body.wood, ground.wood, 'as the fingerboard'),
    materialClass: fill.plain(
      at('materialClass'),
      body.materialClass,
      ground.materialClass,
      'as the fingerboard',
    ),
    thickness: fill.length(
      at('thickness'),
      body.thickness,
      bridge.height ?? USUAL_THICKNESS,
      bridge.height === undefined ? PRACTICE : "the bridge's height",
    ),
    length: fill.length(
      at('length'),
      body.length,
      Math.ceil(spread + 2 * (BESIDE_SLOT + wingLength)),
      'saddle, wings and some wood between',
    ),
    width,
    front,
    wingLength,
    tipWidth: fill.length(at('tipWidth'), body.tipWidth, Math.round(width * TIP_SHARE), PRACTICE),
    tipThickness: fill.length(at('tipThickness'), body.tipThickness, 3, `light wings (${PRACTICE})`),
    cornerRadius: fill.length(at('cornerRadius'), body.cornerRadius, 3, 'any usual cutter gets round it'),
    stands: fill.plain(
      at('stands'),
      body.stands,
      ground.isSlanted ? 'saddle' : 'square',
      ground.isSlanted ? 'two scales slant the saddle' : 'square to the strings',
    ),
    slotCut: fill.plain(at('slotCut'), body.slotCut, 'before gluing', 'the saddle’s place is known'),
    indexPin: fill.shown(at('indexPin'), body.indexPin, null, 'none', 'the template holds it in its place'),
    artwork: body.artwork === undefined ? null : resolveArtwork(body.artwork, fill),
  };
}

/** Along the strings, with why. */
function usualWidth(front: number, anchor: Anchor): [width: number, why: string] {
  const behind = front + anchor.behindSaddle;
  switch (anchor.kind) {
    case 'pins':
      return [
        Math.ceil(behind + anchor.seat / 2 + BEHIND),
        `${BEHIND} mm of wood behind the pins (${PRACTICE})`,
      ];
    case 'through':
      return [
        Math.ceil(behind + anchor.drill / 2 + BEHIND),
        `${BEHIND} mm of wood behind the holes (${PRACTICE})`,
      ];
    case 'tied':
      return [Math.ceil(behind + anchor.block), 'as far as the back of the tie block'];
    case 'tailpiece':
      return [2 * front, 'as much behind the saddle as before it'];
  }
}

function resolveArtwork(
  artwork: NonNullable<NonNullable<GivenBridge['body']>['artwork']>,
  fill: Fill,
): BridgeBody['artwork'] {
  return {
    file: artwork.file,
    rotate: fill.angle('bridge.body.artwork.rotate', artwork.rotate, 0, 'as it is drawn'),
  };
}

/** The plate under the top; null when it is made elsewhere. */
export function resolvePlate(bridge: GivenBridge, ground: BridgeGround, fill: Fill): BridgePlate | null {
  const { plate } = bridge;
  const path = 'bridge.plate';
  if (plate === undefined) return fill.shown(path, undefined, null, 'none', 'the plate is made elsewhere');
  const at = (field: string): string => `${path}.${field}`;
  const front = fill.length(at('front'), plate.front, 12, `it reaches before the saddle (${PRACTICE})`);
  return {
    wood: fill.plain(at('wood'), plate.wood, 'maple', `hard enough for the strings’ balls (${PRACTICE})`),
    materialClass: fill.plain(at('materialClass'), plate.materialClass, 'hardwood', 'maple is one'),
    thickness: fill.length(at('thickness'), plate.thickness, 2.5, PRACTICE),
    length: fill.length(
      at('length'),
      plate.length,
      Math.ceil(ground.anchor.spread + 60),
      'well past the outer strings',
    ),
    width: fill.length(
      at('width'),
      plate.width,
      Math.ceil(front + ground.anchor.behindSaddle + 12),
      '12 mm behind the strings’ ends',
    ),
    front,
    cornerRadius: fill.length(at('cornerRadius'), plate.cornerRadius, 3, 'any usual cutter gets round it'),
  };
}

/** The location template, when it is wanted. */
export function resolveTemplate(given: NonNullable<GivenJigs['bridgeTemplate']>, fill: Fill): BridgeTemplate {
  const at = (field: string): string => `jigs.bridgeTemplate.${field}`;
  return {
    materialClass: fill.plain(at('materialClass'), given.materialClass, 'plywood', 'a usual sheet'),
    thickness: fill.length(at('thickness'), given.thickness, 3, 'a usual sheet'),
    margin: fill.length(at('margin'), given.margin, 25, 'room for clamps and for a rule'),
    play: fill.length(at('play'), given.play, 0.1, 'the bridge slides in without shaking'),
    from: fill.plain(at('from'), given.from, 'nut', 'measured from the nut after the neck is set'),
  };
}

/** The gluing caul, when it is wanted. */
export function resolveCaul(
  given: NonNullable<GivenJigs['bridgeCaul']>,
  { bridge, neckJoint }: Partial<GivenInstrument>,
  fill: Fill,
): BridgeCaul {
  const at = (field: string): string => `jigs.bridgeCaul.${field}`;
  const thick = bridge?.body?.thickness ?? bridge?.height ?? USUAL_THICKNESS;
  const under = Math.max(0, ((bridge?.pins ?? bridge?.through)?.through ?? thick) - thick);
  const dome = typeof neckJoint?.domeRadius === 'number' ? neckJoint.domeRadius : null;
  return {
    materialClass: fill.plain(at('materialClass'), given.materialClass, 'plywood', 'a usual sheet'),
    length: fill.length(at('length'), given.length, 40, 'about as wide as a bridge'),
    width: fill.length(at('width'), given.width, 120, `between the braces: measure (${PRACTICE})`),
    height: fill.length(at('height'), given.height, 24, 'stiff enough for clamps'),
    plateThickness: fill.length(at('plateThickness'), given.plateThickness, 3, 'a usual sheet'),
    plates: fill.plain(at('plates'), given.plates, 6, 'carries the plate evenly'),
    dowelDiameter: fill.length(at('dowelDiameter'), given.dowelDiameter, 6, 'a usual dowel'),
    radius:
      given.radius ??
      (dome === null ? null : fill.length(at('radius'), undefined, dome, 'that of neckJoint.domeRadius')),
    below: fill.length(at('below'), given.below, under, 'the wood that the holes go through less the bridge'),
  };
}

/** Stop collars and the trial holes, when they are wanted. */
export function resolveGauges(given: NonNullable<GivenJigs['pinGauges']>, fill: Fill): PinGauges {
  const at = (field: string): string => `jigs.pinGauges.${field}`;
  return {
    materialClass: fill.plain(at('materialClass'), given.materialClass, 'plywood', 'a usual sheet'),
    thickness: fill.length(at('thickness'), given.thickness, 3, 'a usual sheet'),
    collar: fill.length(at('collar'), given.collar, 20, 'easy to hold'),
    holes: fill.plain(at('holes'), given.holes, 4, 'a few trials'),
  };
}
