import { type Form, formSize } from '../geometry/form.ts';
import type { Layout } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import { formatInches, formatMm, formatShort } from '../units/format.ts';
import type { BuyRow } from './types.ts';

/** What an instrument needs that no saw makes: fret wire, markers, strings, bridge pins. Amounts carry their unit. */
export function thingsToBuy(layout: Layout, instrument: Instrument): BuyRow[] {
  return [
    fretWire(layout, instrument),
    ...faceMarkers(layout, instrument),
    ...sideMarkers(layout, instrument),
    ...instrument.strings.map((s, i) => ({
      what: `string ${i + 1}, ${s.pitch}, ${s.make}`,
      amount: '1',
      note: `${formatInches(s.gauge, 3)} in (${formatMm(s.gauge, 2)} mm)`,
    })),
    {
      what: 'bridge pins',
      amount: String(layout.strings.length),
      note: `${formatMm(instrument.bridge.pins.seat, 2)} mm at the bridge’s face; measure each before reaming`,
    },
  ];
}

/** Length of wire for all slots: each slot's own length from edge to edge plus the trim. Millimetres. */
export function fretWireLength(layout: Layout, trim: number): number {
  return layout.slots.reduce((sum, { line: [bass, treble] }) => {
    return sum + Math.hypot(treble[0] - bass[0], treble[1] - bass[1]) + trim;
  }, 0);
}

function fretWire(layout: Layout, instrument: Instrument): BuyRow {
  const { trim, tangDepth, crownHeight, crownWidth } = instrument.fretWire;
  return {
    what: 'fret wire',
    amount: `${Math.ceil(fretWireLength(layout, trim))} mm`,
    note:
      `${layout.slots.length} pieces, ${formatShort(trim, 2)} mm trim each included; crown ${formatShort(crownWidth, 2)} x ` +
      `${formatShort(crownHeight, 2)} mm, tang ${formatShort(tangDepth, 2)} mm deep, for slots ${formatShort(instrument.frets.slotWidth, 3)} mm wide`,
  };
}

function faceMarkers(layout: Layout, instrument: Instrument): BuyRow[] {
  const { material, thickness, cornerRadius } = instrument.faceMarkers;
  const markers = layout.faceMarkers
    .map(({ form }) => form)
    .sort((a, b) => formSize(b).along - formSize(a).along || formSize(b).across - formSize(a).across);
  const sizes = markers.map((form) => `${form.shape}|${sizeWords(form, cornerRadius)}`);
  return [...new Set(sizes)].map((kind) => {
    const [shape, size] = kind.split('|');
    return {
      what: `${shape} face markers, ${material}`,
      amount: String(sizes.filter((s) => s === kind).length),
      note: `${size}, ${formatShort(thickness, 2)} mm thick`,
    };
  });
}

function sizeWords(form: Form, corner: number): string {
  const { along, across } = formSize(form);
  const size = `${formatShort(along, 2)} mm`;
  const corners = corner === 0 ? '' : `, corners rounded to ${formatShort(corner, 2)} mm`;
  switch (form.shape) {
    case 'round':
      return `${size} in diameter`;
    case 'square':
      return `${size} square${corners}`;
    case 'diamond':
      return `${size} x ${formatShort(across, 2)} mm from point to point${corners}`;
  }
}

function sideMarkers(layout: Layout, instrument: Instrument): BuyRow[] {
  const { material, diameter } = instrument.sideMarkers;
  const length = layout.sideMarkers.reduce((sum, m) => sum + m.depth + SIDE_MARKER_SPARE, 0);
  if (layout.sideMarkers.length === 0) return [];
  return [
    {
      what: `side marker rod, ${material}`,
      amount: `${Math.ceil(length)} mm`,
      note: `${formatShort(diameter, 2)} mm in diameter, for ${layout.sideMarkers.length} markers, ${SIDE_MARKER_SPARE} mm each to cut off`,
    },
  ];
}

/** Left standing out of each hole, to be cut flush. */
const SIDE_MARKER_SPARE = 3;
