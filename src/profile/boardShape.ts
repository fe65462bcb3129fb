/** The few numbers of the fingerboard that checks and defaults need. Millimetres, from scale zero along the centreline. */
import { shareAt } from '../spacing/cents.ts';
import { carrierAt, type SlotCarrier } from '../spacing/slant.ts';
import type { Instrument } from './types.ts';

export type BoardSections = Pick<Instrument, 'scale' | 'frets' | 'fingerboard' | 'nut'>;

/**
 * Where a fret's slot crosses the centreline, x = S (1 - 2^(-c/1200)), by its place among the frets. Fret 0 is scale zero.
 * Past the last fret semitones go on: a check that names a missing fret is not to fail on it.
 */
export const slotX = (sections: Pick<Instrument, 'scale' | 'frets'>, fret: number): number =>
  fretLine(sections, fret).at;

/** The line across the board on which a fret's slot lies. */
export const fretLine = ({ scale, frets }: Pick<Instrument, 'scale' | 'frets'>, fret: number): SlotCarrier =>
  carrierAt(scale, shareAt(centsOf(frets, fret)));

/** The names of an instrument's frets, for what is allowed: `1 to 19`, or all of them where a name is missing or halved. */
export const fretRange = ({ list }: Instrument['frets']): string =>
  list.every(({ label }, i) => label === String(i + 1))
    ? `1 to ${list.length}`
    : list.map(({ label }) => label).join(', ');

/** That a fret is not there. On a board with half frets or gaps a missing one has no number of its own to tell, nor has a half fret. */
export const noSuchFret = (frets: Instrument['frets'], place: number): string =>
  Number.isInteger(place) && fretRange(frets) === `1 to ${frets.count}`
    ? `There is no fret ${place}: the board has ${frets.count}.`
    : 'There is no fret of that name on this board.';

/** A fret's name by its place among the frets. */
export const fretName = ({ list }: Instrument['frets'], place: number): string =>
  list[place - 1]?.label ?? String(place);

function centsOf({ list }: Instrument['frets'], fret: number): number {
  if (fret === 0) return 0;
  return list[fret - 1]?.cents ?? (list.at(-1)?.cents ?? 0) + 100 * (fret - list.length);
}

/** Where the marker of a fret goes: halfway between its slot and the one before. */
export const spaceX = (sections: Pick<Instrument, 'scale' | 'frets'>, fret: number): number =>
  (slotX(sections, fret - 1) + slotX(sections, fret)) / 2;

/** x of the body end of the board. */
export const boardEnd = (sections: BoardSections): number =>
  slotX(sections, sections.frets.count) + sections.fingerboard.overhang;

/** x of the nut end of the board on the centreline: at the nut face, or behind what the nut stands in. */
export const boardStart = ({ nut, scale }: Pick<Instrument, 'nut' | 'scale'>): number =>
  nut.setForward - seatLength(nut) * Math.hypot(1, carrierAt(scale, 0).lean);

/** How far the board goes on behind the nut face, square to it. */
function seatLength({ seat, thickness }: Instrument['nut']): number {
  return seat === null ? 0 : thickness + seat.clearance + seat.boardBehind;
}

/** Where a second width or radius is given: at a fret, or at the body end. */
const stationX = (sections: BoardSections, fret: number | null): number =>
  fret === null ? boardEnd(sections) : slotX(sections, fret);

/** Half the board's finished width at x, on the straight taper through its two given widths. */
export function halfWidthAt(sections: BoardSections, x: number): number {
  const { widthAtNut, widthAt } = sections.fingerboard;
  const from = sections.nut.setForward;
  const slope = (widthAt.width - widthAtNut) / (stationX(sections, widthAt.fret) - from);
  return (widthAtNut + slope * (x - from)) / 2;
}

/** How far a cylinder of the given radius has fallen at y from its crest: R - sqrt(R^2 - y^2); infinite past its side. */
export function fallAt(radius: number, y: number): number {
  if (Math.abs(y) >= radius) return Number.POSITIVE_INFINITY;
  // The plain difference loses half its digits for a flat board; this is the same number without the loss.
  return (y * y) / (radius + Math.sqrt(radius * radius - y * y));
}

export type SurfaceSections = BoardSections & Pick<Instrument, 'bridge'>;

/**
 * Radius of the playing surface at x; infinite for a flat board. Of a matched board as if no string had a set-back, which changes
 * it by less than a hundredth.
 */
export function radiusAt(sections: SurfaceSections, x: number): number {
  const { radius, radiusAlong } = sections.fingerboard;
  const from = sections.nut.setForward;
  const along = (to: number): number => (x - from) / (to - from);
  switch (radiusAlong.kind) {
    case 'constant':
      return radius;
    case 'cone':
      return radius + (radiusAlong.radius - radius) * along(stationX(sections, radiusAlong.fret));
    case 'matched':
      return (
        radius *
        (1 + (sections.bridge.stringSpread / sections.nut.stringSpread - 1) * along(sections.scale.length))
      );
  }
}

/** How far the board has fallen from its crest at its edge, at x. */
export const edgeFall = (sections: SurfaceSections, x: number): number =>
  fallAt(radiusAt(sections, x), halfWidthAt(sections, x));

/** Finished thickness of the board's edge at x. */
export const edgeThickness = (sections: SurfaceSections, x: number): number =>
  sections.fingerboard.thickness - edgeFall(sections, x);
