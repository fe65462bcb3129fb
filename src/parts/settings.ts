import type { Shop } from '../profile/types.ts';

/** What parts need to know of the shop: how much waste to leave around them. */
export interface PartSettings {
  readonly allowances: Shop['allowances'];
}
