/** What checks ask of whatever holds the strings. */
import type { Anchor, Pins } from './types.ts';

/** How far an opening in the bridge's face reaches from the middle of a string's end toward the saddle. */
export function reachOf(anchor: Anchor): number {
  switch (anchor.kind) {
    case 'pins':
      return anchor.seat / 2;
    case 'through':
      return anchor.drill / 2;
    case 'tied':
    case 'tailpiece':
      return 0;
  }
}

/** The pins; null where the strings are held otherwise. */
export const pinsOf = ({ anchor }: { readonly anchor: Anchor }): Pins | null =>
  anchor.kind === 'pins' ? anchor : null;

/** Whether holes go straight down through bridge, top and plate. */
export const hasStringHoles = ({ kind }: Anchor): boolean => kind === 'pins' || kind === 'through';
