import type { Page, PageBlock, PageCell, PageTable } from '../../sheet/pages/types.ts';
import { escapeXml } from '../svg/xml.ts';
import { WORK_STYLE, WORK_STYLE_HASH } from './pageStyle.ts';

/** Pages to work down as one page for a browser or a printer. It loads nothing and runs no script. */
export function writePageHtml(page: Page): string {
  const policy = `default-src 'none'; style-src '${WORK_STYLE_HASH}'; base-uri 'none'; form-action 'none'`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${escapeXml(page.title)}</title>
<style>${WORK_STYLE}</style>
</head>
<body>
<main>
<h1><bdi>${escapeXml(page.title)}</bdi></h1>
${page.head.map((line) => `<p>${escapeXml(line)}</p>`).join('\n')}
<p class="screen">What is typed or ticked here stays only until the page is closed: print it, or keep the figures elsewhere.</p>
${page.blocks.map(blockHtml).join('\n')}
</main>
<footer>${escapeXml(page.foot)}</footer>
</body>
</html>
`;
}

function blockHtml(block: PageBlock): string {
  switch (block.kind) {
    case 'heading':
      return `<h${block.level}>${escapeXml(block.text)}</h${block.level}>`;
    case 'text':
      return `<p>${escapeXml(block.text)}</p>`;
    case 'list':
      return `<ul>${block.items.map((item) => `<li>${escapeXml(item)}</li>`).join('')}</ul>`;
    case 'ticks':
      return `<ul class="ticks">${block.items.map(tickItem).join('')}</ul>`;
    case 'stop':
    case 'caution':
      return `<div class="${block.kind}"><strong>${escapeXml(block.title)}:</strong>${escapeXml(block.text)}</div>`;
    case 'table':
      return tableHtml(block);
  }
}

function tickItem(item: string): string {
  return `<li><label><input type="checkbox">${escapeXml(item)}</label></li>`;
}

function tableHtml({ name, columns, rows }: PageTable): string {
  const heads = columns.map(
    (c) => `<th scope="col"${c.align === 'right' ? ' class="n"' : ''}>${escapeXml(c.head)}</th>`,
  );
  const body = rows.map((row) => {
    const [first] = row;
    const label = `${name}, ${typeof first === 'string' ? first : ''}`;
    const cells = row.map((cell, i) => cellHtml(cell, columns[i]?.align === 'right', label));
    return `<tr>${cells.join('')}</tr>`;
  });
  return `<div class="wide"><table><caption>${escapeXml(name)}</caption><thead><tr>${heads.join('')}</tr></thead><tbody>
${body.join('\n')}
</tbody></table></div>`;
}

function cellHtml(cell: PageCell, isNumber: boolean, row: string): string {
  if (typeof cell === 'string') return `<td${isNumber ? ' class="n"' : ''}>${escapeXml(cell)}</td>`;
  const label = escapeXml(`${cell.leave === 'tick' ? 'right' : 'measured'}: ${row}`);
  return cell.leave === 'tick'
    ? `<td><input type="checkbox" aria-label="${label}"></td>`
    : `<td><input type="text" inputmode="decimal" autocomplete="off" aria-label="${label}"></td>`;
}
