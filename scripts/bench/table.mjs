// A part's result as text: its notes, then its rows under their columns.

/** `rows`: objects with the same keys; `notes`: sentences; `more`: further tables. */
export function tableText(name, { more = [], ...first }) {
  return [first, ...more].map((table) => oneTable(name, table)).join('');
}

function oneTable(name, { title, notes = [], rows }) {
  const head = `\n${name}: ${title}\n${notes.map((note) => `  ${note}\n`).join('')}`;
  if (rows.length === 0) return head;
  const keys = Object.keys(rows[0]);
  const lines = [keys, ...rows.map((row) => keys.map((key) => shown(row[key])))];
  const widths = keys.map((_, i) => Math.max(...lines.map((line) => line[i].length)));
  const isText = keys.map((key) => rows.every((row) => typeof row[key] === 'string'));
  const text = lines.map(
    (line) =>
      `  ${line.map((cell, i) => (isText[i] ? cell.padEnd(widths[i]) : cell.padStart(widths[i]))).join('  ')}`,
  );
  return `${head}${text.map((line) => line.trimEnd()).join('\n')}\n`;
}

function shown(value) {
  return value === null || value === undefined ? '-' : String(value);
}
