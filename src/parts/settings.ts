import type { Shop } from '../profile/types.ts';

/** What parts need to know of the shop: how much waste to leave around them. */
export interface PartSettings {
  readonly allowances: Shop['allowances'];
  /** Who works the board to its radius; a machine makes it a feature of the part. Left out: the hand. */
  readonly boardSurface?: 'hand' | 'machine';
}

/** What a shop's file says of it. */
export function settingsOf(shop: Shop): PartSettings {
  const isMachine = shop.machines.some((machine) => machine.id === shop.work.boardSurface);
  return { allowances: shop.allowances, boardSurface: isMachine ? 'machine' : 'hand' };
}
