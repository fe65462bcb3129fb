/** The few numbers of the fingerboard that checks and defaults need. Millimetres, from scale zero along the centreline. */
import type { Instrument } from './types.ts';

export type BoardSections = Pick<Instrument, 'scale' | 'frets' | 'fingerboard' | 'nut'>;

/** Distance of a fret's slot from scale zero, x = S (1 - 2^(-n/N)). Fret 0 is scale zero. */
export const slotX = ({ scale, frets }: Pick<Instrument, 'scale' | 'frets'>, fret: number): number =>
  scale.length * (1 - 2 ** (-fret / frets.perOctave));

/** Where the marker of a fret goes: halfway between its slot and the one before. */
export const spaceX = (sections: Pick<Instrument, 'scale' | 'frets'>, fret: number): number =>
  (slotX(sections, fret - 1) + slotX(sections, fret)) / 2;

/** x of the body end of the board. */
export const boardEnd = (sections: BoardSections): number =>
  slotX(sections, sections.frets.count) + sections.fingerboard.overhang;

/** Half the board's finished width at x, on the straight taper through its two given widths. */
export function halfWidthAt(sections: BoardSections, x: number): number {
  const { widthAtNut, widthAt } = sections.fingerboard;
  const from = sections.nut.setForward;
  const slope = (widthAt.width - widthAtNut) / (slotX(sections, widthAt.fret) - from);
  return (widthAtNut + slope * (x - from)) / 2;
}

/** How far a cylinder of the given radius has fallen at y from its crest: R - sqrt(R^2 - y^2); infinite past its side. */
export function fallAt(radius: number, y: number): number {
  if (Math.abs(y) >= radius) return Number.POSITIVE_INFINITY;
  // The plain difference loses half its digits for a flat board; this is the same number without the loss.
  return (y * y) / (radius + Math.sqrt(radius * radius - y * y));
}

/** Finished thickness of the board's edge at x. */
export const edgeThickness = (sections: BoardSections, x: number): number =>
  sections.fingerboard.thickness - fallAt(sections.fingerboard.radius, halfWidthAt(sections, x));
