import type { Feature, Part } from '../parts/types.ts';
import { formatShort } from '../units/format.ts';
import type { HandStep, RouterOperation } from './types.ts';

type Kind = Feature['work'] | 'lines';

const STEPS: Record<Kind, { readonly step: string; readonly why: string }> = {
  indexPins: { step: 'drill-index-pins', why: 'the shop file leaves the index pins to the hand' },
  boardUnderside: {
    step: 'cut-board-underside',
    why: 'the shop file leaves the pocket in the board’s underside to the hand: cut it before the board is glued, and try the rod in it',
  },
  fretSlots: { step: 'saw-fret-slots', why: 'the slots are sawn by hand' },
  nutSeat: { step: 'cut-nut-seat', why: 'the shop file leaves what the nut stands in to the hand' },
  faceMarkers: { step: 'bore-face-markers', why: 'the shop file leaves the face markers to the hand' },
  inlays: { step: 'cut-inlays', why: 'the shop file leaves the parts for the markers to the hand' },
  sideMarkers: {
    step: 'drill-side-markers',
    why: 'the holes go into the bass edge, square to it, once the board has its taper',
  },
  boardSurface: {
    step: 'radius-fingerboard',
    why: 'the shop file leaves the board’s radius to the hand',
  },
  bindingChannel: {
    step: 'rout-binding-channel',
    why: 'the shop file leaves the channel for the binding to the hand',
  },
  boardOutline: { step: 'saw-board-outline', why: 'the shop file leaves the outline to the hand' },
  sideMarkerTemplate: {
    step: 'make-side-marker-template',
    why: 'the shop file leaves the template to the hand',
  },
  slotTemplate: { step: 'make-slot-template', why: 'the shop file leaves the template to the hand' },
  pinTemplate: { step: 'make-pin-template', why: 'the shop file leaves the template to the hand' },
  radiusBlock: { step: 'make-radius-block', why: 'the shop file leaves the block to the hand' },
  neckBlank: { step: 'cut-rod-channel', why: 'the shop file leaves the neck’s blank to the hand' },
  headstock: { step: 'drill-and-saw-head', why: 'the shop file leaves the head to the hand' },
  headVeneer: { step: 'saw-head-veneer', why: 'the shop file leaves the veneer to the hand' },
  headTemplate: { step: 'make-head-template', why: 'the shop file leaves the template to the hand' },
  neckGauges: { step: 'make-neck-gauges', why: 'the shop file leaves the gauges to the hand' },
  neckBack: {
    step: 'carve-neck-back',
    why: 'the shop file leaves the back of the neck to the hand: flats first, then round, to its gauges',
  },
  bridgeHoles: {
    step: 'drill-bridge-holes',
    why: 'the shop file leaves the bridge’s holes to the hand: drill them straight, square to the underside',
  },
  saddleSlot: { step: 'cut-saddle-slot', why: 'the shop file leaves the saddle’s slot to the hand' },
  saddleInPlace: { step: 'cut-saddle-slot-in-place', why: 'the slot is cut after trial stringing' },
  bridgeOutline: { step: 'saw-bridge-outline', why: 'the shop file leaves the bridge’s outline to the hand' },
  tieHoles: {
    step: 'drill-tie-holes',
    why: 'level holes along the strings are drilled by hand, from the block’s front face',
  },
  bridgeShape: { step: 'shape-bridge', why: 'wings, edges and underside are shaped by hand' },
  bridgePlate: { step: 'make-bridge-plate', why: 'the shop file leaves the bridge plate to the hand' },
  bridgeJigs: { step: 'make-bridge-jig', why: 'the shop file leaves the bridge’s jigs to the hand' },
  pinCoupon: { step: 'drill-pin-coupon', why: 'trial holes are drilled as the bridge’s own are' },
  nutBlank: { step: 'make-nut', why: 'the nut is sawn, filed and polished by hand' },
  saddleBlank: { step: 'make-saddle', why: 'the saddle is sawn, filed and polished by hand' },
  jointTemplates: { step: 'make', why: 'the shop file leaves the templates to the hand' },
  lines: { step: 'mark-lines', why: 'the router has no vee cutter for lines; mark them with a knife' },
};

/** Work that several parts have: the step is named for each. */
const OF_EACH_PART: readonly Kind[] = ['lines', 'inlays', 'bridgeJigs', 'jointTemplates'];

/** The named step that makes features no program makes. */
export function handStepFor(kind: Kind, part: Part, features: readonly Feature[]): HandStep {
  const { step, why } = STEPS[kind];
  const said = kind === 'lines' ? undefined : part.byHand?.[kind];
  return {
    step: OF_EACH_PART.includes(kind) ? `${step}-${part.id}` : step,
    part: part.id,
    features: features.map((f) => f.id),
    why: kind === 'sideMarkers' ? `${why}${boundWords(part)}` : said === undefined ? why : `${why}: ${said}`,
  };
}

/** When a bound board's edge is drilled, in words. */
function boundWords({ edge }: Part): string {
  if (edge === undefined) return '';
  if (edge.bound) return ' and its binding is on and level: they go through the binding into the wood';
  return edge.strip === null
    ? ''
    : `; they go right through the binding strip of the bass side, ${formatShort(edge.strip, 2)} mm thick, laid flat before it is glued on`;
}

/** What a part says is done by hand once a kind of work is done. */
export function benchStepsOf(part: Part, work: Feature['work']): HandStep[] {
  const steps = (part.benchSteps ?? []).filter(({ follows }) => follows === work);
  return steps.map(({ step, follows, why }) => ({ step, part: part.id, features: [], follows, why }));
}

/** The step that frees what a skin holds; none where nothing is held by one. */
export function freeingSteps(
  part: Part,
  follows: Feature['work'],
  operations: readonly RouterOperation[],
): HandStep[] {
  const skins = operations.flatMap((o) => (o.kind === 'outline' && o.skin !== null ? [o.skin] : []));
  const [skin] = skins;
  if (skin === undefined) return [];
  const what = skins.length === 1 ? 'the part' : `the ${skins.length} parts`;
  const thick = `${formatShort(skin, 2)} mm`;
  return [
    {
      step: `free-${part.id}`,
      part: part.id,
      features: [],
      follows,
      why: `a skin of ${thick} holds ${what} in the blank: take the blank off the machine, run a knife along the bottom of the groove all round until the part comes free, then pare and sand what is left flush with the edge`,
    },
  ];
}
