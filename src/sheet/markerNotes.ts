import { size } from './lengthWords.ts';
import type { MarkerLoss, Sheet, SheetMarker } from './types.ts';

const SHAPES = ['round', 'square', 'diamond', 'ring', 'block', 'notched block', 'artwork'] as const;

/** One line for each shape of face marker there is, how round the corners of their pockets are, and what is left of them. */
export function markerNotes(sheet: Sheet): string[] {
  const shapes = SHAPES.flatMap((shape) => {
    const markers = sheet.markers.filter((m) => m.shape === shape);
    const sizes = markers
      .sort((a, b) => b.size - a.size || acrossOf(b) - acrossOf(a))
      .map((marker) => sizeWords(sheet, marker));
    const counts = [...new Set(sizes)].map((each) => `${sizes.filter((s) => s === each).length} of ${each}`);
    return counts.length === 0 ? [] : [`Face markers, ${shape}: ${counts.join(', ')}.`];
  });
  return [...shapes, ...cornerNotes(sheet), ...lossNotes(sheet)];
}

function acrossOf(marker: SheetMarker): number {
  return marker.across ?? marker.size;
}

function sizeWords(sheet: Sheet, marker: SheetMarker): string {
  const along = size(sheet, marker.size);
  switch (marker.shape) {
    case 'round':
    case 'square':
      return along;
    case 'ring':
      return `${along} round a middle of ${size(sheet, marker.inner ?? 0)}`;
    case 'diamond':
    case 'block':
    case 'notched block':
    case 'artwork':
      return `${along} along x ${size(sheet, acrossOf(marker))} across`;
  }
}

function cornerNotes(sheet: Sheet): string[] {
  if (sheet.markerCorners === null) return [];
  return sheet.markerCorners === 0
    ? [
        'Their pockets are meant with sharp corners. A cutter leaves them as round as itself: the feed notes say how round; clean them out with a chisel, or round the markers to match.',
      ]
    : [
        `The corners of their pockets are round, ${size(sheet, sheet.markerCorners)} in radius: round the markers’ corners to the same or a little more.`,
      ];
}

/** The marker of which least is left, for both ways of setting it. */
function lossNotes(sheet: Sheet): string[] {
  const thinnest = leastOf(sheet.markerLosses, (loss) => loss.left[1]);
  const deepest = leastOf(sheet.markerLosses, (loss) => -loss.lostIfFlush[1]);
  if (thinnest === undefined || deepest === undefined) return [];
  const tilt = thinnest.left[0] - thinnest.left[1];
  return [
    `Of a face marker’s thickness at least ${size(sheet, thinnest.left[1])} is left once board and marker are level, at fret ${thinnest.fret}, ${size(sheet, thinnest.from[1])} from the centreline; there the flat marker stands ${size(sheet, tilt)} higher on its outer side than on its inner one before it is levelled.`,
    `The pockets are measured from the finished board. A marker set flush with the flat blank instead would lose ${size(sheet, deepest.lostIfFlush[0])} to ${size(sheet, deepest.lostIfFlush[1])} when the board is radiused, at fret ${deepest.fret}.`,
  ];
}

function leastOf(losses: readonly MarkerLoss[], of: (loss: MarkerLoss) => number): MarkerLoss | undefined {
  return losses.toSorted((a, b) => of(a) - of(b))[0];
}
