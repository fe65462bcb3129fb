import type { Layout } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import { makeBridge } from './bridge.ts';
import type { PartSettings } from './settings.ts';
import type { Part } from './types.ts';

/** The bridge as wood and the jigs that go with it, as far as they are asked for. */
export function makeBridgeParts(instrument: Instrument, layout: Layout, settings: PartSettings): Part[] {
  const { body } = instrument.bridge;
  const { bridge } = layout;
  return body === null || bridge === null ? [] : [makeBridge(instrument, layout, body, bridge, settings)];
}
