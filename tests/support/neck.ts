import { layOut } from '../../src/layout/layOut.ts';
import type { NeckGround } from '../../src/layout/neck.ts';
import type { HeadLayout, Layout, NeckLayout } from '../../src/layout/types.ts';
import type { Headstock, Instrument, NeckBlank, Shop } from '../../src/profile/types.ts';
import { parlour, router, workshop } from './instrument.ts';

export const DEGREE = Math.PI / 180;

export const blank: NeckBlank = {
  wood: 'maple',
  materialClass: 'hardwood',
  build: 'scarf',
  thickness: 20,
  width: 80,
  heel: 'stacked',
  heelLength: 60,
  pastJoint: 60,
  leastUnderRod: 4,
};

export const headstock: Headstock = {
  angle: 15 * DEGREE,
  thickness: 14,
  outline: {
    kind: 'sizes',
    length: 170,
    shoulder: 30,
    widthAtShoulder: 72,
    widthAtTip: 62,
    tip: 5,
    corner: 8,
  },
  veneer: { wood: 'ebony', materialClass: 'tropical hardwood', thickness: 1.5 },
  tuners: {
    onBassSide: 3,
    first: 46,
    apart: 42,
    fromCentre: 22,
    fromCentreLast: 17,
    post: 6,
    hole: 8,
    bushing: { diameter: 10, depth: 7 },
    reamerTaper: null,
    knob: { reach: 18, width: 16 },
    leastEdge: 5,
  },
  template: { materialClass: 'plywood', thickness: 3, pilot: 2 },
};

/** The made-up parlour with a neck and a head of our own. */
export const necked: Instrument = {
  ...parlour,
  indexPins: { ...parlour.indexPins, frets: [2, 11] },
  trussRod: {
    width: 6.35,
    depth: 9.5,
    from: 0,
    length: 350,
    clearance: null,
    anchor: { length: 14, width: 9, depth: 10.5 },
    adjuster: { at: 'body', length: 36, width: 10, depth: 11, access: 26 },
    filler: 3,
  },
  neckJoint: {
    fret: 12,
    boardAboveRim: 1,
    heelDepth: 85,
    heelWidthAtTop: 56,
    heelWidthAtCap: 20,
    domeRadius: 8500,
    domeApex: 240,
    fallAway: 0,
    tenon: null,
  },
  neckBlank: blank,
  headstock,
};

/** A change of some fields of the head or its tuners. */
export function withHead(
  change: Partial<Headstock>,
  tuners: Partial<Headstock['tuners']> = {},
  wood: Partial<NeckBlank> = {},
): Instrument {
  const head = { ...headstock, ...change, tuners: { ...headstock.tuners, ...tuners } };
  return { ...necked, headstock: head, neckBlank: { ...blank, ...wood } };
}

/** The shop's router does all that is flat on the neck. */
export const neckShop: Shop = {
  ...workshop,
  work: { ...workshop.work, neckBlank: router.id, headstock: router.id, headVeneer: router.id },
};

export function layoutOf(instrument: Instrument = necked, drawn: NeckGround['drawn'] = null): Layout {
  const layout = layOut(instrument, [], { head: drawn });
  if (!layout.ok) throw new Error(JSON.stringify(layout.findings));
  return layout.value;
}

export function neckOf(instrument: Instrument = necked): NeckLayout & { readonly head: HeadLayout } {
  const { neck } = layoutOf(instrument);
  if (neck?.head == null) throw new Error('no neck or no head');
  return { ...neck, head: neck.head };
}
