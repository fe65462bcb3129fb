import { fitSection } from '../carving/fitSection.ts';
import type { Shaft, ShaftStation } from '../carving/types.ts';
import type { Instrument } from '../profile/types.ts';
import type { BoardTaper } from './board.ts';
import type { FretSlot, NeckLayout } from './types.ts';

interface Ground {
  readonly instrument: Instrument;
  readonly taper: BoardTaper;
  readonly slots: readonly FretSlot[];
  readonly nutFace: number;
  readonly neck: NeckLayout | null;
}

/** The back of the neck along its shaft; null where the profile does not describe it. */
export function layOutShaft({ instrument, taper, slots, nutFace, neck }: Ground): Shaft | null {
  const { neckShape: shape, fingerboard } = instrument;
  if (shape === null) return null;
  const stations = shape.stations.map(({ fret, depth, shares, points }): ShaftStation => {
    const x = slots.find((slot) => slot.fret === fret)?.x;
    if (x === undefined) throw new Error(`a station at fret ${fret}, which has no slot`);
    const size = { halfWidth: taper.at0 + taper.slope * x, depth: depth - fingerboard.thickness };
    const label = instrument.frets.list[fret - 1]?.label ?? String(fret);
    if (shares !== null) return { label, x, ...size, ...shares, fitted: null };
    const { worst, ...fitted } = fitSection(size, points);
    return { label, x, ...size, ...fitted, fitted: worst };
  });
  const heel = neck?.heel?.x[0];
  const last = slots.at(-1)?.x ?? instrument.scale.length / 2;
  return {
    x: [nutFace + shape.from, shape.to === null ? (heel ?? last) : nutFace + shape.to],
    stations,
    halfWidth: taper,
  };
}
