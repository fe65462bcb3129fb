import { type Area, figuresOf } from '../area.ts';
import type { Region } from '../types.ts';
import { areaOf, common, grown, united } from './area.ts';

/**
 * Where the centre of a cutter may be that stays `inset` mm inside the walls of a region; of these, with `part`, only the
 * places from which the cutter reaches into the part.
 */
export function centresOf(whole: Region, part: Region | null, radius: number, inset: number): Area {
  const all = grown(areaOf(whole), -inset);
  return part === null ? all : common(all, grown(areaOf(part), radius));
}

/** The same for laps that leave an allowance on the walls; places too narrow to leave one are taken as they are. */
export function lapCentresOf(whole: Region, part: Region | null, radius: number, allowance: number): Area {
  const inner = centresOf(whole, part, radius, radius + allowance);
  const narrow = figuresOf(centresOf(whole, part, radius, radius)).filter(
    (figure) => common(figure, inner).length === 0,
  );
  return narrow.length === 0 ? inner : united(inner, narrow.flat());
}
