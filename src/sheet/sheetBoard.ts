import { boardHeight, boardRadius, errorAlong } from '../geometry/boardSurface.ts';
import type { Vec } from '../geometry/types.ts';
import type { Layout, StringLine } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import type { SheetBoard } from './types.ts';

/** The playing surface in numbers, with what the board is off under each string. Millimetres. */
export function sheetBoard(layout: Layout, instrument: Instrument): SheetBoard {
  const { board, nutFace, slotCuts, strings } = layout;
  const { surface, end, halfWidth } = board;
  const { fingerboard, frets } = instrument;
  const { slotFloor, slotsStopShort, binding } = fingerboard;
  const falls = slotCuts.flatMap(({ line }) => line.map(([x, y]) => -boardHeight(surface, x, y)));
  const taken = binding === null ? 0 : 2 * binding.width * Math.hypot(1, halfWidth.slope);
  const woodAt = (x: number): number => 2 * (halfWidth.at0 + halfWidth.slope * x) - taken;
  return {
    surface: nameOf(instrument),
    radii: surface.kind === 'flat' ? null : [boardRadius(surface, nutFace), boardRadius(surface, end)],
    offStrings: strings.map((string) => errorAlong(surface, string.nut, at(string, end))),
    slotFloor,
    deepestSlot: frets.slotDepth + (slotFloor === 'flat' ? Math.max(0, ...falls) : 0),
    slotsStopShort,
    nutSeat: seatOf(layout, instrument),
    binding:
      binding === null
        ? null
        : {
            width: binding.width,
            around: binding.around,
            channelDepth: binding.channelDepth,
            wood: [woodAt(nutFace), woodAt(end)],
          },
  };
}

function seatOf({ nutFace, board: { nutEnd } }: Layout, { nut }: Instrument): SheetBoard['nutSeat'] {
  if (nut.seat === null) return null;
  const { kind, depth, clearance } = nut.seat;
  const [[x0, y0], [x1, y1]] = nutEnd;
  const onMiddle = x0 - (y0 * (x1 - x0)) / (y1 - y0);
  return { kind, depth, length: nut.thickness + clearance, toBoardEnd: nutFace - onMiddle };
}

function nameOf({ fingerboard: { radius, radiusAlong } }: Instrument): SheetBoard['surface'] {
  if (!Number.isFinite(radius)) return 'flat';
  switch (radiusAlong.kind) {
    case 'constant':
      return 'cylinder';
    case 'cone':
      return 'cone';
    case 'matched':
      return 'matched cone';
  }
}

/** Point of a string over the board at x. */
function at({ nut, saddle }: StringLine, x: number): Vec {
  return [x, nut[1] + ((saddle[1] - nut[1]) * (x - nut[0])) / (saddle[0] - nut[0])];
}
