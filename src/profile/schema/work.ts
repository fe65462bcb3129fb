/** The section `work` of a shop file. */
import { group, identifier } from './fields.ts';

/** Who does which work. */
export const workGroup = () => {
  const who = (what: string) => identifier(`Who does ${what}: a machine's id, or hand.`).optional();
  return group(
    {
      indexPins: who('the index-pin holes'),
      fretSlots: who('the fret slots'),
      nutSeat: who('the slot or ledge that the nut stands in'),
      faceMarkers: who('the pockets of the face markers'),
      inlays: who('the parts that go into the pockets of the face markers'),
      boardSurface: who("the board's radius; only a router or hand can"),
      bindingChannel: who('the channel for binding along the edges of the fingerboard'),
      boardOutline: who('the outline of the fingerboard'),
      radiusBlock: who('the plates of the radius block'),
      pinTemplate: who('the bridge-pin template'),
      slotTemplate: who('the slot template'),
    },
    'Who does which work.',
  );
};
