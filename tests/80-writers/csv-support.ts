/** Rows of RFC 4180 text: fields apart by commas, rows by CRLF, doubled quotes inside quotes. Throws on anything else. */
export function readCsv(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let at = 0;
  while (at < text.length) {
    const [, quoted, bare, end] = field(text, at);
    row.push(quoted === undefined ? (bare ?? '') : quoted.replaceAll('""', '"'));
    at = FIELD.lastIndex;
    if (end === ',') continue;
    rows.push(row);
    row = [];
  }
  if (row.length > 0) throw new Error('the last row does not end');
  return rows;
}

const FIELD = /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n)/y;

function field(text: string, at: number): RegExpExecArray {
  FIELD.lastIndex = at;
  const match = FIELD.exec(text);
  if (match === null) throw new Error(`not a field: ${JSON.stringify(text.slice(at, at + 40))}`);
  return match;
}
