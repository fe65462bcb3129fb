import { size } from './lengthWords.ts';
import type { Sheet, SheetMarker } from './types.ts';

/** One line for each shape of face marker there is, and how round the corners of their pockets are. */
export function markerNotes(sheet: Sheet): string[] {
  const shapes = (['round', 'square', 'diamond'] as const).flatMap((shape) => {
    const markers = sheet.markers.filter((m) => m.shape === shape);
    const sizes = markers
      .sort((a, b) => b.size - a.size || acrossOf(b) - acrossOf(a))
      .map((marker) => sizeWords(sheet, marker));
    const counts = [...new Set(sizes)].map((each) => `${sizes.filter((s) => s === each).length} of ${each}`);
    return counts.length === 0 ? [] : [`Face markers, ${shape}: ${counts.join(', ')}.`];
  });
  return [...shapes, ...cornerNotes(sheet)];
}

function acrossOf(marker: SheetMarker): number {
  return marker.across ?? marker.size;
}

function sizeWords(sheet: Sheet, marker: SheetMarker): string {
  const along = size(sheet, marker.size);
  if (marker.shape !== 'diamond') return along;
  return `${along} along x ${size(sheet, acrossOf(marker))} across`;
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
