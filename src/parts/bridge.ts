import { bounds } from '../geometry/ring.ts';
import { sagitta } from '../geometry/surface.ts';
import type { Vec } from '../geometry/types.ts';
import type { Layout, PlacedBridge } from '../layout/types.ts';
import type { BridgeBody, Instrument } from '../profile/types.ts';
import { degreesFromRadians } from '../units/convert.ts';
import { formatShort } from '../units/format.ts';
import type { PartSettings } from './settings.ts';
import { tieBlockLines, tieBlockWords } from './tieBlock.ts';
import type { Feature, HoleFeature, LineFeature, Part, SlotFeature } from './types.ts';

/** The bridge: string holes, index-pin holes, the saddle's slot and its outline; wings and underside are shaped by hand. */
export function makeBridge(
  instrument: Instrument,
  layout: Layout,
  body: BridgeBody,
  placed: PlacedBridge,
  settings: PartSettings,
): Part {
  const { x, y } = bounds(placed.outline);
  const { ends, sides } = settings.allowances;
  const { anchor } = instrument.bridge;
  const features: Feature[] = [
    ...indexHoles(body, placed),
    ...stringHoles(instrument, layout, body),
    saddleSlot(instrument, body, placed),
    ...(anchor.kind === 'tied' ? tieBlockLines(layout, anchor) : []),
    ...shapeLines(placed),
    {
      id: 'bridge-outline',
      work: 'bridgeOutline',
      kind: 'outline',
      ring: placed.outline,
      keep: 'inside',
    },
  ];
  return {
    id: 'bridge',
    title: 'Bridge',
    material: body.wood,
    materialClass: body.materialClass,
    blank: {
      box: { x: [x[0] - sides, x[1] + sides], y: [y[0] - ends, y[1] + ends] },
      thickness: body.thickness,
      top: { kind: 'plane', z: 0 },
    },
    features,
    datum: 'scale zero on the centreline, z = 0 on the bridge’s face',
    grain: 'y',
    byHand: {
      ...(anchor.kind === 'tied' ? { tieHoles: tieBlockWords(layout, anchor, body) } : {}),
      bridgeShape: shapeWords(instrument, body, x),
      saddleInPlace: inPlaceWords(instrument, layout, placed),
    },
  };
}

/** Straight holes from above, to be reamed or not; none where the strings are held otherwise. */
function stringHoles({ bridge: { anchor } }: Instrument, layout: Layout, body: BridgeBody): HoleFeature[] {
  if (anchor.kind === 'tied' || anchor.kind === 'tailpiece') return [];
  const name = anchor.kind === 'pins' ? 'bridge-pin' : 'string-hole';
  return layout.strings.map((s) => hole(`${name}-${s.position}`, s.pin, anchor.drill, body));
}

function indexHoles(body: BridgeBody, { indexPins }: PlacedBridge): HoleFeature[] {
  const { indexPin } = body;
  if (indexPin === null) return [];
  return indexPins.map((at, i) =>
    hole(`bridge-index-pin-${i === 0 ? 'bass' : 'treble'}`, at, indexPin, body),
  );
}

function hole(id: string, at: Vec, diameter: number, { thickness }: BridgeBody): HoleFeature {
  return { id, work: 'bridgeHoles', kind: 'hole', at, diameter, depth: thickness, through: true };
}

/** Its ends are round, as its cutter leaves them. */
function saddleSlot(
  { bridge: { saddle } }: Instrument,
  body: BridgeBody,
  { slot }: PlacedBridge,
): SlotFeature {
  return {
    id: 'saddle-slot',
    work: body.slotCut === 'before gluing' ? 'saddleSlot' : 'saddleInPlace',
    kind: 'slot',
    line: slot,
    width: saddle.width,
    floor: { kind: 'plane', z: -saddle.slotDepth },
    runOut: [0, 0],
  };
}

/** Drawn on the wood to shape it by. */
function shapeLines({ centreline, wings }: PlacedBridge): LineFeature[] {
  const line = (id: string, points: readonly Vec[], meaning: LineFeature['meaning']): LineFeature => ({
    id,
    work: 'bridgeShape',
    kind: 'line',
    points,
    meaning,
  });
  return [
    line('bridge-centreline', centreline, 'centreline'),
    ...wings.map((points, i) => line(`bridge-wing-${i === 0 ? 'bass' : 'treble'}`, points, 'wing line')),
  ];
}

const mm = (length: number): string => `${formatShort(length, 2)} mm`;

function shapeWords(
  { neckJoint }: Instrument,
  body: BridgeBody,
  [front, back]: readonly [number, number],
): string {
  const wings =
    body.artwork === null && body.wingLength > 0
      ? `thin each wing from ${mm(body.thickness)} at its line to ${mm(body.tipThickness)} at the tip; round over every upper edge that a hand meets`
      : 'round over every upper edge that a hand meets';
  const radius = neckJoint?.domeRadius ?? null;
  if (radius === null) return `mark the centreline, ${wings}; true the underside to the top`;
  const along = body.artwork === null ? body.length : back - front;
  return `mark the centreline, ${wings}; hollow the underside to the top’s dome of ${mm(radius)} radius: ${mm(sagitta(radius, along))} at the middle of its length, scraped on abrasive laid on the top itself`;
}

/** Where the slot goes that is cut on the instrument. */
function inPlaceWords({ bridge }: Instrument, layout: Layout, { slot: [from, to] }: PlacedBridge): string {
  const { saddle } = bridge;
  const [first, last] = layout.saddleLine;
  const span = Math.abs(last[1] - first[1]);
  const angle = span === 0 ? 0 : Math.atan(Math.abs(last[0] - first[0]) / span);
  const place = [first, last].map((p) => mm(p[0] - layout.nutFace));
  return (
    `string the instrument on trial over a saddle that only stands on the bridge, move it until the strings play in tune, and mark it; ` +
    `the profile expects its middle ${place[0]} from the nut face under the bass string and ${place[1]} under the treble one, ${formatShort(degreesFromRadians(angle), 2)} degrees off square; ` +
    `then, strings off and the bridge glued for a day or more, cut the slot along a fence fixed to the top: ` +
    `${mm(saddle.width)} wide, ${mm(saddle.slotDepth)} deep below the bridge’s face, ${mm(Math.hypot(to[0] - from[0], to[1] - from[1]))} long, ends round; in passes of 1 mm or less`
  );
}
