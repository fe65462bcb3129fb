/** Letters and signs that do not come apart into a plain letter and an accent, each in plain ones. */
const PLAIN: Readonly<Record<string, string>> = {
  Æ: 'AE',
  æ: 'ae',
  Œ: 'OE',
  œ: 'oe',
  Ø: 'O',
  ø: 'o',
  Ł: 'L',
  ł: 'l',
  Đ: 'D',
  đ: 'd',
  Ð: 'D',
  ð: 'd',
  Þ: 'Th',
  þ: 'th',
  ß: 'ss',
  ẞ: 'SS',
  ı: 'i',
  '‘': "'",
  '’': "'",
  '‚': "'",
  '‹': "'",
  '›': "'",
  '′': "'",
  '“': '"',
  '”': '"',
  '„': '"',
  '«': '"',
  '»': '"',
  '″': '"',
  '‐': '-',
  '‑': '-',
  '‒': '-',
  '–': '-',
  '—': '-',
  '−': '-',
  '×': 'x',
  '÷': '/',
  '⁄': '/',
  '±': '+/-',
  '°': ' deg',
  '•': '-',
  '·': '-',
  '♯': '#',
  '♭': 'b',
};

/** What opens or closes a comment or a program, or ends a line, on one control or another. */
const UNSAFE = /[()[\]{};%]/g;

/**
 * Text safe inside a comment: printable ASCII, nothing that could end the comment. Accents are dropped and signs put in plain
 * letters; what has no plain form is marked by one question mark for a run of it, so that a reader sees that something stood there.
 *
 * @example commentText('Łódź (No. 2) – 1½″') // 'Lodz No. 2 - 1 1/2"'
 */
export function commentText(text: string): string {
  return [...text.replace(/(?<=\d)(?=[¼½¾⅓⅔⅛⅜⅝⅞])/g, ' ')]
    .map((letter) => PLAIN[letter] ?? letter)
    .join('')
    .replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu, ' ')
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[⁄’]/g, (letter) => PLAIN[letter] ?? ' ')
    .replace(UNSAFE, ' ')
    .replace(/[^\x20-\x7e\s]+(?:\s+[^\x20-\x7e\s]+)*/g, '?')
    .replace(/\s+/g, ' ')
    .trim();
}

/** Some controls take a comment that begins with a word and a comma as an order: to show, to log, to probe. */
const ORDER = /^\s*\w+\s*,/;
const MARK = '- ';

/** Room that `inComment` may add to a text. */
export const COMMENT_ROOM = '()'.length + MARK.length;

/** A comment, which no control takes for more than one. */
export function inComment(text: string): string {
  return `(${ORDER.test(text) ? MARK : ''}${text})`;
}
