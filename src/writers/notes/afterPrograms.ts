import type { Instrument } from '../../profile/types.ts';
import { code } from './markdown.ts';
import type { WorkItem } from './workOrder.ts';

/**
 * What is left to the bench once the programs and named steps of the board are done, in the order that spares doing a thing twice
 * (common practice, no source).
 */
export function afterPrograms(instrument: Instrument, items: readonly WorkItem[]): string[] {
  const { faceMarkers, fingerboard, indexPins } = instrument;
  const isWorked = items.some((item) => item.kind === 'program' && item.works.includes('boardSurface'));
  const isFlat = !Number.isFinite(fingerboard.radius);
  const wasRadiused = isFlat || fingerboard.surfaceWhenSlotted === 'radiused';
  const named = items.some((item) => item.kind === 'hand' && item.works.includes('boardSurface'));
  const radius = `Radius the board${named ? ', if that is not done yet,' : ''} on the block, along the grain, until the gauge of the radius stands without light at the nut, the middle and the end. Before this the blank is slotted while its edges are still straight and square, and only then tapered.`;
  return [
    ...(faceMarkers.at.length === 0
      ? []
      : [
          'Glue the face markers in and let them dry, then level them with the board: markers before wire, because neither file nor block gets between frets.',
        ]),
    ...(isWorked || wasRadiused ? [] : [radius]),
    `Look at the depth of every slot at both edges and deepen with a saw and a stop what the ${isWorked || wasRadiused ? 'sanding' : 'radius'} has made too shallow; sweep the dust out.`,
    indexPins.place === 'none'
      ? 'Glue the board to the neck: mark its place first, and hold it there with cauls that cannot slide.'
      : 'Set the index pins with the board dry on the neck and try it, before any glue is spread; then glue it down over them, and take care that no glue runs into the truss rod or the slots.',
    'Fret: nip the wire a little long, press from the middle outward or from end to end, then level, crown and dress the ends. Measure the sheet’s check slots once more before the first wire goes in.',
    `String it and measure what ${code('sheet.txt')} asks for; the nut and the saddle come last.`,
  ];
}
