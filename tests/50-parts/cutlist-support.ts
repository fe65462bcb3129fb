import type { CutPlan } from '../../src/cutlist/types.ts';
import type { Piece } from '../../src/parts/types.ts';
import type { Shop, StockItem } from '../../src/profile/types.ts';
import type { Outcome } from '../../src/report/finding.ts';

/** A sheet of plywood 600 x 400 x 3, with what the test changes. */
export function sheet(over: Partial<StockItem> = {}): StockItem {
  return {
    id: 'ply-3',
    kind: 'sheet',
    material: 'birch plywood',
    materialClass: 'plywood',
    length: 600,
    width: 400,
    thickness: 3,
    count: 1,
    price: 10,
    grain: 'none',
    ...over,
  };
}

/** A fingerboard blank's board 520 x 80 x 8, with what the test changes. */
export function board(over: Partial<StockItem> = {}): StockItem {
  return sheet({
    id: 'ebony-8',
    kind: 'board',
    material: 'ebony',
    materialClass: 'tropical hardwood',
    length: 520,
    width: 80,
    thickness: 8,
    grain: 'length',
    ...over,
  });
}

/** A dowel 1000 x 8, with what the test changes. */
export function stick(over: Partial<StockItem> = {}): StockItem {
  return sheet({
    id: 'dowel-8',
    kind: 'stick',
    material: 'beech',
    materialClass: 'hardwood',
    length: 1000,
    width: 8,
    thickness: 8,
    grain: 'length',
    ...over,
  });
}

/** A plywood piece 200 x 100 x 3 whose grain does not matter, with what the test changes. */
export function piece(over: Partial<Piece> = {}): Piece {
  return {
    id: 'plate',
    title: 'Plate',
    kind: 'sheet',
    material: null,
    materialClass: 'plywood',
    length: 200,
    width: 100,
    thickness: 3,
    count: 1,
    grain: false,
    ...over,
  };
}

/** A fingerboard blank 450 x 64 x 7 of ebony. */
export function blank(over: Partial<Piece> = {}): Piece {
  return piece({
    id: 'fingerboard',
    title: 'Fingerboard',
    kind: 'board',
    material: 'ebony',
    materialClass: 'tropical hardwood',
    length: 450,
    width: 64,
    thickness: 7,
    grain: true,
    ...over,
  });
}

/** A dowel 150 x 8. */
export function dowel(over: Partial<Piece> = {}): Piece {
  return piece({
    id: 'dowel',
    title: 'Dowel',
    kind: 'stick',
    materialClass: null,
    length: 150,
    width: 8,
    thickness: 8,
    grain: true,
    ...over,
  });
}

/** A shop without machines that has the given stock; kerf 2, trim 3. */
export function shopWith(stock: readonly StockItem[], allowances: Partial<Shop['allowances']> = {}): Shop {
  return {
    name: 'Saw bench',
    currency: 'EUR',
    machines: [],
    tools: [],
    stock,
    keepOuts: [],
    allowances: { ends: 10, sides: 4, between: 5, sawKerf: 2, trim: 3, ...allowances },
    holding: { by: 'tabs', tabLength: 6, tabHeight: 1, skin: 0.4 },
    turning: { pinDiameter: 2, pinDepth: 6 },
    surfacing: { finish: 'ball', cusp: 0.02, allowance: 0.3 },
    pockets: { direction: 'climb', allowance: null },
    bores: { direction: 'climb' },
    outlines: { direction: 'climb', allowance: null },
    scribing: { lineWidth: 0.2 },
    work: {
      indexPins: 'hand',
      boardUnderside: 'hand',
      fretSlots: 'hand',
      nutSeat: 'hand',
      faceMarkers: 'hand',
      inlays: 'hand',
      boardSurface: 'hand',
      bindingChannel: 'hand',
      boardOutline: 'hand',
      radiusBlock: 'hand',
      pinTemplate: 'hand',
      slotTemplate: 'hand',
      sideMarkers: 'hand',
      sideMarkerTemplate: 'hand',
      neckBlank: 'hand',
      headstock: 'hand',
      headVeneer: 'hand',
      neckGauges: 'hand',
      neckBack: 'hand',
      jointTemplates: 'hand',
      headTemplate: 'hand',
      bridgeHoles: 'hand',
      saddleSlot: 'hand',
      bridgeOutline: 'hand',
      bridgePlate: 'hand',
      bridgeJigs: 'hand',
    },
  };
}

/** The value of an outcome that has one. */
export function planOf(outcome: Outcome<CutPlan>): CutPlan {
  if (!outcome.ok) throw new Error(`no plan: ${outcome.findings.map((f) => f.text).join('; ')}`);
  return outcome.value;
}
