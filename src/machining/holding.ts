import type { Ring } from '../geometry/types.ts';
import type { Finding } from '../report/finding.ts';
import { formatShort } from '../units/format.ts';
import type { Place } from './features.ts';
import { placeTabs } from './tabs.ts';
import type { Tab } from './types.ts';

/** What keeps parts in their blank when they are cut round. */
export interface Holding {
  /** Of each part; none where a skin holds them. */
  readonly tabs: readonly (readonly Tab[])[];
  /** Thickness of the skin; null where tabs hold them. */
  readonly skin: number | null;
}

/** A skin thicker than this share of the blank is no skin: what is left to cut by hand is most of the work. */
const THICKEST_SKIN = 0.5;

/**
 * Tabs or a skin, one or the other for all parts of a job, so that they are freed in one way: what the shop says, but a skin
 * where one of the parts has no room for tabs.
 */
export function holdingOf(rings: readonly Ring[], { part, shop }: Place): Holding | Finding {
  const { by, tabLength, tabHeight, skin } = shop.holding;
  const { thickness } = part.blank;
  const tabs = rings.map((ring) => placeTabs(ring, tabLength, tabHeight));
  const hasRoom = tabs.every((list) => list.length > 0);
  if (by === 'tabs' && hasRoom)
    return tabHeight < thickness ? { tabs, skin: null } : tabsTooHigh(part.title, tabHeight, thickness);
  return skin <= thickness * THICKEST_SKIN
    ? { tabs: [], skin }
    : skinTooThick(part.title, skin, thickness, by);
}

function tabsTooHigh(title: string, height: number, thickness: number): Finding {
  return {
    code: 'tabs-too-high',
    severity: 'error',
    where: { source: 'shop', path: 'holding.tabHeight' },
    text: `Tabs of ${mm(height)} are as high as the blank of ${title.toLowerCase()}, ${mm(thickness)}: nothing would be cut at them.`,
    allowed: `less than ${mm(thickness)}`,
    remedy: 'lower holding.tabHeight, or hold parts by a skin (holding: by: skin)',
  };
}

function skinTooThick(title: string, skin: number, thickness: number, by: 'tabs' | 'skin'): Finding {
  const why = by === 'tabs' ? ', which has no two straight sides long enough for tabs,' : '';
  return {
    code: 'skin-too-thick',
    severity: 'error',
    where: { source: 'shop', path: 'holding.skin' },
    text: `A skin of ${mm(skin)} is more than half the blank of ${title.toLowerCase()}${why}: it is ${mm(thickness)} thick.`,
    allowed: `at most ${mm(thickness * THICKEST_SKIN)}`,
    remedy:
      'make holding.skin thinner, shorten holding.tabLength so that tabs fit, or let a laser or the hand cut it',
  };
}

const mm = (length: number): string => `${formatShort(length, 3)} mm`;
