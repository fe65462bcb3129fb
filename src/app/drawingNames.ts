import type { Instrument } from '../profile/types.ts';

/** The drawings that a profile names, as seen from its folder, each once: of markers, of the board's end, of the head. */
export function drawingNames({
  faceMarkers,
  fingerboard,
  headstock,
}: Pick<Instrument, 'faceMarkers' | 'fingerboard' | 'headstock'>): string[] {
  const { endArtwork } = fingerboard;
  const names = [
    ...faceMarkers.artwork.map(({ file }) => file),
    ...(endArtwork === null ? [] : [endArtwork.file]),
    ...(headstock === null || headstock.outline.kind === 'sizes' ? [] : [headstock.outline.file]),
  ];
  return [...new Set(names)];
}
