import { escapeXml } from '../svg/xml.ts';
import { STYLE_HASH } from './hashes.ts';
import { PAGE_STYLE } from './style.ts';

export interface PageScript {
  readonly text: string;
  readonly hash: string;
  /** It hears from where the page came from; all others reach nothing. */
  readonly hears?: true;
}

/**
 * A whole HTML page around a body. It may run only scripts whose hash is named, and load nothing at all: a name from a
 * profile that slipped through as markup would still do nothing.
 */
export function htmlDocument(title: string, body: string, ...scripts: readonly PageScript[]): string {
  const allowed = scripts.length === 0 ? "'none'" : scripts.map(({ hash }) => `'${hash}'`).join(' ');
  const hears = scripts.some((script) => script.hears) ? "connect-src 'self'; " : '';
  const policy = `default-src 'none'; ${hears}style-src '${STYLE_HASH}'; script-src ${allowed}; base-uri 'none'; form-action 'none'`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${escapeXml(title)}</title>
<style>${PAGE_STYLE}</style>
</head>
<body>
${body}
${scripts.map(({ text }) => `<script>${text}</script>\n`).join('')}</body>
</html>
`;
}

/** Text as one paragraph for each part between empty lines. */
export function paragraphs(text: string): string {
  return text
    .split(/\n\s*\n/)
    .map((part) => part.trim())
    .filter((part) => part !== '')
    .map((part) => `<p>${escapeXml(part)}</p>`)
    .join('\n');
}

/** Cautions as a list, or nothing where there are none. */
export function cautionList(cautions: readonly string[]): string {
  if (cautions.length === 0) return '';
  const items = cautions.map((caution) => `<li>${escapeXml(caution)}</li>`).join('\n');
  return `<section class="cautions" aria-label="Cautions"><h2>Cautions</h2><ul>\n${items}\n</ul></section>`;
}
