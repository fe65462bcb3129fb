import { type Form, formSize } from '../geometry/form.ts';
import type { Layout } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import { inchesFromMm } from '../units/convert.ts';
import { planWire } from '../wire/planWire.ts';
import { bindingStrips } from './bindingStrips.ts';
import { both, size } from './lengthWords.ts';
import type { BuyRow } from './types.ts';

/** What an instrument needs that no saw makes: fret wire, markers, strings, bridge pins. Amounts carry their unit. */
export function thingsToBuy(layout: Layout, instrument: Instrument): BuyRow[] {
  return [
    fretWire(layout, instrument),
    ...bindingStrips(layout, instrument),
    ...faceMarkers(layout, instrument),
    ...sideMarkers(layout, instrument),
    ...tunersToBuy(layout, instrument),
    // Strings are sold by the thousandth of an inch, whatever the profile's unit.
    ...instrument.strings.map((s, i) => ({
      what: `string ${i + 1}, ${s.pitch}, ${s.make}`,
      amount: '1',
      note: both({ units: 'in' }, s.gauge),
    })),
    ...stringHolders(instrument),
  ];
}

function stringHolders(instrument: Instrument): BuyRow[] {
  const { anchor } = instrument.bridge;
  switch (anchor.kind) {
    case 'pins':
      return [
        {
          what: 'bridge pins',
          amount: String(instrument.strings.length),
          note: `${both(instrument, anchor.seat)} at the bridge’s face; measure each before reaming`,
        },
      ];
    case 'tailpiece':
      return [
        {
          what: 'tailpiece',
          amount: '1',
          note: `for ${instrument.strings.length} strings, ${size(instrument, anchor.spread)} between the outer ones`,
        },
      ];
    case 'tied':
    case 'through':
      return [];
  }
}

function tunersToBuy({ neck }: Layout, instrument: Instrument): BuyRow[] {
  const { headstock } = instrument;
  if (headstock === null || neck?.head == null) return [];
  const { hole, bushing, post } = headstock.tuners;
  const onBass = neck.head.posts.filter(({ side }) => side === 'bass').length;
  const bushed = bushing === null ? '' : `, bushings ${size(instrument, bushing.diameter)}`;
  return [
    {
      what: 'tuners',
      amount: String(neck.head.posts.length),
      note: `${onBass} on the bass side, ${neck.head.posts.length - onBass} on the treble side; posts ${size(instrument, post)}, holes ${size(instrument, hole)}${bushed}: measure them before the head is drilled`,
    },
  ];
}

function fretWire(layout: Layout, instrument: Instrument): BuyRow {
  const { trim, tangDepth, crownHeight, crownWidth } = instrument.fretWire;
  const { total, sticks } = planWire(layout, instrument);
  const length = enough(instrument, total);
  return {
    what: 'fret wire',
    amount: sticks === null ? length : `${sticks.sticks.length} sticks of ${size(instrument, sticks.length)}`,
    note:
      `${sticks === null ? '' : `${length} altogether; `}${layout.slots.length} pieces, ${size(instrument, trim)} trim each included; crown ${size(instrument, crownWidth)} wide and ` +
      `${size(instrument, crownHeight)} high, tang ${size(instrument, tangDepth)} deep, for slots ${size(instrument, instrument.frets.slotWidth, [3, 4])} wide`,
  };
}

/** A length to buy, up to the next whole millimetre or tenth of an inch, the profile's own unit first. */
function enough({ units }: Instrument, mm: number): string {
  const metric = `${Math.ceil(mm)} mm`;
  const inch = `${(Math.ceil(inchesFromMm(mm) * 10) / 10).toFixed(1)} in`;
  return units === 'mm' ? `${metric} (${inch})` : `${inch} (${metric})`;
}

function faceMarkers(layout: Layout, instrument: Instrument): BuyRow[] {
  const { material, thickness, cornerRadius, inlays } = instrument.faceMarkers;
  // Cut from pieces that are bought instead.
  if (inlays !== null) return [];
  const markers = layout.faceMarkers
    .map(({ form }) => form)
    .sort((a, b) => formSize(b).along - formSize(a).along || formSize(b).across - formSize(a).across);
  const sizes = markers.map((form) => `${form.shape}|${sizeWords(instrument, form, cornerRadius)}`);
  return [...new Set(sizes)].map((kind) => {
    const [shape, words] = kind.split('|');
    return {
      what: `${shape} face markers, ${material}`,
      amount: String(sizes.filter((s) => s === kind).length),
      note: `${words}, ${size(instrument, thickness)} thick`,
    };
  });
}

function sizeWords(instrument: Instrument, form: Form, corner: number): string {
  const { along, across } = formSize(form);
  const length = size(instrument, along);
  const corners = corner === 0 ? '' : `, corners rounded to ${size(instrument, corner)}`;
  switch (form.shape) {
    case 'round':
      return `${length} in diameter`;
    case 'square':
      return `${length} square${corners}`;
    case 'diamond':
      return `${length} x ${size(instrument, across)} from point to point${corners}`;
    case 'ring':
      return `${length} in diameter, ${size(instrument, form.inner)} inside`;
    case 'block':
      return `${size(instrument, form.length)} x ${size(instrument, form.width)} through the middle, tapered with the board${corners}`;
    case 'notched block':
      return `${size(instrument, form.length)} x ${size(instrument, form.width)} through the middle, tapered with the board, a V ${size(instrument, form.notchDepth)} deep and ${size(instrument, form.notchWidth)} wide in both ends${corners}`;
    case 'artwork':
      return `${length} x ${size(instrument, across)} over all, own drawing${corners}`;
  }
}

function sideMarkers(layout: Layout, instrument: Instrument): BuyRow[] {
  const { material, diameter } = instrument.sideMarkers;
  const length = layout.sideMarkers.reduce((sum, m) => sum + m.depth + SIDE_MARKER_SPARE, 0);
  if (layout.sideMarkers.length === 0) return [];
  return [
    {
      what: `side marker rod, ${material}`,
      amount: enough(instrument, length),
      note: `${size(instrument, diameter)} in diameter, for ${layout.sideMarkers.length} markers, ${size(instrument, SIDE_MARKER_SPARE)} each to cut off`,
    },
  ];
}

/** Left standing out of each hole, to be cut flush. */
const SIDE_MARKER_SPARE = 3;
