/**
 * What a bench works to, plus or minus, millimetres (common practice, no source). Programs are proven to finer limits;
 * those stand in the intent files and never on a sheet.
 */
export const BENCH = {
  slotSawn: 0.1,
  slotMachined: 0.05,
  slotWidth: 0.02,
  /** Only ever deeper. */
  slotDepthOver: 0.3,
  marker: 0.2,
  bridgeLengthwise: 0.3,
  bridgeSkew: 0.3,
  bridgeCentring: 0.4,
} as const;
