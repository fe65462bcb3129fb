import type { Page, PageBlock, PageCell, PageTable } from '../../sheet/pages/types.ts';
import { bullets, page, plain, table } from './markdown.ts';

/** Pages to work down as one text of Markdown: empty cells to write in, boxes as brackets. */
export function writePageMarkdown(content: Page): string {
  return page([
    `# ${plain(content.title)}`,
    ...content.head.map(plain),
    ...content.blocks.map(blockText),
    `*${plain(content.foot)}*`,
  ]);
}

function blockText(block: PageBlock): string {
  switch (block.kind) {
    case 'heading':
      return `${'#'.repeat(block.level)} ${plain(block.text)}`;
    case 'text':
      return plain(block.text);
    case 'list':
      return bullets(block.items.map(plain));
    case 'ticks':
      return bullets(block.items.map((item) => `[ ] ${plain(item)}`));
    case 'stop':
    case 'caution':
      return `> **${plain(block.title)}:** ${plain(block.text)}.`.replace(/([.!?])\.$/, '$1');
    case 'table':
      return tableText(block);
  }
}

function tableText({ columns, rows }: PageTable): string {
  const right = columns.flatMap((c, i) => (c.align === 'right' ? [i] : []));
  return table(
    columns.map((c) => plain(c.head)),
    rows.map((row) => row.map(cellText)),
    right,
  );
}

function cellText(cell: PageCell): string {
  if (typeof cell === 'string') return plain(cell);
  return cell.leave === 'tick' ? '[ ]' : '';
}
