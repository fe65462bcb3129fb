/** Does the fret wire suit the slots in this wood? Whether it goes in at all is seen with the board. */
import { check, doubtful, HAIR, mm, when } from './check.ts';
import type { MaterialClass } from './types.ts';

/**
 * By how much the barbs should be wider than the slot, both sides together (common practice, no source): hard wood takes little,
 * because each barb wedges the board open and many of them bend it backward; soft wood needs more to hold.
 */
function usualBite(wood: MaterialClass): readonly [least: number, most: number] {
  switch (wood) {
    case 'tropical hardwood':
      return [0.05, 0.25];
    case 'hardwood':
      return [0.08, 0.3];
    case 'softwood':
    case 'plywood':
    case 'mdf':
    case 'acrylic':
    case 'card':
    case 'shell':
      return [0.1, 0.4];
  }
}

/** More play than this beside the tang leaves the fret to stand by its barbs alone (common practice, no source). */
const USUAL_PLAY = 0.2;

export const wireSuitsWood = check(
  ['frets', 'fretWire', 'fingerboard'],
  ({ frets, fretWire, fingerboard: { wood, materialClass } }) => {
    const bite = fretWire.barbWidth - frets.slotWidth;
    const play = frets.slotWidth - fretWire.tangWidth;
    if (bite <= 0 || play <= 0) return [];
    const [least, most] = usualBite(materialClass);
    const allowed = `slots of ${mm(fretWire.barbWidth - most)} to ${mm(fretWire.barbWidth - least)} for this wire in ${materialClass}`;
    return [
      ...when(bite < least - HAIR, () =>
        doubtful(
          'barbs-bite-little',
          'frets.slotWidth',
          `The barbs are ${mm(bite)} wider than the slot, both sides together: in ${wood} such frets lift.`,
          {
            found: mm(frets.slotWidth),
            allowed,
            remedy: 'A narrower slot or cutter, or glue under the frets.',
          },
        ),
      ),
      ...when(bite > most + HAIR, () =>
        doubtful(
          'barbs-bite-much',
          'frets.slotWidth',
          `The barbs are ${mm(bite)} wider than the slot, both sides together: in ${wood} so many wedges bend the board backward.`,
          { found: mm(frets.slotWidth), allowed, remedy: 'A wider slot or cutter, or another wire.' },
        ),
      ),
      ...when(play > USUAL_PLAY + HAIR, () =>
        doubtful(
          'tang-loose',
          'frets.slotWidth',
          `The slot is ${mm(play)} wider than the tang: the fret leans until its barbs hold.`,
          {
            found: mm(frets.slotWidth),
            allowed: `at most ${mm(fretWire.tangWidth + USUAL_PLAY)}`,
            remedy: 'A narrower slot or cutter, or another wire.',
          },
        ),
      ),
    ];
  },
);
