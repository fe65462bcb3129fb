import type { Vec } from '../geometry/types.ts';
import type { SectionAt } from './along.ts';
import { facetAt } from './section.ts';
import type { Facet, FacetEdges, Section } from './types.ts';

/** Directions of the facets: one in the first stage, one on either side of it in the second (common practice, no source). */
export const FIRST = Math.PI / 4;
export const SECOND = [Math.PI / 8, (3 * Math.PI) / 8] as const;

/**
 * Where to draw the edges of the facets on a blank whose sides are flush with the board and whose back is planed to the depth.
 * Each facet touches the finished section and lies outside it everywhere, because the section is convex.
 */
export function facetEdges(x: number, section: Section): FacetEdges {
  const { halfWidth, depth } = section;
  const first = facetAt(section, FIRST);
  const [low, high] = [facetAt(section, SECOND[0]), facetAt(section, SECOND[1])];
  const sideEdge: Vec = [halfWidth, heightOnSide(first, halfWidth)];
  const backEdge: Vec = [placeOnBack(first, depth), -depth];
  return {
    x,
    halfWidth,
    depth,
    first: { onSide: -sideEdge[1], onBack: backEdge[0] },
    second: {
      onSide: -heightOnSide(low, halfWidth),
      fromSideEdge: between(crossing(low, first), sideEdge),
      fromBackEdge: between(crossing(high, first), backEdge),
      onBack: placeOnBack(high, depth),
    },
  };
}

/** The edges at every place asked for. */
export function facetTable(places: readonly number[], sectionAt: SectionAt): FacetEdges[] {
  return places.map((x) => facetEdges(x, sectionAt(x)));
}

/** z at which a facet meets the side of the blank: y cos a - z sin a = reach. */
function heightOnSide({ angle, reach }: Facet, halfWidth: number): number {
  return (halfWidth * Math.cos(angle) - reach) / Math.sin(angle);
}

/** y at which it meets the back. */
function placeOnBack({ angle, reach }: Facet, depth: number): number {
  return (reach - depth * Math.sin(angle)) / Math.cos(angle);
}

/** Where two facets meet. */
function crossing(a: Facet, b: Facet): Vec {
  const turn = Math.sin(b.angle - a.angle);
  return [
    (a.reach * Math.sin(b.angle) - b.reach * Math.sin(a.angle)) / turn,
    (a.reach * Math.cos(b.angle) - b.reach * Math.cos(a.angle)) / turn,
  ];
}

const between = (a: Vec, b: Vec): number => Math.hypot(a[0] - b[0], a[1] - b[1]);
