/** The few numbers of the fingerboard that checks and defaults need. Millimetres, from scale zero along the centreline. */
import { cylinderFall, equalCents, fretDistance, halfWidthOn, taperThrough } from '../units/boardFormulas.ts';
import type { Instrument } from './types.ts';

export type BoardSections = Pick<Instrument, 'scale' | 'frets' | 'fingerboard' | 'nut'>;

/** Distance of a fret's slot from scale zero, x = S (1 - 2^(-n/N)). Fret 0 is scale zero. */
export const slotX = ({ scale, frets }: Pick<Instrument, 'scale' | 'frets'>, fret: number): number =>
  fretDistance(scale.length, equalCents(fret, frets.perOctave));

/** Where the marker of a fret goes: halfway between its slot and the one before. */
export const spaceX = (sections: Pick<Instrument, 'scale' | 'frets'>, fret: number): number =>
  (slotX(sections, fret - 1) + slotX(sections, fret)) / 2;

/** x of the body end of the board. */
export const boardEnd = (sections: BoardSections): number =>
  slotX(sections, sections.frets.count) + sections.fingerboard.overhang;

/** Half the board's finished width at x, on the straight taper through its two given widths. */
export function halfWidthAt(sections: BoardSections, x: number): number {
  const { widthAtNut, widthAt } = sections.fingerboard;
  const taper = taperThrough(
    [sections.nut.setForward, widthAtNut],
    [slotX(sections, widthAt.fret), widthAt.width],
  );
  return halfWidthOn(taper, x);
}

/** How far a cylinder of the given radius has fallen at y from its crest: R - sqrt(R^2 - y^2); infinite past its side. */
export function fallAt(radius: number, y: number): number {
  return Math.abs(y) >= radius ? Number.POSITIVE_INFINITY : cylinderFall(radius, y);
}

/** Finished thickness of the board's edge at x. */
export const edgeThickness = (sections: BoardSections, x: number): number =>
  sections.fingerboard.thickness - fallAt(sections.fingerboard.radius, halfWidthAt(sections, x));
