import type { Page } from '../sheet/pages/types.ts';
import { writePageFigures } from '../writers/csv/pageFigures.ts';
import { writePageHtml } from '../writers/html/page.ts';
import { writePageMarkdown } from '../writers/notes/pageMarkdown.ts';
import type { ProgramFigures } from '../writers/notes/types.ts';
import type { Design } from './design.ts';
import { file } from './file.ts';
import { sha256 } from './hash.ts';
import type { OutputFile } from './types.ts';
import { benchPageOf, orderPageOf } from './workPages.ts';

/** The bench sheets and the order of work, to print and to work down. */
export function workFiles(made: Design, figures: readonly ProgramFigures[]): OutputFile[] {
  const hash = profileHashOf(made);
  const bench = benchPageOf(made.instrument.value, made.layout, hash);
  const order = orderPageOf(made, figures, hash);
  return [
    ...pageFiles('bench-sheets', bench),
    file('bench-sheets.csv', 'sheet', writePageFigures(bench)),
    ...pageFiles('order-of-work', order),
  ];
}

/** Of the profile as it was read. */
export function profileHashOf({ instrument }: Design): string {
  return sha256(instrument.sources[0]?.text ?? '');
}

function pageFiles(name: string, page: Page): OutputFile[] {
  return [
    file(`${name}.html`, 'sheet', writePageHtml(page)),
    file(`${name}.md`, 'sheet', writePageMarkdown(page)),
  ];
}
