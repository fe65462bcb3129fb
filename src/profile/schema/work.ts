/** The section `work` of a shop file. */
import { bridgeWork } from './bridgeParts.ts';
import { group, identifier } from './fields.ts';

/** Who does which work. */
export const workGroup = () => {
  const who = (what: string) => identifier(`Who does ${what}: a machine's id, or hand.`).optional();
  return group(
    {
      indexPins: who('the index-pin holes'),
      boardUnderside: who("pockets in the board's underside; only a router or hand can"),
      fretSlots: who('the fret slots'),
      nutSeat: who('the slot or ledge that the nut stands in'),
      faceMarkers: who('the pockets of the face markers'),
      inlays: who('the parts that go into the pockets of the face markers'),
      boardSurface: who("the board's radius; only a router or hand can"),
      bindingChannel: who('the channel for binding along the edges of the fingerboard'),
      boardOutline: who('the outline of the fingerboard'),
      sideMarkers: who("the side markers' holes, the board standing on edge; only a router or hand can"),
      radiusBlock: who('the plates of the radius block'),
      pinTemplate: who('the bridge-pin template'),
      slotTemplate: who('the slot template'),
      sideMarkerTemplate: who('the side-marker template'),
      neckBlank: who("the truss rod's channel in the neck's blank"),
      headstock: who("tuner holes and outline of the head's plate"),
      headVeneer: who("holes and outline of the head's veneer"),
      headTemplate: who('the template of the head'),
      neckGauges: who('the gauges for the back of the neck'),
      ...bridgeWork(who),
      neckBack: who('carving the back of the neck; only a router or hand can'),
      jointTemplates: who('the templates for mortise and tenon'),
    },
    'Who does which work.',
  );
};
