/**
 * A text as it may stand between tags or in a quoted attribute of XML or HTML: never markup.
 * Characters that no such document may hold become a space.
 */
export function escapeXml(text: string): string {
  return text
    .replace(/[\p{Cc}\p{Cs}\ufffe\uffff]/gu, (c) => (c === '\n' || c === '\t' ? c : ' '))
    .replace(/[&<>"']/g, (c) => `&#${c.charCodeAt(0)};`);
}

/** Four decimals, no exponent, no -0. Millimetres or degrees. */
export function decimal(value: number): string {
  if (!(Math.abs(value) < 1e9)) throw new Error(`coordinate ${value} in a drawing`);
  return String(Math.round(value * 1e4) / 1e4 || 0);
}
