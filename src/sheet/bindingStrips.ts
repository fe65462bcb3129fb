import { bounds, perimeter } from '../geometry/ring.ts';
import { distance } from '../geometry/vec.ts';
import type { Layout } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import { inchesFromMm } from '../units/convert.ts';
import { size } from './lengthWords.ts';
import type { BuyRow } from './types.ts';

/** Strips for the edges of a board with binding, each with its trim. Amounts are pieces; a piece's length is in its note. */
export function bindingStrips({ board }: Layout, instrument: Instrument): BuyRow[] {
  const { binding, thickness } = instrument.fingerboard;
  if (binding === null) return [];
  const { x, y } = bounds(board.outline);
  const side = (x[1] - x[0]) * Math.hypot(1, board.halfWidth.slope);
  const round = perimeter(board.outline) - distance(...board.nutEnd) - 2 * side;
  const end = Math.max(round, y[1] - y[0]);
  const row = (what: string, count: number, length: number): BuyRow => ({
    what: `binding, ${what}, ${binding.material}`,
    amount: String(count),
    note: `${upTo(instrument, length + binding.trim)} long, ${size(instrument, binding.width)} wide seen from above, ${size(instrument, binding.channelDepth ?? thickness)} high or a little more, to be levelled with the board`,
  });
  const sides = row('sides', 2, side);
  return binding.around === 'sides' ? [sides] : [sides, row('body end', 1, end)];
}

/** A length in whole millimetres or tenths of an inch, never too short. */
function upTo({ units }: Pick<Instrument, 'units'>, mm: number): string {
  const [metric, inch] = [`${Math.ceil(mm)} mm`, `${(Math.ceil(inchesFromMm(mm) * 10) / 10).toFixed(1)} in`];
  return units === 'mm' ? `${metric} (${inch})` : `${inch} (${metric})`;
}
