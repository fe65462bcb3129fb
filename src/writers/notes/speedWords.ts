import { formatInches, formatNumber } from '../../units/format.ts';

/** A feed in both units: `400 mm/min (15.7 in/min)`. */
export function speedWords(mmPerMinute: number): string {
  return `${formatNumber(mmPerMinute, 0)} mm/min (${formatInches(mmPerMinute, 1)} in/min)`;
}
