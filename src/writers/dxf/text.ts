/**
 * A text as one DXF string: printable ASCII only, nothing that a reader takes for a command.
 *
 * Control characters and line breaks would start a new tag and become a space. `\` and `^` open control sequences
 * inside a DXF text, and so does `%` beside another: they are written by their code, as is all that is not ASCII,
 * `\U+XXXX`; beyond the 16-bit range as two surrogates (published DXF reference, TEXT; ezdxf documentation, encoding).
 *
 * @example dxfText('Fräse\n100%') // 'Fr\\U+00E4se 100%'
 */
export function dxfText(text: string): string {
  const line = text.replace(/[\p{Cc}\p{Zl}\p{Zp}\p{Zs}]+/gu, ' ').trim();
  return line.replace(/[^\x20-\x7e]|[\\^]|%(?=%)|(?<=%)%/g, coded);
}

function coded(unit: string): string {
  return `\\U+${unit.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}`;
}
