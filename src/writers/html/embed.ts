/**
 * Data as JSON that may stand inside a script element: no character in it can end the element, open a comment or break
 * a line of an older script reader.
 */
export function embedJson(data: unknown): string {
  return JSON.stringify(data).replace(/[<>&\u2028\u2029]/g, (c) => {
    return `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`;
  });
}
