import type { LengthUnit } from '../../profile/types.ts';
import { formatInches, formatMm } from '../../units/format.ts';
import { otherUnit, placeIn } from '../lengthWords.ts';
import type { PageBlock, PageCell, PageColumn, PageTable } from './types.ts';

/** Room for a pencil. */
export const TICK: PageCell = { leave: 'tick' };
export const VALUE: PageCell = { leave: 'value' };

export const heading = (text: string, level: 2 | 3 = 2): PageBlock => ({ kind: 'heading', text, level });
export const text = (words: string): PageBlock => ({ kind: 'text', text: words });
export const left = (head: string): PageColumn => ({ head, align: 'left' });
export const right = (head: string): PageColumn => ({ head, align: 'right' });

/** The last columns of everything that is measured: the figure found, and a box once it is right. */
const TO_FILL: readonly PageColumn[] = [left('measured'), left('right')];

/** A table whose every row ends in room for the measured figure and a box to tick. */
export function measuredTable(
  name: string,
  columns: readonly PageColumn[],
  rows: readonly (readonly PageCell[])[],
): PageTable {
  return {
    kind: 'table',
    name,
    columns: [...columns, ...TO_FILL],
    rows: rows.map((row) => [...row, VALUE, TICK]),
  };
}

/** Heads of a length's two columns, the profile's own unit first. */
export function lengthColumns({ units }: { readonly units: LengthUnit }, head: string): PageColumn[] {
  return [right(`${head}, ${units}`), right(otherUnit(units))];
}

/** A length's two cells: a place, or a `fine` width that feelers and files are chosen by. */
export function lengthCells(
  { units }: { readonly units: LengthUnit },
  mm: number,
  kind: 'place' | 'fine' = 'place',
): string[] {
  const cell = (unit: LengthUnit): string => {
    if (kind === 'place') return placeIn(unit, mm);
    return unit === 'mm' ? formatMm(mm, 3) : formatInches(mm, 4);
  };
  return [cell(units), cell(otherUnit(units))];
}
