import type { Shop } from '../profile/types.ts';

/** What parts need to know of the shop: how much waste to leave around them. */
export interface PartSettings {
  readonly allowances: Shop['allowances'];
  /** Who works the board to its radius; a machine makes it a feature of the part. Left out: the hand. */
  readonly boardSurface?: 'hand' | 'machine';
  /** Pins in the waste on which a machine has the blank turned over for its underside. Left out: that is left to the hand. */
  readonly turning?: Shop['turning'];
}

/** What a shop's file says of it. */
export function settingsOf(shop: Shop): PartSettings {
  const isMachine = (who: string): boolean => shop.machines.some((machine) => machine.id === who);
  return {
    allowances: shop.allowances,
    boardSurface: isMachine(shop.work.boardSurface) ? 'machine' : 'hand',
    ...(isMachine(shop.work.boardUnderside) ? { turning: shop.turning } : {}),
  };
}
