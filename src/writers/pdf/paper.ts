/** Sheets of paper and rolls. Millimetres. */
export type Paper =
  | { readonly kind: 'sheet'; readonly name: string; readonly width: number; readonly height: number }
  /** As wide as the roll, as long as is needed. */
  | { readonly kind: 'roll'; readonly name: string; readonly width: number };

/** ISO 216 A4 and A3; ANSI/ASME Y14.1 size A (Letter) and B. */
export const PAPERS: readonly Paper[] = [
  { kind: 'sheet', name: 'a4', width: 210, height: 297 },
  { kind: 'sheet', name: 'a3', width: 297, height: 420 },
  { kind: 'sheet', name: 'letter', width: 215.9, height: 279.4 },
  { kind: 'sheet', name: 'ledger', width: 279.4, height: 431.8 },
];
