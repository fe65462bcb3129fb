import { planBridge } from '../bridge/plan.ts';
import type { Layout } from '../layout/types.ts';
import type { EndShapes } from '../parts/endPieces.ts';
import { makeParts } from '../parts/makeParts.ts';
import { settingsOf } from '../parts/settings.ts';
import type { Part } from '../parts/types.ts';
import type { Instrument, Shop } from '../profile/types.ts';
import type { BuyRow } from '../sheet/types.ts';
import { endHeightsOf } from '../stringing/plan.ts';
import { formatShort } from '../units/format.ts';

/** Every part and jig, nut and saddle with the heights that the strings ask for. */
export function makeAllParts(instrument: Instrument, layout: Layout, shop: Shop): Part[] {
  return makeParts(instrument, layout, settingsOf(shop), endShapes(instrument, layout));
}

/** Null where they are not asked for, or nothing can be told of their heights. */
function endShapes(instrument: Instrument, layout: Layout): EndShapes | null {
  if (instrument.jigs.nutAndSaddle === null) return null;
  const heights = endHeightsOf(instrument, layout);
  if (!heights.ok) return null;
  const work = planBridge(instrument, layout, heights.value);
  return work.ok ? work.value : null;
}

/** Blanks of nut and saddle, which are bought. */
export function blanksToBuy(parts: readonly Part[]): BuyRow[] {
  return parts
    .filter((part) => part.id === 'nut' || part.id === 'saddle')
    .map(({ title, material, blank: { box, thickness } }) => {
      const size = [box.x[1] - box.x[0], box.y[1] - box.y[0], thickness].map((v) => formatShort(v, 1));
      return {
        what: `${title.toLowerCase()} blank, ${material}`,
        amount: '1',
        note: `at least ${size.join(' x ')} mm, length, height and thickness; true its underside first`,
      };
    });
}
