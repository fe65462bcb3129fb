/** The tags of an XML text, with their lines: as much of XML as a drawing needs. Text between tags is passed over. */
export interface Tag {
  readonly name: string;
  readonly kind: 'open' | 'close' | 'empty';
  readonly attributes: ReadonlyMap<string, string>;
  readonly line: number;
}

const TAG =
  /<!--[\s\S]*?-->|<!\[CDATA\[[\s\S]*?\]\]>|<\?[\s\S]*?\?>|<!(?:[^<>[\]]|\[[^\]]*\])*>|<(\/?)([A-Za-z_][\w:.-]*)((?:\s+[\w:.-]+\s*=\s*(?:"[^"]*"|'[^']*'))*)\s*(\/?)>|</g;
const ATTRIBUTE = /([\w:.-]+)\s*=\s*(?:"([^"]*)"|'([^']*)')/g;

/** Tags in order, or the line of the first thing that is no XML. Names lose their prefix. */
export function readTags(text: string): readonly Tag[] | { readonly brokenAt: number } {
  const tags: Tag[] = [];
  let line = 1;
  let seen = 0;
  for (const match of text.matchAll(TAG)) {
    line += countLines(text, seen, match.index);
    seen = match.index;
    const [whole, slash, name, attributes, empty] = match;
    if (whole === '<') return { brokenAt: line };
    if (name === undefined) continue;
    tags.push({
      name: name.replace(/^.*:/, ''),
      kind: slash === '/' ? 'close' : empty === '/' ? 'empty' : 'open',
      attributes: attributesOf(attributes ?? ''),
      line,
    });
  }
  return tags;
}

function countLines(text: string, from: number, to: number): number {
  let count = 0;
  for (let i = text.indexOf('\n', from); i >= 0 && i < to; i = text.indexOf('\n', i + 1)) count += 1;
  return count;
}

function attributesOf(text: string): Map<string, string> {
  return new Map([...text.matchAll(ATTRIBUTE)].map((m) => [m[1] ?? '', plain(m[2] ?? m[3] ?? '')]));
}

const ENTITIES: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" };

function plain(text: string): string {
  return text.replace(/&(?:#(\d+)|#x([\da-f]+)|(\w+));/gi, (whole, decimal, hex, name) => {
    if (decimal !== undefined) return String.fromCodePoint(Number(decimal));
    if (hex !== undefined) return String.fromCodePoint(Number.parseInt(hex, 16));
    return ENTITIES[name] ?? whole;
  });
}
