import { sectionsOn } from '../carving/along.ts';
import { facetEdges } from '../carving/facets.ts';
import type { Layout } from '../layout/types.ts';
import type { SheetCarving } from './types.ts';

/** Where facets are drawn on the neck's blank, at both ends of the shaft and at every fret between; null for a back shaped by eye. */
export function sheetCarving({ shaft, slots, nutFace }: Layout): SheetCarving | null {
  if (shaft === null) return null;
  const [from, to] = shaft.x;
  const sectionAt = sectionsOn(shaft);
  const names = slots
    .filter(({ x, fret }, i) => fret > 0 && x > from && x < to && slots[i - 1]?.fret !== fret)
    .map(({ label, x }) => ({ what: `fret ${label}`, x }));
  const places = [{ what: 'beginning', x: from }, ...names, { what: 'heel', x: to }];
  return {
    places: places.map(({ what, x }) => ({
      what,
      fromNutFace: x - nutFace,
      edges: facetEdges(x, sectionAt(x)),
    })),
    gauges: shaft.stations.map(({ label, x, depth, fitted }) => ({
      label,
      fromNutFace: x - nutFace,
      depth,
      fitted,
    })),
  };
}
