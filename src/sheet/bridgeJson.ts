import type { BridgeWork } from '../bridge/types.ts';

/** Everything worked out about the bridge, unrounded, for a script. */
export const bridgeJson = (work: BridgeWork): string => `${JSON.stringify(work, null, 1)}\n`;
