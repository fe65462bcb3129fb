/** Lengths in words and cells: in one unit, or in both with the sheet's own first. Places carry 2 decimals of a mm, 3 of an inch. */
import type { LengthUnit } from '../profile/types.ts';
import { inchesFromMm } from '../units/convert.ts';
import { formatInches, formatMm, formatShort } from '../units/format.ts';

interface WithUnits {
  readonly units: LengthUnit;
}

/** The unit that stands second. */
export function otherUnit(unit: LengthUnit): LengthUnit {
  return unit === 'mm' ? 'in' : 'mm';
}

/** A unit in a title. */
export function unitName(unit: LengthUnit): string {
  return unit === 'mm' ? 'millimetres' : 'inches';
}

/** A place as a cell. @example placeIn('in', 314) // '12.362' */
export function placeIn(unit: LengthUnit, mm: number): string {
  return unit === 'mm' ? formatMm(mm, 2) : formatInches(mm, 3);
}

/** A place in both units. @example both({ units: 'mm' }, 314) // '314.00 mm (12.362 in)' */
export function both({ units }: WithUnits, mm: number): string {
  const other = otherUnit(units);
  return `${placeIn(units, mm)} ${units} (${placeIn(other, mm)} ${other})`;
}

/** A size in both units, no zeros at the end. @example size({ units: 'in' }, 0.6, [3, 4]) // '0.0236 in (0.6 mm)' */
export function size(
  { units }: WithUnits,
  mm: number,
  decimals: readonly [mm: number, inch: number] = [2, 3],
): string {
  const metric = `${formatShort(mm, decimals[0])} mm`;
  const inch = `${formatShort(inchesFromMm(mm), decimals[1])} in`;
  return units === 'mm' ? `${metric} (${inch})` : `${inch} (${metric})`;
}
