/** A text in the letters that the face has, and what became of the others. */
export interface PlainText {
  readonly text: string;
  /** Letters written without their marks, or spelt otherwise. */
  readonly replaced: readonly string[];
  /** Letters that were left out. */
  readonly leftOut: readonly string[];
}

/** Letters that stay whole when their marks are taken off, and signs of print. */
const SPELT: Readonly<Record<string, string>> = {
  '\u00df': 'ss',
  '\u00c6': 'AE',
  '\u00e6': 'ae',
  '\u0152': 'OE',
  '\u0153': 'oe',
  '\u00d8': 'O',
  '\u00f8': 'o',
  '\u0110': 'D',
  '\u0111': 'd',
  '\u0141': 'L',
  '\u0142': 'l',
  '\u0131': 'i',
  '\u2018': "'",
  '\u2019': "'",
  '\u201c': '"',
  '\u201d': '"',
  '\u2013': '-',
  '\u2014': '-',
  '\u2212': '-',
  '\u00d7': 'x',
};

/**
 * Spells a text in ASCII: letters lose their marks, what cannot be spelt is left out.
 * @example plainText('Bj\u00f6rk \u2116 1').text // 'Bjork No 1'
 */
export function plainText(text: string): PlainText {
  const replaced: string[] = [];
  const leftOut: string[] = [];
  const spelt = [...text.normalize('NFC')].map((letter) => {
    if (isPlain(letter)) return letter;
    const plain = spell(letter);
    (plain === '' ? leftOut : replaced).push(letter);
    return plain;
  });
  return { text: spelt.join('').replace(/ +/g, ' ').trim(), replaced, leftOut };
}

function spell(letter: string): string {
  const known = SPELT[letter];
  if (known !== undefined) return known;
  const bare = letter.normalize('NFKD').replace(/\p{M}/gu, '');
  return [...bare].every(isPlain) ? bare : '';
}

function isPlain(letter: string): boolean {
  return letter >= ' ' && letter <= '~' && letter.length === 1;
}
