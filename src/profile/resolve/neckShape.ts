/** The back of the neck, filled in. */

import type { GivenInstrument } from '../schema/instrument.ts';
import type { BACK_FORMS } from '../schema/neckShape.ts';
import type { NeckGauges, NeckShape, ShapeStation } from '../shapeTypes.ts';
import { type Fill, PRACTICE } from './fill.ts';

type GivenShape = NonNullable<GivenInstrument['neckShape']>;
type GivenStation = GivenShape['stations'][number];

/** What the letters stand for here; the trade uses them, and means a little else by them in every shop. */
const FORMS: Readonly<
  Record<(typeof BACK_FORMS)[number], { readonly shoulder: number; readonly back: number }>
> = {
  C: { shoulder: 0.55, back: 0.55 },
  D: { shoulder: 0.6, back: 0.75 },
  U: { shoulder: 0.82, back: 0.62 },
  V: { shoulder: 0.38, back: 0.2 },
};

/** The shape of the back; null where nothing is said of it. */
export function resolveNeckShape(given: Partial<GivenInstrument>, fill: Fill): NeckShape | null {
  const shape = given.neckShape;
  if (shape === undefined)
    return fill.shown('neckShape', undefined, null, 'none', 'the back of the neck is shaped by eye');
  return {
    stations: shape.stations.map((station, i) => resolveStation(station, `neckShape.stations.${i}`, fill)),
    from: fill.length('neckShape.from', shape.from, 25, `past the foot of the head (${PRACTICE})`),
    to: fill.shown(
      'neckShape.to',
      shape.to,
      null,
      "the heel's block, or the last fret",
      'the shaft goes so far',
    ),
    leastUnderRod: fill.length('neckShape.leastUnderRod', shape.leastUnderRod, 3, PRACTICE),
    gauges: resolveGauges(shape.gauges, fill),
  };
}

function resolveStation(station: GivenStation, at: string, fill: Fill): ShapeStation {
  const { fret, depth, points } = station;
  if (points !== undefined) return { fret, depth, shares: null, points };
  const form = fill.plain(`${at}.form`, station.form, 'C', 'a round back');
  const usual = FORMS[form];
  return {
    fret,
    depth,
    shares: { shoulder: station.shoulder ?? usual.shoulder, back: station.back ?? usual.back },
    points: [],
  };
}

function resolveGauges(gauges: GivenShape['gauges'], fill: Fill): NeckGauges | null {
  if (gauges === undefined)
    return fill.shown('neckShape.gauges', undefined, null, 'none', 'no gauges are asked for');
  const at = 'neckShape.gauges';
  return {
    materialClass: fill.plain(`${at}.materialClass`, gauges.materialClass, 'plywood', 'a usual sheet'),
    thickness: fill.length(`${at}.thickness`, gauges.thickness, 3, 'a usual sheet'),
    wall: fill.length(`${at}.wall`, gauges.wall, 10, 'stiff enough'),
  };
}
