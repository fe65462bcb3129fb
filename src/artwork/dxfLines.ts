/** The entities of a DXF text by name and line: the reader that gives their figures keeps neither lines nor what it does not know. */
export interface EntityLine {
  readonly name: string;
  readonly line: number;
}

/** Entities of the section ENTITIES, in order; vertices and ends of sequences belong to theirs. */
export function entityLines(text: string): EntityLine[] {
  const lines = text.split(/\r\n|\r|\n/);
  const entities: EntityLine[] = [];
  let section = '';
  for (let i = 0; i + 1 < lines.length; i += 2) {
    const [code, value] = [lines[i]?.trim(), lines[i + 1]?.trim() ?? ''];
    if (code === '2' && lines[i - 1]?.trim() === 'SECTION') section = value;
    if (code !== '0') continue;
    if (value === 'ENDSEC') section = '';
    else if (section === 'ENTITIES' && value !== 'VERTEX' && value !== 'SEQEND' && value !== 'SECTION') {
      entities.push({ name: value, line: i + 2 });
    }
  }
  return entities;
}
