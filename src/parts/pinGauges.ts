import { coneDepth, coneDiameter } from '../geometry/cone.ts';
import { circle, rectangle } from '../geometry/ring.ts';
import type { Box, Vec } from '../geometry/types.ts';
import type { BridgeBody, PinGauges, Pins } from '../profile/types.ts';
import { formatShort } from '../units/format.ts';
import { panelGrid } from './panelGrid.ts';
import type { PartSettings } from './settings.ts';
import type { HoleFeature, OutlineFeature, Part } from './types.ts';

/** The last stretch is reamed by trying the pin in its own hole (common practice, no source). */
const BY_TRYING = 2;
/** Between the middles of two trial holes, and from the outer ones to the coupon's ends. Millimetres. */
const APART = 18;
const COUPON_WIDTH = 30;

/** A ring that stops the reamer while the pin still has to be tried. */
export interface StopCollar {
  /** Of the pin at the bridge's face. */
  readonly seat: number;
  /** Diameter of the ring's hole. */
  readonly hole: number;
  /** Advance of the reamer after first contact at which the ring touches the bridge. */
  readonly stopsAt: number;
}

/**
 * One ring for each size of pin. Pushed up the reamer from its tip, a ring sits where its upper rim is as wide as the cone; its
 * lower face, `thickness` nearer to the tip, touches the bridge when the cone at the face is as wide as it is there:
 * hole = width at the face + 2 thickness tan(taper / 2).
 */
export function stopCollars(pins: Pins, count: number, thickness: number): StopCollar[] {
  const seats = Array.from({ length: count }, (_, i) => pins.seats[i] ?? pins.seat);
  return [...new Set(seats)]
    .sort((a, b) => a - b)
    .map((seat) => {
      const advance = coneDepth(seat, pins.drill, pins.reamerTaper);
      const left = Math.min(BY_TRYING, advance);
      return {
        seat,
        hole: coneDiameter(seat, left - thickness, pins.reamerTaper),
        stopsAt: advance - left,
      };
    });
}

/** The rings, on one panel. */
export function makeStopCollars(
  pins: Pins,
  strings: number,
  gauges: PinGauges,
  settings: PartSettings,
): Part {
  const collars = stopCollars(pins, strings, gauges.thickness);
  const { between } = settings.allowances;
  const grid = panelGrid(collars.length, [gauges.collar, gauges.collar], between);
  const mm = (length: number): string => `${formatShort(length, 3)} mm`;
  return {
    id: 'stop-collars',
    title: 'Stop collars for the reamer',
    material: gauges.materialClass,
    materialClass: gauges.materialClass,
    blank: {
      box: { x: [0, grid.width], y: [0, grid.height] },
      thickness: gauges.thickness,
      top: { kind: 'plane', z: 0 },
    },
    features: grid.corners.flatMap(([x, y], i) => {
      const middle: Vec = [x + gauges.collar / 2, y + gauges.collar / 2];
      return ringFeatures(middle, collars[i]?.hole ?? 0, gauges.collar, i + 1);
    }),
    datum: 'lower left corner of the panel, z = 0 on its top',
    use: [
      ...collars.map(
        ({ seat, hole, stopsAt }, i) =>
          `Collar ${i + 1}, for pins of ${mm(seat)} at the face: a hole of ${mm(hole)}. Pushed up the reamer until it sits, it touches the bridge ${formatShort(stopsAt, 1)} mm after the reamer first touched the hole all round; from there on try the pin.`,
      ),
      `A hole 0.05 mm too wide lets the reamer ${formatShort(coneDepth(0.05, 0, pins.reamerTaper), 2)} mm deeper: try each collar on the pin-fit coupon first, and pack its lower face, or file it, until it stops where it should. The measured pin has the last word.`,
    ],
  };
}

function ringFeatures(middle: Vec, hole: number, collar: number, number: number): OutlineFeature[] {
  const ring = (name: string, diameter: number, keep: OutlineFeature['keep']): OutlineFeature => ({
    id: `stop-collar-${number}-${name}`,
    work: 'bridgeJigs',
    kind: 'outline',
    ring: circle(middle, diameter / 2),
    keep,
  });
  return [ring('hole', hole, 'outside'), ring('outline', collar, 'inside')];
}

/** A scrap as thick as bridge, top and plate together, with trial holes drilled as the bridge's own are. */
export function makePinCoupon(
  pins: Pins,
  body: Pick<BridgeBody, 'wood' | 'materialClass'>,
  { holes }: PinGauges,
): Part {
  const box: Box = { x: [0, (holes + 1) * APART], y: [0, COUPON_WIDTH] };
  const trial = Array.from(
    { length: holes },
    (_, i): HoleFeature => ({
      id: `pin-coupon-hole-${i + 1}`,
      work: 'pinCoupon',
      kind: 'hole',
      at: [(i + 1) * APART, COUPON_WIDTH / 2],
      diameter: pins.drill,
      depth: pins.through,
      through: true,
    }),
  );
  const mm = (length: number): string => `${formatShort(length, 3)} mm`;
  return {
    id: 'pin-coupon',
    title: 'Pin-fit coupon',
    material: body.wood,
    materialClass: body.materialClass,
    blank: { box, thickness: pins.through, top: { kind: 'plane', z: 0 } },
    features: [
      ...trial,
      { id: 'pin-coupon-outline', work: 'pinCoupon', kind: 'outline', ring: rectangle(box), keep: 'inside' },
    ],
    datum: 'lower left corner of the scrap, z = 0 on its top',
    bought: true,
    byHand: {
      pinCoupon: `a scrap ${mm(pins.through)} thick, best of bridge, top and plate wood glued together, with holes of ${mm(pins.drill)} by the drill that the bridge gets; ream one, write down the advance at which the pin fits, and repeat it in the next before the bridge is touched`,
    },
  };
}
