import type { Anchor, BridgeBody, Instrument, Tailpiece, Through, Tied } from '../../src/profile/types.ts';
import { bridged } from './bridges.ts';
import { parlour } from './instrument.ts';

export const tied: Tied = {
  kind: 'tied',
  spread: 57,
  behindSaddle: 11,
  row: 'square',
  hole: 2,
  below: 3,
  rise: 0,
  block: 12,
};

export const through: Through = {
  kind: 'through',
  spread: 57,
  behindSaddle: 14,
  row: 'saddle',
  drill: 2,
  through: 14.3,
};

export const tailpiece: Tailpiece = {
  kind: 'tailpiece',
  spread: 50,
  behindSaddle: 120,
  row: 'square',
  below: 6,
};

/** The parlour with its strings held otherwise. */
export const held = (anchor: Anchor, other: Partial<Instrument> = {}): Instrument => ({
  ...parlour,
  ...other,
  jigs: { ...parlour.jigs, pinTemplate: null },
  bridge: { ...parlour.bridge, anchor },
});

/** The same with the bridge as wood; jigs that it has no use for left out. */
export function bodied(anchor: Anchor, change: Partial<BridgeBody> = {}): Instrument {
  const whole = bridged(change);
  return {
    ...whole,
    bridge: { ...whole.bridge, anchor },
    jigs: { ...whole.jigs, pinTemplate: null, pinGauges: null, bridgeCaul: null },
  };
}
