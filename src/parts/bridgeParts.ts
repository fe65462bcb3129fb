import type { Layout } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import { makeBridge } from './bridge.ts';
import { bridgeCaulDowels, makeBridgeCaul } from './bridgeCaul.ts';
import { makeBridgePlate } from './bridgePlate.ts';
import { makePinCoupon, makeStopCollars } from './pinGauges.ts';
import type { PartSettings } from './settings.ts';
import type { Part, Piece } from './types.ts';

/** The bridge as wood and what goes with it, as far as it is asked for; its template carries letters and is made with those that do. */
export function makeBridgeParts(instrument: Instrument, layout: Layout, settings: PartSettings): Part[] {
  const { anchor, body, plate } = instrument.bridge;
  const { bridgeCaul, pinGauges } = instrument.jigs;
  const parts: Part[] = [];
  if (body !== null && layout.bridge !== null)
    parts.push(makeBridge(instrument, layout, body, layout.bridge, settings));
  if (plate !== null) parts.push(makeBridgePlate(instrument, layout, plate, settings));
  if (bridgeCaul !== null) parts.push(makeBridgeCaul(bridgeCaul, settings));
  if (pinGauges !== null && anchor.kind === 'pins') {
    const wood = body ?? { wood: 'any hard wood', materialClass: 'hardwood' as const };
    parts.push(
      makeStopCollars(anchor, instrument.strings.length, pinGauges, settings),
      makePinCoupon(anchor, wood, pinGauges),
    );
  }
  return parts;
}

/** Pieces that no program shapes. */
export function bridgePieces({ jigs: { bridgeCaul } }: Instrument): Piece[] {
  return bridgeCaul === null ? [] : [bridgeCaulDowels(bridgeCaul)];
}
