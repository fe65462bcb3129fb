/** Letters that Unicode does not take apart into a plain letter and a mark. */
const PLAIN: Readonly<Record<string, string>> = {
  ß: 'ss',
  æ: 'ae',
  œ: 'oe',
  ø: 'o',
  ł: 'l',
  đ: 'd',
  ð: 'd',
  þ: 'th',
  ı: 'i',
};

/** Names that one common system keeps for its devices. */
const RESERVED = /^(?:con|prn|aux|nul|com\d|lpt\d)$/;
const LONGEST = 48;

/**
 * A folder name made from an instrument's name: a-z, 0-9 and hyphens. A name without any such letter (another script)
 * gets a short number made from its letters, so that two of them do not share a folder.
 * @example slugOf('Tärn Parlour, No. 2') // 'tarn-parlour-no-2'
 */
export function slugOf(name: string): string {
  const lower = name.normalize('NFKD').toLowerCase();
  const plain = lower.replace(/\p{M}/gu, '').replace(/[ßæœøłđðþı]/gu, (letter) => PLAIN[letter] ?? '');
  const slug = plain
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, LONGEST)
    .replace(/^-+|-+$/g, '');
  if (slug === '') return `instrument-${fingerprint(name)}`;
  return RESERVED.test(slug) ? `instrument-${slug}` : slug;
}

/** FNV-1a, 32 bits, over code points (Fowler, Noll, Vo; IETF draft). Constants from memory. */
function fingerprint(name: string): string {
  let hash = 0x811c9dc5;
  for (const letter of name) {
    hash = Math.imul(hash ^ (letter.codePointAt(0) ?? 0), 0x01000193) >>> 0;
  }
  return hash.toString(16).padStart(8, '0');
}
