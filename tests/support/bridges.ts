import type { BridgeBody, Instrument } from '../../src/profile/types.ts';
import { parlour } from './instrument.ts';

const body: BridgeBody = {
  wood: 'ebony',
  materialClass: 'tropical hardwood',
  thickness: 9,
  length: 150,
  width: 34,
  front: 10,
  wingLength: 36,
  tipWidth: 22,
  tipThickness: 3,
  cornerRadius: 4,
  stands: 'square',
  slotCut: 'before gluing',
  indexPin: 1.6,
  artwork: null,
};

/** The parlour with its bridge, plate and all the bridge's jigs; the body changed as said. */
export function bridged(change: Partial<BridgeBody> = {}, other: Partial<Instrument> = {}): Instrument {
  const base = { ...parlour, ...other };
  return {
    ...base,
    bridge: {
      ...base.bridge,
      body: { ...body, ...change },
      plate: {
        wood: 'maple',
        materialClass: 'hardwood',
        thickness: 2.5,
        length: 120,
        width: 42,
        front: 12,
        cornerRadius: 3,
      },
    },
    jigs: {
      ...base.jigs,
      bridgeTemplate: { materialClass: 'plywood', thickness: 3, margin: 25, play: 0.1, from: 'nut' },
      bridgeCaul: {
        materialClass: 'plywood',
        length: 40,
        width: 110,
        height: 24,
        plateThickness: 3,
        plates: 6,
        dowelDiameter: 6,
        radius: 8534.4,
        below: 5,
      },
      pinGauges: { materialClass: 'plywood', thickness: 3, collar: 20, holes: 4 },
    },
  };
}
