/** What one line of a program says. */
/** What a line says: its G and M numbers and its letters. */
export interface Line {
  readonly g: readonly number[];
  readonly m: readonly number[];
  readonly words: ReadonlyMap<string, number>;
  /** Why it cannot be read. */
  readonly error: string | null;
}

const lines = new Map<string, Line>();
/** Lines are met again and again in programs that differ by a word; more than this many are forgotten. */
const MOST_LINES_KEPT = 200_000;

/** Reads a line. */
export function lineOf(raw: string): Line {
  const known = lines.get(raw);
  if (known !== undefined) return known;
  if (lines.size > MOST_LINES_KEPT) lines.clear();
  const line = parse(raw);
  lines.set(raw, line);
  return line;
}

function parse(raw: string): Line {
  const bad = (error: string): Line => ({ g: [], m: [], words: new Map(), error });
  if (raw.length > 256) return bad('too long a line');
  const bare = raw
    .replace(/\r$/, '')
    .replace(/\([^()]*\)/g, '')
    .replace(/;.*$/, '')
    .replace(/[ \t]/g, '')
    .toUpperCase();
  if (/^%?$/.test(bare)) return { g: [], m: [], words: new Map(), error: null };
  if (/[^\x20-\x7e\t\r]/.test(raw)) return bad('a character that is none');
  const body = bare.replace(/^N\d{1,5}/, '');
  if (!/^([A-Z][+-]?(\d+\.?\d*|\.\d+))*$/.test(body)) return bad(`cannot read ${raw}`);
  const g: number[] = [];
  const m: number[] = [];
  const words = new Map<string, number>();
  for (const [, letter = '', digits = ''] of body.matchAll(/([A-Z])([+-]?[\d.]+)/g)) {
    const value = Number(digits) + 0;
    if (letter === 'G') g.push(value);
    else if (letter === 'M') m.push(value);
    else if (words.has(letter)) return bad(`two ${letter} words`);
    else if (!'XYZIJKRFSTPQLH'.includes(letter)) return bad(`the letter ${letter}`);
    else words.set(letter, value);
  }
  const error = twiceInGroup(g, GROUPS) ?? twiceInGroup(m, M_GROUPS);
  return { g, m, words, error };
}

/** Words that say how to move. */
export const MOTIONS = [0, 1, 2, 3, 80, 81, 82, 83];
const GROUPS = [
  MOTIONS,
  [17, 18, 19],
  [20, 21],
  [90, 91],
  [93, 94],
  [61, 64],
  [54, 55, 56, 57, 58, 59],
  [40],
  [43, 49],
  [98, 99],
  [4],
];
const M_GROUPS = [[0, 1, 2, 30], [3, 4, 5], [6], [7, 8, 9]];

function twiceInGroup(codes: readonly number[], groups: readonly (readonly number[])[]): string | null {
  for (const code of codes) if (!groups.some((group) => group.includes(code))) return `the code ${code}`;
  const twice = groups.find((group) => codes.filter((code) => group.includes(code)).length > 1);
  return twice === undefined ? null : `two of ${twice.join(', ')}`;
}
