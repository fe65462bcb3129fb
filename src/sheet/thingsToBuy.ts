import type { Layout } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import { inchesFromMm } from '../units/convert.ts';
import { both, size } from './lengthWords.ts';
import type { BuyRow } from './types.ts';

/** What an instrument needs that no saw makes: fret wire, markers, strings, bridge pins. Amounts carry their unit. */
export function thingsToBuy(layout: Layout, instrument: Instrument): BuyRow[] {
  return [
    fretWire(layout, instrument),
    ...faceMarkers(layout, instrument),
    ...sideMarkers(layout, instrument),
    // Strings are sold by the thousandth of an inch, whatever the profile's unit.
    ...instrument.strings.map((s, i) => ({
      what: `string ${i + 1}, ${s.pitch}, ${s.make}`,
      amount: '1',
      note: both({ units: 'in' }, s.gauge),
    })),
    {
      what: 'bridge pins',
      amount: String(layout.strings.length),
      note: `${both(instrument, instrument.bridge.pins.seat)} at the bridge’s face; measure each before reaming`,
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
    amount: enough(instrument, fretWireLength(layout, trim)),
    note:
      `${layout.slots.length} pieces, ${size(instrument, trim)} trim each included; crown ${size(instrument, crownWidth)} wide and ` +
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
  const sizes = [...new Set(layout.faceMarkers.map((m) => m.diameter))].sort((a, b) => b - a);
  return sizes.map((diameter) => ({
    what: `round face markers, ${instrument.faceMarkers.material}`,
    amount: String(layout.faceMarkers.filter((m) => m.diameter === diameter).length),
    note: `${size(instrument, diameter)} in diameter, ${size(instrument, instrument.faceMarkers.thickness)} thick`,
  }));
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
