import type { Instrument } from '../profile/types.ts';

/** The drawings that a profile names, as seen from its folder, each once: of markers, of the board's end, of the head, of the bridge. */
export function drawingNames({
  faceMarkers,
  fingerboard,
  headstock,
  bridge,
}: Pick<Instrument, 'faceMarkers' | 'fingerboard' | 'headstock' | 'bridge'>): string[] {
  const { endArtwork } = fingerboard;
  const ofBridge = bridge.body?.artwork?.file;
  const names = [
    ...faceMarkers.artwork.map(({ file }) => file),
    ...(endArtwork === null ? [] : [endArtwork.file]),
    ...(headstock === null || headstock.outline.kind === 'sizes' ? [] : [headstock.outline.file]),
    ...(ofBridge === undefined ? [] : [ofBridge]),
  ];
  return [...new Set(names)];
}
