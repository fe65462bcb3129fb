import { type Area, distanceToArea, figuresOf } from '../area.ts';
import { common, grown, less, opened } from './area.ts';
import { type Spike, spikeWay } from './spikes.ts';

/** The places of a cutter's centre, in those that laps clear and the long corners round them. */
export interface Parted {
  readonly centres: Area;
  readonly base: Area;
  readonly spikes: readonly Spike[];
}

/** Roundings at which long corners are told from the rest, of the radius. */
const OPENINGS = [2.5, 1.7, 1.1];
/** Left on the walls of corners, of the radius: with the allowance still a narrow strip under the cutter's rim. */
const LEFT = 0.19;
/** A corner that reaches farther than this share of the rounding is sharper than 65 degrees. */
const SHARP = 0.85;

/** Parts centres at the widest rounding that leaves sharp corners and something besides. */
export function partCentres(centres: Area, radius: number, grain: number): Parted {
  for (const opening of OPENINGS.map((share) => share * radius)) {
    const kept = opened(centres, opening, grain);
    if (kept.length === 0) continue;
    const sharp = lostPieces(centres, kept).filter(
      (piece) =>
        piece.length === 1 && reachFrom(piece, kept) > SHARP * opening && contactsOf(piece, kept) === 1,
    );
    const found = sharp.flatMap((piece) => {
      const spike = spikeWay(piece[0] ?? [], less(centres, piece), {
        radius,
        grain,
        left: LEFT * radius,
        out: 'same wall',
      });
      return spike === null ? [] : [{ piece, spike }];
    });
    if (found.length === 0) continue;
    const base = less(
      centres,
      found.flatMap(({ piece }) => piece),
    );
    return { centres, base, spikes: found.map(({ spike }) => spike) };
  }
  return { centres, base: centres, spikes: [] };
}

/** Overlap by which a lost piece is joined on again. Millimetres. */
export const OVERLAP = 0.02;

/** What of an area another one inside it leaves, piece by piece. */
export function lostPieces(whole: Area, kept: Area): Area[] {
  return figuresOf(less(whole, grown(kept, OVERLAP / 2)));
}

/** At how many places a piece touches the rest. */
export function contactsOf(piece: Area, kept: Area): number {
  return figuresOf(common(grown(piece, OVERLAP), kept)).length;
}

/** How far a piece reaches from the rest. */
export function reachFrom(piece: Area, kept: Area): number {
  return Math.max(...piece.flat().map((p) => distanceToArea(kept, p)));
}
