/** From the names of frets that a file uses to their places among the frets. */
import type { Instrument } from '../types.ts';
import { placeOfFret } from './frets.ts';
import type { InstrumentSections } from './instrument.ts';

/** The same sections, every fret told by its place: on a board with half frets or gaps the two differ. */
export function placeFrets(sections: InstrumentSections): InstrumentSections {
  const { frets } = sections;
  if (frets === undefined) return sections;
  const place = (name: number): number => placeOfFret(frets, name);
  const placed = <T extends { readonly fret: number }>(item: T): T => ({ ...item, fret: place(item.fret) });
  const change = <T, R>(section: T | undefined, how: (there: T) => R): R | undefined =>
    section === undefined ? undefined : how(section);
  return {
    ...sections,
    faceMarkers: change(sections.faceMarkers, (markers) => ({
      ...markers,
      at: markers.at.map(placed),
      artwork: markers.artwork.map(placed),
    })),
    sideMarkers: change(sections.sideMarkers, (markers) => ({ ...markers, at: markers.at.map(placed) })),
    indexPins: change(sections.indexPins, (pins): Instrument['indexPins'] => ({
      ...pins,
      frets: [place(pins.frets[0]), place(pins.frets[1])],
    })),
    neckJoint: change(sections.neckJoint, (joint) => (joint === null ? null : placed(joint))),
    neckShape: change(sections.neckShape, (shape) =>
      shape === null ? null : { ...shape, stations: shape.stations.map(placed) },
    ),
    targets: change(sections.targets, (targets) => ({
      ...targets,
      actionFret: place(targets.actionFret),
      bowFret: place(targets.bowFret),
    })),
  };
}

/** The fingerboard's frets told by their places. */
export function placeBoardFrets(
  board: Instrument['fingerboard'],
  frets: Instrument['frets'] | undefined,
): Instrument['fingerboard'] {
  if (frets === undefined) return board;
  const place = (name: number | null): number | null => (name === null ? null : placeOfFret(frets, name));
  const { widthAt, radiusAlong } = board;
  return {
    ...board,
    widthAt: { ...widthAt, fret: place(widthAt.fret) },
    radiusAlong:
      radiusAlong.kind === 'cone' ? { ...radiusAlong, fret: place(radiusAlong.fret) } : radiusAlong,
  };
}
